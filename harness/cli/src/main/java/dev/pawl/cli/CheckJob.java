package dev.pawl.cli;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.report.model.Input;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.TraceResult;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.bindings.Bindings;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;

/** The job of checking: from paths to a report, and its files where they are asked for. */
final class CheckJob {

  private final CheckOptions options;
  private final Console console;
  private final Arrangement arrangement;

  /** A job on recorded traces. */
  CheckJob(CheckOptions options, Console console) {
    this(options, console, Arrangement.RECORDED);
  }

  CheckJob(CheckOptions options, Console console, Arrangement arrangement) {
    this.options = options;
    this.console = console;
    this.arrangement = arrangement;
  }

  /**
   * Does the whole job.
   *
   * @param told is told of each trace's result as soon as it and all before it are there
   */
  Report run(Consumer<TraceResult> told) {
    RuleFiles rules = RuleFiles.load(options.rules(), options.usable(), console);
    if (!options.quiet()) {
      rules.mentionWarnings(console);
      TraceFiles.mentionLeftOut(options.traces(), console);
    }
    Bindings bindings = BindingsFiles.load(options.bindings(), rules.book(), console);
    try (ReportFolder folder = options.out().map(ReportFolder::claim).orElse(null);
        Journal journal = folder != null && isLong() ? Journal.open(folder.place(), fingerprint(rules), rules.book()) : null) {
      Report report = judge(rules, bindings, Optional.ofNullable(journal), told);
      if (folder != null) {
        folder.write(report);
      }
      if (journal != null) {
        journal.end(report, console);
      }
      return report;
    }
  }

  /** Whether it is worth going on where an earlier run was ended. */
  private boolean isLong() {
    return arrangement == Arrangement.RECORDED && TraceFiles.of(options.traces()).size() > 1;
  }

  /** What determines a trace's result, beside the trace. */
  private String fingerprint(RuleFiles rules) {
    List<Input> files = new ArrayList<>(rules.inputs());
    options.bindings().ifPresent(path -> files.add(Digests.of(Input.Role.BINDINGS, path)));
    return Digests.sha256(Version.TEXT + " " + Version.build() + " " + options + " " + files);
  }

  private Report judge(RuleFiles rules, Bindings bindings, Optional<Journal> journal, Consumer<TraceResult> told) {
    Drive drive = arrangement.drive(rules, console);
    List<Course> courses = arrangement.courses(options, rules, reading(rules, bindings));
    RuleBook book = arrangement.book(rules);
    Judge check = new TraceCheck(book, drive, options.findings(), options.out().isPresent(), threads(courses, book).judging());
    if (journal.isPresent()) {
      check = new JournaledCheck(check, journal.get(), console.interruption());
    }
    CheckRun run = new CheckRun(check, options, courses, console);
    List<TraceResult> results = run.judge(told);
    boolean kept = options.out().isPresent() || options.json();
    return new Report(Version.TEXT, Instant.now().truncatedTo(ChronoUnit.SECONDS).toString(),
        console.interruption().isRequested() || arrangement.endedEarly(), rules.book().ride(), kept ? inputs(rules, run) : List.of(), results,
            arrangement.cautions());
  }

  private TraceThreads threads(List<Course> courses, RuleBook book) {
    boolean large = courses.size() == 1 && courses.get(0).file().filter(TraceFiles::isLarge).isPresent();
    return large ? TraceThreads.of(options.jobs(), book) : TraceThreads.ONE;
  }

  private TraceOptions reading(RuleFiles rules, Bindings bindings) {
    TraceOptions reading = TraceOptions.of(rules.book()).withBindings(bindings).withLenient(options.lenient());
    return options.timeScale().map(reading::withTimeScale).orElse(reading);
  }

  private List<Input> inputs(RuleFiles rules, CheckRun run) {
    List<Input> inputs = new ArrayList<>(rules.inputs());
    options.bindings().ifPresent(path -> inputs.add(Digests.of(Input.Role.BINDINGS, path)));
    inputs.addAll(arrangement.inputs());
    inputs.addAll(run.traceInputs());
    return inputs;
  }
}
