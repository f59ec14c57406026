package dev.pawl.mqtt.demo;

import dev.pawl.demo.DemoRide;
import dev.pawl.demo.LogicPatch;
import dev.pawl.engine.EventSink;
import dev.pawl.grammar.logic.LogicLanguage;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.source.Source;
import dev.pawl.logic.LogicHarness;
import dev.pawl.logic.LogicOptions;
import dev.pawl.logic.LogicProgram;
import dev.pawl.logic.ScanOptions;
import dev.pawl.logic.SignalBinding;
import dev.pawl.mqtt.replay.InputSource;
import dev.pawl.mqtt.support.Ride.Event;
import dev.pawl.mqtt.support.Ride.Kept;
import dev.pawl.plant.loop.RideLoop;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;

/**
 * What the demo ride's sensors told in one scenario, while it moved as one program commands, up to its end.
 *
 * @param inputs in order of time
 * @param end nanoseconds
 */
record DemoDay(List<Event> inputs, long end) implements InputSource {

  static final String RIGHT = LogicPatch.RIGHT;
  static final RuleBook BOOK = book();

  private static final Path RIDE = Path.of("../../fixtures/kestrel-ridge");
  /** Shortest first, by how many instants have a change of an input: a step of the hand-shake each. */
  private static final List<String> SCENARIOS = List.of("stop-during-dispatch", "stop-before-midcourse", "slack-chain",
      "roll-back", "occupied-dispatch", "desk-mistakes", "late-drive-stop", "tail-over-flag", "trial");

  /** A program and a scenario in which it has to break something, or the right program and one in which it must not. */
  record Case(String program, String scenario) {

    /**
     * The rules that closed-loop.expected names: the program's own, and those that the scenario breaks whatever the
     * logic.
     */
    Set<String> expected() {
      Set<String> rules = new TreeSet<>(stated(program, scenario));
      rules.addAll(stated("any", scenario));
      return rules;
    }

    @Override
    public String toString() {
      return program + " in " + scenario;
    }
  }

  private static RuleBook book() {
    Path rules = Path.of("../../fixtures/kestrel-ridge/kestrel-ridge.rules");
    return RuleLanguage.compile(List.of(new Source(rules.toString(), text(rules))), name ->
        new Source(name, text(Path.of(name)))).book()
        .orElseThrow();
  }

  private static String text(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Each program in the shortest scenario that shows its mistake; the right one in the trial, which tempts it most. */
  static List<Case> cases() {
    return programs().stream().map(program -> program.equals(RIGHT) ? new Case(RIGHT, "trial")
        : new Case(program, SCENARIOS.stream().filter(scenario -> !stated(program, scenario).isEmpty()).findFirst()
            .orElseThrow())).toList();
  }

  /** Each program in every scenario that is listed here. */
  static List<Case> allCases() {
    return programs().stream().flatMap(program -> SCENARIOS.stream().map(scenario -> new Case(program, scenario)))
        .toList();
  }

  private static List<String> programs() {
    return Stream.concat(Stream.of(RIGHT), variants().stream().map(LogicPatch::name)).sorted().toList();
  }

  private static List<LogicPatch> variants() {
    try {
      return LogicPatch.variants(RIDE);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String programText(String name) throws IOException {
    Optional<LogicPatch> variant = variants().stream().filter(each -> each.name().equals(name)).findFirst();
    return variant.isPresent() ? String.join("\n", variant.get().program(RIDE)) + "\n"
        : text(RIDE.resolve("logic/" + RIGHT + ".st"));
  }

  /** The line for every scenario serves where none is a scenario's own. */
  private static Set<String> stated(String program, String scenario) {
    List<List<String>> lines = text(RIDE.resolve("logic/closed-loop.expected")).lines()
        .filter(line -> !line.isBlank() && !line.startsWith("--")).map(line -> List.of(line.trim().split("\\s+")))
        .filter(words -> words.get(0).equals(program)).toList();
    return Stream.of(scenario, "*").flatMap(name -> lines.stream().filter(words -> words.get(1).equals(name)))
        .findFirst()
        .map(words -> Set.copyOf(words.subList(2, words.size()))).orElse(Set.of());
  }

  /** The inputs of a ride that moves as the program commands. */
  static DemoDay of(Case which) throws IOException {
    RideLoop loop = DemoRide.open(RIDE).loop(which.scenario());
    List<Event> heard = new ArrayList<>();
    EventSink controls = logic(which.program(), new EventSink() {
      @Override
      public void event(long time, int signal, long value, long line) {
        loop.event(time, signal, value, line);
        if (BOOK.signals().get(signal).direction() == Signal.Direction.INPUT) {
          heard.add(new Event(time, signal, value));
        }
      }

      @Override
      public void advanceTo(long time) {
        loop.advanceTo(time);
      }
    });
    long end = loop.run(controls, scan -> true);
    return new DemoDay(List.copyOf(heard), end);
  }

  /** The program, as after power-up. */
  static LogicHarness logic(String name, EventSink judge) {
    try {
      Source source = new Source(name + ".st", programText(name));
      var program = LogicLanguage.compile(List.of(source)).program().orElseThrow();
      SignalBinding binding = SignalBinding.bind(program, BOOK, Map.of(), Set.of());
      return new LogicHarness(LogicProgram.compile(program, LogicOptions.DEFAULT, binding.recorded()), binding, BOOK,
          ScanOptions.DEFAULT, judge);
    } catch (Exception e) {
      throw new AssertionError(e);
    }
  }

  /** What the program gives for these inputs with no broker in between. */
  List<Event> inProcess(String program) {
    Kept kept = new Kept();
    LogicHarness logic = logic(program, kept);
    play(logic);
    logic.finish(end);
    return kept.events();
  }

  @Override
  public void play(EventSink taker) {
    inputs.forEach(event -> taker.event(event.time(), event.signal(), event.value(), 0));
  }
}
