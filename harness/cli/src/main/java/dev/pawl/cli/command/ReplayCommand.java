package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.keep.KeptTrace;
import dev.pawl.cli.option.BrokerOptions;
import dev.pawl.cli.option.CheckOptions;
import dev.pawl.cli.option.Operands;
import dev.pawl.cli.option.Option;
import dev.pawl.cli.option.ProgramOptions;
import dev.pawl.cli.option.ReplayOptions;
import dev.pawl.cli.option.ReportOptions;
import dev.pawl.cli.option.Syntax;
import dev.pawl.cli.option.TimeSpan;
import dev.pawl.cli.output.CheckOutput;
import dev.pawl.cli.output.LiveLines;
import dev.pawl.engine.Caution;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.ConnectionTrouble;
import dev.pawl.mqtt.replay.Pace;
import dev.pawl.mqtt.time.HarnessClock;
import dev.pawl.report.model.Report;
import dev.pawl.run.EventSource;
import dev.pawl.run.control.Bench;
import dev.pawl.run.control.BenchController;
import dev.pawl.run.control.BenchListener;
import dev.pawl.run.control.LogicController;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.ParseResult;

/**
 * {@code pawl replay}: logic under test, driven by a trace's inputs or by a ride in motion, and judged by its outputs.
 */
public final class ReplayCommand implements Command {

  static final Option<Pace> PACE = Option.text("PACE",
      "With --broker: how fast the trace is played: 1x, 10x, or as-fast-as-possible, step by step with a hand-shake"
          + " (usual).", "--pace").as(ReplayCommand::pace);
  private static final Option<Boolean> CHALLENGE =
      Option.flag("Run the logic again with one input turned shortly before a"
      + " trigger that a rule ties to it (a dispatch to closed gates): the rule is broken where the trigger comes all "
      + "the"
      + " same. Takes up to 200 more runs for each trace.", "--challenge");
  private static final Option<Optional<Duration>> STEP = Option.text("TIME",
      "With --broker, step by step: the longest step. A bench side whose answers state no time is judged only as finely"
          + " as this.", "--step").as(TimeSpan::optional);

  @Override
  public Syntax syntax() {
    return Syntax.of(
        Syntax.all(CheckOptions.ALL, ReplayOptions.ALL, List.of(CHALLENGE, ReportOptions.EARLIER),
            BrokerOptions.PUBLISHING, List.of(PACE, STEP)),
        Operands.any("TRACE", "Recorded traces, or folders of them; with --ride names of scenarios."),
        "Runs logic in Structured Text (IEC 61131-3), scan by scan in virtual time. The inputs of a",
        "recorded trace drive it, and its outputs are judged with them; what the trace says of those outputs is left"
            + " out and counted.",
        "A recording cannot react to the logic: from the first output on that is not as recorded, signals that follow "
            + "it"
            + " are unknown to the rules. --bindings says which do. --ride closes the loop.",
        "With --broker the logic is on a bench behind MQTT. Inputs are published to, and outputs read from, the topics"
            + " that --bindings states, or bench/SIGNAL; the steps of the hand-shake go on pawl/step. With --ride too"
            + " trains move as the bench commands.",
        "Exit status: 0 nothing broken, 1 a rule broken, 2 wrong input or command, or the logic failed,",
        "3 with --require-proof only, 4 with --decisions only.");
  }

  @Override
  public List<Caution> cautions() {
    return Caution.OF_PUBLISHING;
  }

  @Override
  public int run(ParseResult words, Console console) {
    if (BrokerOptions.BROKER.isGiven(words)) {
      return overBroker(words, console);
    }
    ReplayOptions replay = ReplayOptions.of(words);
    CheckOptions options = (replay.ride().isPresent() ? CheckOptions.withoutTraces(words) : CheckOptions.of(words))
        .asked(words, syntax());
    ReplaySetup setup = ReplaySetup.of(replay, console);
    CheckOutput output = new CheckOutput(options.report(), console);
    try (CheckJob job = CheckJob.begin(options, console)) {
      LogicController controller = setup.controller(job.rules(), job.bindings())
          .withChallenges(CHALLENGE.isGiven(words));
      return output.close(job.judge(controller, setup.sources(job, options.traces()), output::tell));
    }
  }

  /** The logic is behind a broker, not in this process. */
  private int overBroker(ParseResult words, Console console) {
    if (ProgramOptions.LOGIC.isGiven(words)) {
      throw new CommandException("--broker: the logic is on the bench; start it there ('pawl serve --logic FILE'),"
          + " not here");
    }
    if (CHALLENGE.isGiven(words)) {
      throw new CommandException("--challenge: belongs to logic in process; a bench is played to once");
    }
    Optional<String> ride = ReplayOptions.RIDE.of(words);
    CheckOptions options = (ride.isPresent() ? CheckOptions.withoutTraces(words) : CheckOptions.of(words))
        .asked(words, syntax());
    KeptTrace recording = ReplayOptions.keep(words).orElseThrow(() ->
        new CommandException("--broker: say with --keep FILE where the recording goes; it is what is judged"));
    console.warn(Caution.INJECTION, Caution.PROTECTION);
    Pace pace = steps(STEP.of(words), PACE.of(words));
    Duration listening = BrokerOptions.LISTEN.of(words);
    BrokerOptions broker = BrokerOptions.of(words, console);
    CheckOutput output = new CheckOutput(options.report(), console);
    // An interrupt ends the replay; what came until then is judged all the same.
    try (CheckJob job = CheckJob.begin(options, console.undisturbed())) {
      List<EventSource> played = ride.map(file -> ReplaySetup.scenarios(ReplaySetup.ride(file, job.rules(),
          options.traces(), console), options.traces(), ProgramOptions.settings(words).scans().period()))
          .orElseGet(job::traces);
      if (played.size() != 1) {
        throw new CommandException("--broker: one " + (ride.isPresent() ? "scenario" : "trace")
            + " is played at a time, not " + played.size());
      }
      TopicBindings topics = BrokerOptions.topics(options.reading().bindings(), job.rules().book(),
          TopicBindings.BENCH_PREFIX, console);
      HarnessClock clock = HarnessClock.started();
      try (BrokerSession session = new BrokerSession(broker, clock, console)) {
        Bench bench = new Bench(session.settings("replay"), topics, () -> session.guard("replay"), clock);
        LiveLines lines = new LiveLines(job.rules().book(), console);
        Report report = job.judge(new BenchController(bench, pace, listening, recording, lines,
            new BenchLines(pace, listening, console)), played, output::tell);
        lines.flush();
        return output.close(report);
      }
    } catch (ConnectionTrouble e) {
      throw new CommandException(e.getMessage());
    }
  }

  private static Pace steps(Optional<Duration> longest, Pace pace) {
    if (longest.isEmpty()) {
      return pace;
    }
    if (!pace.isStepped() || longest.get().isZero()) {
      throw new CommandException("--step: " + (pace.isStepped() ? "a step takes some time"
          : "at pace " + pace + " there are no steps"));
    }
    return pace.withLongestStep(longest.get().toNanos());
  }

  private static Pace pace(String option, Optional<String> word) {
    return word.map(text -> Pace.parse(text).orElseThrow(() -> new CommandException(option + ": '" + text
        + "' is not known; write 1x, 10x or " + Pace.STEPPED))).orElse(Pace.STEPPED);
  }

  /** What a replay over a broker says on the console. */
  private record BenchLines(Pace pace, Duration listening, Console console) implements BenchListener {

    @Override
    public void listens() {
      BrokerOptions.sayListening(listening, console);
    }

    @Override
    public void waits(String words) {
      console.err().println("pawl: " + words);
    }

    @Override
    public void kept(String words) {
      console.err().println("pawl: pace " + pace + ": " + words);
    }

    @Override
    public boolean isEndWanted() {
      return console.interruption().isRequested();
    }
  }
}
