package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.ExitStatus;
import dev.pawl.cli.option.BrokerOptions;
import dev.pawl.cli.option.Operands;
import dev.pawl.cli.option.Option;
import dev.pawl.cli.option.ProgramOptions;
import dev.pawl.cli.option.ReadingOptions;
import dev.pawl.cli.option.ReplayOptions;
import dev.pawl.cli.option.RuleOptions;
import dev.pawl.cli.option.Syntax;
import dev.pawl.engine.Caution;
import dev.pawl.engine.EventSink;
import dev.pawl.logic.LogicHarness;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.ConnectionTrouble;
import dev.pawl.mqtt.client.PublishRefused;
import dev.pawl.mqtt.guard.BenchGuard;
import dev.pawl.mqtt.replay.Pace;
import dev.pawl.mqtt.station.Station;
import dev.pawl.mqtt.time.HarnessClock;
import dev.pawl.run.control.LogicController;
import dev.pawl.run.files.BindingsFiles;
import dev.pawl.run.files.RuleFiles;
import dev.pawl.trace.bindings.Bindings;
import java.time.Duration;
import java.util.List;
import java.util.function.UnaryOperator;
import picocli.CommandLine.ParseResult;

/**
 * {@code pawl serve}: the bench side of a replay over a broker: logic in Structured Text that answers as a controller
 * would.
 */
public final class ServeCommand implements Command {

  private static final Option<Pace> PACE = ReplayCommand.PACE.withHelp(
      "How fast logic time passes: as that of the replay; usual is as-fast-as-possible.");

  @Override
  public Syntax syntax() {
    return Syntax.of(
        Syntax.all(List.of(RuleOptions.RULES, RuleOptions.USE_FROM, BrokerOptions.bindings(TopicBindings.BENCH_PREFIX)),
            ProgramOptions.ALL, BrokerOptions.PUBLISHING, List.of(PACE)),
        Operands.any("RULES", "Rule files (*.rules), as with --rules."),
        "Serves logic in Structured Text over a broker, as the bench side of 'pawl replay --broker'. Runs until"
            + " interrupted; each replay finds the logic as after power-up.",
        "A bench side of your own, of MQTT 3.1.1 or 5, answers step by step like this: on pawl/step come NUMBER COUNT"
            + " TIME, three numbers with blanks between. When COUNT inputs have come in this replay, run up to TIME"
            + " (nanoseconds, trace time), take the inputs, send the outputs, and send NUMBER COUNT on pawl/done, with"
            + " the outputs sent in this replay. Step 1 begins a replay. Say in each output to which time it belongs"
            + " (in the bindings: SIGNAL on \"TOPIC\" json \"/v\" trace time \"/t\" ns), or replay with short steps"
            + " (--step 10ms). Topics, payloads and what to do after a lost connection: harness/mqtt/BROKER.md.",
        "Exit status: 0 ended on request, 2 wrong input or command.");
  }

  @Override
  public List<Caution> cautions() {
    return Caution.OF_PUBLISHING;
  }

  @Override
  public int run(ParseResult words, Console console) {
    RuleOptions named = RuleOptions.alone(words);
    ReplayOptions replay = ReplayOptions.of(words);
    Pace pace = PACE.of(words);
    Duration listening = BrokerOptions.LISTEN.of(words);
    RuleFiles rules = named.load(console);
    LogicController logic = ReplaySetup.of(replay, console).controller(rules,
        ReadingOptions.BINDINGS.of(words).map(file -> BindingsFiles.load(file, rules.book()).bindings())
            .orElse(Bindings.NONE));
    TopicBindings topics = BrokerOptions.topics(ReadingOptions.BINDINGS.of(words), rules.book(),
        TopicBindings.BENCH_PREFIX, console);
    UnaryOperator<EventSink> made = out -> new LogicHarness(logic.program(), logic.binding(), rules.book(),
        logic.scans(), out);
    HarnessClock clock = HarnessClock.started();
    console.warn(Caution.INJECTION, Caution.PROTECTION);
    try (BrokerSession session = new BrokerSession(BrokerOptions.of(words, console), clock, console);
        BenchGuard guard = session.guard("serve")) {
      console.interruption().isTheUsualEnd();
      Station station = new Station(rules.book(), topics, made, pace, clock);
      Runnable serving = () -> console.err().println("pawl: serving " + String.join(", ", replay.logic()) + " at "
          + session.address()
          + ", pace " + pace);
      BrokerOptions.sayListening(listening, console);
      station.run(session.settings("serve"), guard, listening, serving, console.interruption()::isRequested);
      console.err().println("pawl: serving ended on request");
    } catch (ConnectionTrouble | PublishRefused e) {
      throw new CommandException(e.getMessage());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    return ExitStatus.NOTHING_BROKEN;
  }
}
