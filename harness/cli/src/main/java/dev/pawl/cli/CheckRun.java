package dev.pawl.cli;

import dev.pawl.report.model.Input;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.TraceResult;
import java.io.IOException;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Consumer;

/** The judging of several traces on as many threads as there are jobs; results come in the order of the traces. */
final class CheckRun {

  private final Judge check;
  private final CheckOptions options;
  private final List<Course> courses;
  private final Console console;
  private final ProgressLine progress;
  private final List<Future<Input>> inputs = new ArrayList<>();
  private int notBegun;

  CheckRun(Judge check, CheckOptions options, List<Course> courses, Console console) {
    this.check = check;
    this.options = options;
    this.courses = courses;
    this.console = console;
    this.progress = new ProgressLine(console.err(), console.errIsTerminal() && !options.quiet(), size(courses),
        console.interruption(), System::nanoTime);
  }

  private static long size(List<Course> courses) {
    long bytes = 0;
    for (Course course : courses) {
      try {
        bytes += course.file().isPresent() ? Files.size(course.file().get()) : 0;
      } catch (IOException e) {
        // A file that cannot be asked for its size is reported when it is read.
        bytes += 0;
      }
    }
    return bytes;
  }

  /**
   * Judges all traces, and says how many an interrupt came before.
   *
   * @param told is told of each other result, in order, as soon as it and all before it are there
   */
  List<TraceResult> judge(Consumer<TraceResult> told) {
    List<TraceResult> results = judgeEach(told);
    if (notBegun > 0) {
      console.err().println("pawl: interrupted; " + (notBegun == 1 ? "1 trace was" : notBegun + " traces were") + " not read");
    }
    return results;
  }

  private List<TraceResult> judgeEach(Consumer<TraceResult> told) {
    boolean hashed = options.out().isPresent() || options.json();
    List<TraceResult> results = new ArrayList<>();
    if (options.jobs() == 1 || courses.size() == 1 && !hashed) {
      for (Course course : courses) {
        results.add(tell(course, run(course), told));
        if (hashed) {
          course.file().ifPresent(file -> inputs.add(CompletableFuture.completedFuture(check.input(file))));
        }
      }
      return results;
    }
    ExecutorService workers = Executors.newFixedThreadPool(options.jobs());
    try {
      List<Future<Optional<TraceResult>>> waiting = new ArrayList<>();
      for (Course course : courses) {
        waiting.add(workers.submit(() -> run(course)));
        if (hashed) {
          course.file().ifPresent(file -> inputs.add(workers.submit(() -> check.input(file))));
        }
      }
      for (int trace = 0; trace < courses.size(); trace++) {
        results.add(tell(courses.get(trace), get(waiting.get(trace)), told));
      }
    } finally {
      workers.shutdown();
    }
    return results;
  }

  private TraceResult tell(Course course, Optional<TraceResult> result, Consumer<TraceResult> told) {
    progress.wipe();
    result.ifPresent(told);
    notBegun += result.isPresent() ? 0 : 1;
    return result.orElseGet(
        () -> TraceResult.unreadable(course.name(), new Reading(List.of(), List.of(), 0, "interrupted before this trace")));
  }

  /** Empty for a trace that an interrupt came before. */
  private Optional<TraceResult> run(Course course) {
    return console.interruption().isRequested() ? Optional.empty() : Optional.of(check.run(course, progress.ofTrace()));
  }

  /** The traces as inputs of a report. */
  List<Input> traceInputs() {
    List<Input> known = new ArrayList<>();
    for (Future<Input> input : inputs) {
      known.add(get(input));
    }
    return known;
  }

  private static <T> T get(Future<T> future) {
    try {
      return future.get();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted while waiting for a trace", e);
    } catch (ExecutionException e) {
      if (e.getCause() instanceof Error error) {
        throw error;
      }
      throw e.getCause() instanceof RuntimeException cause ? cause : new IllegalStateException(e.getCause());
    }
  }
}
