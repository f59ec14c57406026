package dev.pawl.run.control;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.logic.model.Task;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.logic.LineWitness;
import dev.pawl.logic.LogicProgram;
import dev.pawl.logic.ProgramLine;
import dev.pawl.logic.ScanOptions;
import dev.pawl.logic.SignalBinding;
import dev.pawl.report.model.Input;
import dev.pawl.run.Controller;
import dev.pawl.run.EventSource;
import dev.pawl.run.files.LogicFiles;
import dev.pawl.run.files.RuleFiles;
import dev.pawl.trace.bindings.Bindings;
import dev.pawl.trace.feedback.Feedback;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.function.IntToLongFunction;

/**
 * Logic in Structured Text: a source's inputs drive it, scan by scan in virtual time, and its outputs are judged.
 *
 * @param files its files
 * @param binding which of its variables is which signal
 * @param program the program, compiled
 * @param scans when scans happen
 * @param recording where what is judged is recorded; for one source only
 * @param witness puts itself before the judge of the source with the given name, to see what is judged
 * @param lines is shown what the watched lines of the program come to as it answers to the source with the given name
 * @param challenged whether the logic is run again, with inputs turned that a rule demands, to see what guards them
 */
public record LogicController(LogicFiles files, SignalBinding binding, LogicProgram program, ScanOptions scans,
    Optional<RecordingFile> recording, BiFunction<String, EventSink, EventSink> witness,
    Function<String, LineWitness> lines, boolean challenged) implements Controller {

  private static final String OPEN_LOOP = "The inputs are a recording, which cannot react: trains did not move because"
      + " this logic changed its outputs. Once an output differs from what was recorded, signals that follow it are"
      + " unknown to the rules; the logic goes on with what was recorded.";
  static final String CLOSED_LOOP = "The trains of this run were simulated. A model of a ride is not the ride.";

  /**
   * Binds and compiles logic.
   *
   * @throws dev.pawl.run.RunException if it does not fit to the rules
   */
  public static LogicController of(RuleFiles rules, LogicFiles files, LogicSettings settings) {
    SignalBinding binding = files.bind(rules, settings.variables(), settings.recorded());
    LogicProgram program = files.compile(binding, settings.language());
    return new LogicController(files, binding, program, settings.scans(), Optional.empty(), (source, judge) -> judge,
        source -> LineWitness.NONE, false);
  }

  /** The same, with what is judged recorded. */
  public LogicController withRecording(Optional<RecordingFile> file) {
    return new LogicController(files, binding, program, scans, file, witness, lines, challenged);
  }

  /** The same, with a witness to what is judged. */
  public LogicController withWitness(BiFunction<String, EventSink, EventSink> other) {
    return new LogicController(files, binding, program, scans, recording, other, lines, challenged);
  }

  /** The same, with some of the program's lines watched. */
  public LogicController withLines(List<ProgramLine> watched, Function<String, LineWitness> shown) {
    return new LogicController(files, binding, files.compile(binding, program.options(), watched), scans, recording,
        witness, shown, challenged);
  }

  /** The same program out of another translation of its files, run for a witness only. */
  LogicController with(LogicFiles other, LineWitness shown) {
    SignalBinding bound = binding.in(other.program());
    return new LogicController(other, bound, other.compile(bound, program.options()), scans, Optional.empty(),
        (source, judge) -> judge, source -> shown, false);
  }

  /** The same, with nobody to see what is judged, or what lines come to. */
  LogicController unseen() {
    return new LogicController(files, binding, program, scans, Optional.empty(), (source, judge) -> judge,
        source -> LineWitness.NONE, challenged);
  }

  /** The same, with challenges. */
  public LogicController withChallenges(boolean wanted) {
    return new LogicController(files, binding, program, scans, recording, witness, lines, wanted);
  }

  @Override
  public Controlled control(EventSource source, RuleBook book, Bindings bindings) {
    List<String> cautions = List.of(source.reacts() ? CLOSED_LOOP : OPEN_LOOP);
    Feedback feedback = new Feedback(book, binding::gives, bindings.feedback(), bindings.sampling(),
        late(book));
    return new Controlled(new LogicSource(source, feedback, this, Optional.empty(), new long[book.signals().size()]),
        book, false, cautions);
  }

  /** From one run of the fastest task to the next, nanoseconds. */
  public long shortest() {
    return scans.shortest(program.program().tasks());
  }

  /** How late an output may be: two runs of the task that writes it, of several the slowest, and the resolution. */
  private IntToLongFunction late(RuleBook book) {
    Map<Integer, List<Task>> writers = binding.writers(program.program());
    return output -> 2 * writers.getOrDefault(output, List.of()).stream().mapToLong(scans::longest).max()
        .orElse(scans.period()) + book.resolution();
  }

  @Override
  public List<Input> inputs() {
    return files.inputs();
  }
}
