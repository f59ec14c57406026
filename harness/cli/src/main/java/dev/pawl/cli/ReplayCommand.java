package dev.pawl.cli;

import dev.pawl.engine.Caution;
import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.source.NearNames;
import dev.pawl.logic.SignalBinding;
import dev.pawl.mqtt.client.ConnectionTrouble;
import dev.pawl.mqtt.replay.Pace;
import dev.pawl.plant.demo.RideLoop;
import dev.pawl.report.compare.EdgeLog;
import dev.pawl.report.model.Input;
import dev.pawl.trace.TraceOptions;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code pawl replay}: logic under test, driven by a trace's inputs or by a ride in motion, and judged by its outputs. */
final class ReplayCommand implements Command {

  private static final String NAME = "pawl replay";
  private static final String OPEN_LOOP = "The inputs are a recording, which cannot react: trains did not move because this logic"
      + " changed its outputs. Once an output differs from what was recorded, later verdicts rest on inputs that need not have come.";
  private static final String CLOSED_LOOP = "The trains of this run were simulated. A model of a ride is not the ride.";

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CheckOptions.spec(NAME);
    spec.usageMessage().description("Runs logic in Structured Text (IEC 61131-3), scan by scan in virtual time. The inputs of a",
        "recorded trace drive it, and its outputs are judged with them; what the trace says of those outputs is left out and counted.",
        "A recording cannot react to the logic: trains do not move because an output changed. --ride closes the loop.",
        "With --broker the logic is on a bench behind MQTT. Inputs are published to, and outputs read from, the topics that --bindings states,"
            + " or bench/SIGNAL; the steps of the hand-shake go on pawl/step.",
        "Exit status: 0 nothing broken, 1 a rule broken, 2 wrong input or command, or the logic failed,",
        "3 with --require-proof only.");
    ReplayOptions.addTo(spec);
    BrokerOptions.addTo(spec);
    BrokerOptions.addBench(spec);
    BrokerOptions.addListening(spec);
    spec.addOption(CheckOptions.text("PACE",
        "With --broker: how fast the trace is played: 1x, 10x, or as-fast-as-possible, step by step with a"
        + " hand-shake (usual).", "--pace"));
    spec.addOption(CheckOptions.text("TIME", "With --broker, step by step: the longest step. A bench side whose answers state no time is"
        + " judged only as finely as this.", "--step"));
    CheckOptions.addTraces(spec, "Recorded traces, or folders of them; with --ride names of scenarios.");
    return spec;
  }

  @Override
  public List<Caution> cautions() {
    return Caution.OF_PUBLISHING;
  }

  @Override
  public int run(ParseResult words, Console console) {
    if (words.hasMatchedOption("--broker")) {
      return overBroker(words, console);
    }
    ReplayOptions replay = ReplayOptions.of(words, NAME);
    CheckOptions options = replay.ride().isPresent() ? CheckOptions.withoutTraces(words, NAME) : CheckOptions.of(words, NAME);
    LogicFiles logic = LogicFiles.load(replay.logic(), console);
    CheckOutput output = new CheckOutput(options, console);
    return output.close(new CheckJob(options, console, new Replay(replay, logic, Optional.empty())).run(output::tell));
  }

  /** The logic is behind a broker, not in this process. */
  private static int overBroker(ParseResult words, Console console) {
    if (words.hasMatchedOption("--logic") || words.hasMatchedOption("--ride")) {
      throw new CommandException("--broker: the logic is on the bench; start it there ('pawl serve --logic FILE.st'), not here");
    }
    CheckOptions options = CheckOptions.of(words, NAME);
    KeptTrace recording = ReplayOptions.keep(words).orElseThrow(() ->
        new CommandException("--broker: say with --keep FILE where the recording goes; it is what is judged"));
    console.warn(Caution.INJECTION, Caution.PROTECTION);
    try {
      BrokerReplay arrangement = new BrokerReplay(BrokerOptions.of(words, console), steps(words, pace(words)),
          BrokerOptions.listening(words), recording, console);
      CheckOutput output = new CheckOutput(options, console);
      // An interrupt ends the replay; what came until then is judged all the same.
      return output.close(new CheckJob(options, console.undisturbed(), arrangement).run(output::tell));
    } catch (ConnectionTrouble e) {
      throw new CommandException(e.getMessage());
    }
  }

  private static Pace steps(ParseResult words, Pace pace) {
    Optional<String> step = CheckOptions.value(words, "--step");
    if (step.isEmpty()) {
      return pace;
    }
    long longest = Durations.of("--step", step.get());
    if (!pace.isStepped() || longest <= 0) {
      throw new CommandException("--step: " + (pace.isStepped() ? "a step takes some time" : "at pace " + pace + " there are no steps"));
    }
    return pace.withLongestStep(longest);
  }

  static Pace pace(ParseResult words) {
    String text = CheckOptions.value(words, "--pace").orElse(Pace.STEPPED.toString());
    return Pace.parse(text).orElseThrow(() -> new CommandException("--pace: '" + text + "' is not known; write 1x, 10x or "
        + Pace.STEPPED));
  }

  /**
   * What a replay plays: traces or scenarios, through the logic.
   *
   * @param edges takes the edges of the outputs by name of the run, where they are wanted
   */
  record Replay(ReplayOptions options, LogicFiles logic, Optional<Map<String, EdgeLog>> edges) implements Arrangement {

    @Override
    public List<Course> courses(CheckOptions check, RuleFiles rules, TraceOptions reading) {
      List<Course> courses = options.ride().isPresent() ? scenarios(Path.of(options.ride().get()), check.traces(), rules)
          : Arrangement.recorded(check, rules.book(), reading);
      if (options.keep().isPresent() && courses.size() > 1) {
        throw new CommandException("--keep: what is judged of " + courses.size() + " runs does not go into one file; name one");
      }
      return courses;
    }

    private static List<Course> scenarios(Path ride, List<String> names, RuleFiles rules) {
      if (!Files.isDirectory(ride)) {
        throw new CommandException("--ride: " + ride + ": no such folder");
      }
      List<String> missing = RideLoop.missing(rules.book());
      if (!missing.isEmpty()) {
        throw new CommandException("--ride: the rules lack signals of the ride, or have them with another type: "
            + String.join(", ", missing));
      }
      List<String> known = RideLoop.scenarios();
      List<Course> courses = new ArrayList<>();
      for (String name : names.isEmpty() ? known : names) {
        if (!known.contains(name)) {
          String hint = NearNames.suggestion(name, known);
          throw new CommandException("no scenario '" + name + "'" + (hint.isEmpty() ? ";" : "; " + hint) + " there are "
              + String.join(", ", known));
        }
        courses.add(new RideCourse(ride, name, rules.book()));
      }
      return courses;
    }

    @Override
    public Drive drive(RuleFiles rules, Console console) {
      List<String> names = rules.book().signals().stream().map(Signal::name).toList();
      for (String name : options.variables().keySet()) {
        known("--variable", name, names);
      }
      for (String name : options.recorded()) {
        known("--as-recorded", name, names);
      }
      SignalBinding binding = logic.bind(rules, options, console);
      return new LogicDrive(rules.book(), logic, binding, logic.compile(binding, options.language()), options.scans(),
          new Keeping(options.keep()), (course, judge) -> edges.isEmpty() ? judge : log(course, rules.book(), judge));
    }

    private EventSink log(String course, RuleBook book, EventSink judge) {
      EdgeLog log = new EdgeLog(book, judge);
      edges.orElseThrow().put(course, log);
      return log;
    }

    private static void known(String option, String name, List<String> names) {
      if (!names.contains(name)) {
        String hint = NearNames.suggestion(name, names);
        throw new CommandException(option + ": the rules declare no signal '" + name + "'" + (hint.isEmpty() ? "" : "; " + hint));
      }
    }

    @Override
    public List<Input> inputs() {
      return logic.inputs();
    }

    @Override
    public List<String> cautions() {
      return List.of(options.ride().isPresent() ? CLOSED_LOOP : OPEN_LOOP);
    }
  }
}
