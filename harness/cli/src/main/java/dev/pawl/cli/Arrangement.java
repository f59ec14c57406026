package dev.pawl.cli;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.report.model.Input;
import dev.pawl.trace.TraceOptions;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** What a job of checking plays, and through what. */
interface Arrangement {

  /** Recorded traces, judged as they are. */
  Arrangement RECORDED = new Arrangement() {
    @Override
    public List<Course> courses(CheckOptions options, RuleFiles rules, TraceOptions reading) {
      return recorded(options, rules.book(), reading);
    }

    @Override
    public Drive drive(RuleFiles rules, Console console) {
      return Drive.NONE;
    }

    @Override
    public List<Input> inputs() {
      return List.of();
    }

    @Override
    public List<String> cautions() {
      return List.of();
    }
  };

  /** What is played. */
  List<Course> courses(CheckOptions options, RuleFiles rules, TraceOptions reading);

  /** What it is played through. */
  Drive drive(RuleFiles rules, Console console);

  /** The rules to judge by; asked for when the courses are known. */
  default RuleBook book(RuleFiles rules) {
    return rules.book();
  }

  /** Whether what was played is only a part of what was asked for; asked for when the courses are known. */
  default boolean endedEarly() {
    return false;
  }

  /** Files that it rests on, beyond rules, bindings and traces. */
  List<Input> inputs();

  /** What a reader of the report has to bear in mind. */
  List<String> cautions();

  /** The traces that options name. */
  static List<Course> recorded(CheckOptions options, RuleBook book, TraceOptions reading) {
    List<Path> traces = TraceFiles.of(options.traces());
    boolean large = traces.size() == 1 && TraceFiles.isLarge(traces.get(0));
    boolean ahead = large && TraceThreads.of(options.jobs(), book).ahead();
    List<Course> courses = new ArrayList<>();
    for (Path trace : traces) {
      courses.add(new RecordedCourse(trace, reading.withAhead(ahead)));
    }
    return courses;
  }
}
