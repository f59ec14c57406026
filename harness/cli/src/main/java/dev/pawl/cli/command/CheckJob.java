package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.keep.Journal;
import dev.pawl.cli.keep.KeptReport;
import dev.pawl.cli.keep.ReportFolder;
import dev.pawl.cli.option.CheckOptions;
import dev.pawl.cli.output.CheckProgress;
import dev.pawl.report.compare.SinceEarlier;
import dev.pawl.report.model.Input;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.TraceResult;
import dev.pawl.run.Controller;
import dev.pawl.run.EventSource;
import dev.pawl.run.Session;
import dev.pawl.run.SessionOptions;
import dev.pawl.run.files.BindingsFiles;
import dev.pawl.run.files.DecisionFiles;
import dev.pawl.run.files.Digests;
import dev.pawl.run.files.RuleFiles;
import dev.pawl.run.files.TraceFiles;
import dev.pawl.trace.bindings.Bindings;
import java.io.File;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;

/** The job of checking: from paths to a report, and its files where they are asked for. */
public final class CheckJob implements AutoCloseable {

  private static final int MOST_NAMED = 5;

  private final CheckOptions options;
  private final Console console;
  private final Session session;
  private final DecisionFiles decisions;
  private final Optional<KeptReport> earlier;
  private final Optional<ReportFolder> folder;

  private CheckJob(CheckOptions options, Console console, Session session, DecisionFiles decisions,
      Optional<KeptReport> earlier, Optional<ReportFolder> folder) {
    this.earlier = earlier;
    this.options = options;
    this.console = console;
    this.session = session;
    this.decisions = decisions;
    this.folder = folder;
  }

  /** Reads rules and bindings, and claims the folder for the report. */
  public static CheckJob begin(CheckOptions options, Console console) {
    RuleFiles rules = options.rules().load(console);
    if (!options.report().quiet()) {
      mentionWarnings(rules, console);
      mentionLeftOut(TraceFiles.leftOut(options.traces()), console);
    }
    BindingsFiles bindings = options.reading().bindings(rules.book(), console);
    Optional<String> out = options.report().out();
    DecisionFiles decisions = options.report().decisions().load();
    // A review names what it looked at by what the report rests on.
    boolean kept = out.isPresent() || options.report().json() || decisions.hasReviews();
    Session session = new Session(rules, bindings, Controller.NONE,
        new SessionOptions(options.jobs(), options.report().findings(), out.isPresent(), kept));
    Optional<KeptReport> earlier = options.report().earlier().map(path -> earlier(path, out));
    // A stated time that is none is refused before anything is judged.
    console.now();
    return new CheckJob(options, console, session, decisions, earlier, out.map(ReportFolder::claim));
  }

  /** Reads the earlier report, which must not be the one that is replaced: what a report rests on stays. */
  private static KeptReport earlier(String path, Optional<String> out) {
    KeptReport earlier = KeptReport.read(path);
    Path own = earlier.file().toAbsolutePath().normalize().getParent();
    if (out.isPresent() && own.equals(Path.of(out.get()).toAbsolutePath().normalize())) {
      throw new CommandException("--earlier: " + path + " lies in the folder of --out, where this report would take its"
          + " place; name another folder for this one");
    }
    return earlier;
  }

  /** What is stated of the traces and of the logic's variables. */
  Bindings bindings() {
    return session.bindings().bindings();
  }

  /** Says in one line that there are warnings; {@code pawl explain} shows them. */
  private static void mentionWarnings(RuleFiles rules, Console console) {
    int warnings = rules.compilation().diagnostics().size();
    if (warnings > 0) {
      console.err().println("pawl: the rules have " + (warnings == 1 ? "1 warning ('pawl explain' shows it)"
          : warnings + " warnings ('pawl explain' shows them)"));
    }
  }

  /** Says which files of folders are left out. */
  private static void mentionLeftOut(List<Path> files, Console console) {
    if (!files.isEmpty()) {
      String names = String.join(", ", files.stream().limit(MOST_NAMED).map(Path::toString).toList());
      console.err().println("pawl: " + (files.size() == 1 ? "1 file is no trace by its name and is left out: "
          : files.size() + " files are no traces by their names and are left out: ") + names
          + (files.size() > MOST_NAMED ? ", ..." : "") + " (name one itself to have it read)");
    }
  }

  RuleFiles rules() {
    return session.rules();
  }

  /** The traces that the options name. */
  public List<EventSource> traces() {
    return session.traces(options.traces(), options.reading().of(session.reading()));
  }

  /**
   * Judges, and writes the report where that is asked for.
   *
   * @param told is told of each source's result as soon as it and all before it are there
   */
  public Report judge(Controller controller, List<EventSource> sources, Consumer<TraceResult> told) {
    CheckProgress progress = new CheckProgress(console, options.report().quiet(), told);
    boolean isLong = folder.isPresent() && controller == Controller.NONE && sources.size() > 1;
    if (!isLong) {
      return written(session.withController(controller).judge(sources, progress));
    }
    String run = Digests.sha256(build() + session.fingerprint() + " " + options.unasked());
    try (Journal journal = Journal.open(folder.get().place(), run, rules().book())) {
      Report report = written(session.judge(sources, progress, Optional.of(journal)));
      journal.end(report, console);
      return report;
    }
  }

  /** Tells builds of one version apart: by the sizes and times of what Java loads classes from. */
  static String build() {
    StringBuilder parts = new StringBuilder();
    for (String part : System.getProperty("java.class.path", "").split(File.pathSeparator)) {
      File file = new File(part);
      parts.append(part).append(' ').append(file.length()).append(' ').append(file.lastModified()).append('\n');
    }
    return parts.toString();
  }

  private Report written(Report judged) {
    Instant now = console.now();
    Report report = decisions.decided(judged.made(now).requiringProof(options.report().requireProof()),
        LocalDate.ofInstant(now, ZoneOffset.UTC));
    if (earlier.isPresent()) {
      report = report.since(SinceEarlier.of(earlier.get().digest(), report), Digests.of(Input.Role.EARLIER,
          earlier.get().file().toString()));
    }
    write(report);
    return report;
  }

  private void write(Report report) {
    folder.ifPresent(place -> place.write(report, options.asked()));
  }

  @Override
  public void close() {
    folder.ifPresent(ReportFolder::close);
  }
}
