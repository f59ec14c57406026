package dev.pawl.cli;

import dev.pawl.report.model.Input;
import dev.pawl.report.model.TraceResult;
import dev.pawl.trace.intake.Progress;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;

/** A judge who writes each result into a journal, and takes over what stands there. */
final class JournaledCheck implements Judge {

  private final Judge judge;
  private final Journal journal;
  private final Interruption interruption;
  private final Map<Path, Input> inputs = new ConcurrentHashMap<>();

  JournaledCheck(Judge judge, Journal journal, Interruption interruption) {
    this.judge = judge;
    this.journal = journal;
    this.interruption = interruption;
  }

  @Override
  public Input input(Path file) {
    return inputs.computeIfAbsent(file, judge::input);
  }

  @Override
  public TraceResult run(Course course, Progress progress) {
    Input trace = input(course.file().orElseThrow());
    if (trace.sha256().isEmpty()) {
      return judge.run(course, progress);
    }
    Optional<TraceResult> before = journal.find(trace);
    if (before.isPresent()) {
      return before.get();
    }
    TraceResult result = judge.run(course, progress);
    // What could not be judged, or not to its end, is tried again.
    if (!result.rules().isEmpty() && !interruption.isRequested()) {
      journal.add(trace, result);
    }
    return result;
  }
}
