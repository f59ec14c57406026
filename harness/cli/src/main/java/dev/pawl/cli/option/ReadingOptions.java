package dev.pawl.cli.option;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.run.files.BindingsFiles;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.time.TimeScale;
import java.util.Optional;
import picocli.CommandLine.ParseResult;

/**
 * How traces are read.
 *
 * @param bindings file that maps tags to signals
 * @param timeScale how the traces' times are written
 * @param lenient whether bad rows are left out and counted
 */
public record ReadingOptions(Optional<String> bindings, Optional<TimeScale> timeScale, boolean lenient) {

  public static final Option<Optional<String>> BINDINGS = Option.text("FILE",
      "Bindings: which tag of the trace is which signal.", "--bindings");
  public static final Option<Optional<TimeScale>> TIME_UNIT = Option.text("UNIT",
      "How times are written: " + TimeScale.CHOICES + ".", "--time-unit").as(ReadingOptions::scale);
  public static final Option<Boolean> LENIENT = Option.flag("Leave bad rows out and count them, instead of refusing the"
      + " trace; a signal whose value cannot be used becomes unknown.", "--lenient");

  public static ReadingOptions of(ParseResult words) {
    return new ReadingOptions(BINDINGS.of(words), TIME_UNIT.of(words), LENIENT.of(words));
  }

  private static Optional<TimeScale> scale(String option, Optional<String> word) {
    Optional<TimeScale> scale = word.flatMap(TimeScale::of);
    if (word.isPresent() && scale.isEmpty()) {
      throw new CommandException(option + ": '" + word.get() + "' is not known; write " + TimeScale.CHOICES);
    }
    return scale;
  }

  /** The same reading, of traces that are written so. */
  public TraceOptions of(TraceOptions reading) {
    TraceOptions read = reading.withLenient(lenient);
    return timeScale.map(read::withTimeScale).orElse(read);
  }

  /** The bindings, or none where no file was named; what is doubtful in the file goes to the console. */
  public BindingsFiles bindings(RuleBook book, Console console) {
    BindingsFiles read = bindings.map(name -> BindingsFiles.load(name, book)).orElse(BindingsFiles.NONE);
    console.err().print(read.warnings());
    return read;
  }
}
