package dev.pawl.cli;

import dev.pawl.report.model.Input;
import dev.pawl.report.model.TraceResult;
import dev.pawl.trace.intake.Progress;
import java.nio.file.Path;

/** Who gives the result of a course; several threads may ask at once. */
interface Judge {

  /** Judges a course; what goes wrong with it is in the result. */
  TraceResult run(Course course, Progress progress);

  /** The file of a course, as an input of a report. */
  default Input input(Path file) {
    return Digests.of(Input.Role.TRACE, file.toString());
  }
}
