package dev.pawl.run;

import dev.pawl.report.model.Input;
import dev.pawl.report.model.JudgedSource;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.picture.PictureBudget;
import dev.pawl.run.files.BindingsFiles;
import dev.pawl.run.files.RuleFiles;
import dev.pawl.run.files.TraceFiles;
import dev.pawl.run.source.BegunSource;
import dev.pawl.run.source.JoinedSource;
import dev.pawl.run.source.RecordedSource;
import dev.pawl.trace.TraceOptions;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * The judging of any number of sources by the same rules, into one report.
 *
 * @param rules the rules
 * @param bindings which tag of a recorded trace is which signal
 * @param controller what answers to the sources
 * @param options how it judges
 */
public record Session(RuleFiles rules, BindingsFiles bindings, Controller controller, SessionOptions options) {

  /** A session on recorded traces as they are, whose tags bear the names of the signals. */
  public static Session by(RuleFiles rules) {
    return new Session(rules, BindingsFiles.NONE, Controller.NONE, SessionOptions.DEFAULT);
  }

  public Session withBindings(BindingsFiles other) {
    return new Session(rules, other, controller, options);
  }

  public Session withController(Controller other) {
    return new Session(rules, bindings, other, options);
  }

  public Session withOptions(SessionOptions other) {
    return new Session(rules, bindings, controller, other);
  }

  /** How it reads recorded traces: strictly, by its bindings. */
  public TraceOptions reading() {
    return TraceOptions.of(rules.book()).withBindings(bindings.bindings());
  }

  /** The recorded traces that paths name; of a folder all that are traces by their names. */
  public List<EventSource> traces(List<String> paths) {
    return traces(paths, reading());
  }

  /** The same, read in another way. */
  public List<EventSource> traces(List<String> paths, TraceOptions reading) {
    List<Path> traces = TraceFiles.of(paths);
    if (bindings.bindings().session().joined() && traces.size() > 1) {
      return List.of(begun(new JoinedSource(traces, reading), reading));
    }
    boolean large = traces.size() == 1 && TraceFiles.isLarge(traces.get(0));
    boolean ahead = large && TraceThreads.of(options.jobs(), rules.book()).ahead();
    return traces.stream().map(trace -> begun(new RecordedSource(trace, reading.withAhead(ahead)), reading)).toList();
  }

  /**
   * One source of files that are named one by one: a trace, or those of one session that the bindings join. A file that
   * is not there is said so in the result.
   */
  public EventSource source(List<Path> files, TraceOptions reading) {
    return begun(files.size() == 1 ? new RecordedSource(files.get(0), reading) : new JoinedSource(files, reading),
        reading);
  }

  private EventSource begun(EventSource source, TraceOptions reading) {
    return BegunSource.of(source, reading.bindings().beginning(), rules.book());
  }

  /** Judges to the end. */
  public Report judge(List<EventSource> sources) {
    return judge(sources, SessionListener.NONE);
  }

  /** The same, where nothing was judged before. */
  public Report judge(List<EventSource> sources, SessionListener listener) {
    return judge(sources, listener, Optional.empty());
  }

  /**
   * Judges; what goes wrong with a source is in its result.
   *
   * @param earlier results that are taken over, and to which those of this run are added
   * @throws RunException if the controller cannot answer to a source
   */
  public Report judge(List<EventSource> sources, SessionListener listener, Optional<EarlierResults> earlier) {
    List<Controller.Controlled> controlled = sources.stream().map(this::controlled).toList();
    SessionRun run = new SessionRun(options, controlled, sources.size(), listener, earlier,
        bindings.bindings().sampling());
    List<JudgedSource> judged = run.judge();
    return report(judged, listener.isEndWanted());
  }

  /**
   * Judges one of several sources by itself, as a worker among many does. What goes wrong with it is in its result.
   *
   * @param of how many sources the report has, which share the findings that are kept
   * @throws RunException if a file of it was written to meanwhile
   */
  public JudgedSource judgeOne(EventSource source, int of) {
    return new SessionRun(options, List.of(controlled(source)), of, SessionListener.NONE, Optional.empty(),
        bindings.bindings().sampling()).judge().get(0);
  }

  /** The report of sources that were judged one by one, in their order: as if all had been judged here. */
  public Report merged(Stream<JudgedSource> judged) {
    PictureBudget pictures = new PictureBudget();
    return report(judged.map(each -> new JudgedSource(pictures.within(each.result()), each.inputs(), each.cautions(),
        each.endedEarly())).toList(), false);
  }

  private Controller.Controlled controlled(EventSource source) {
    return controller.control(source, source.judgedBy(rules.book()), bindings.bindings());
  }

  private Report report(List<JudgedSource> judged, boolean ended) {
    List<TraceResult> results = judged.stream().map(JudgedSource::result).toList();
    boolean partial = ended || judged.stream().anyMatch(JudgedSource::endedEarly);
    List<String> cautions = new ArrayList<>(judged.stream().flatMap(each -> each.cautions().stream()).distinct()
        .toList());
    OneSession.hint(results).ifPresent(cautions::add);
    String now = Instant.now().truncatedTo(ChronoUnit.SECONDS).toString();
    List<Input> inputs = options.inputs() ? inputs(judged) : List.of();
    return new Report(Version.TEXT, now, partial, rules.book().ride(), inputs, results, cautions, rules.book())
        .by(Version.BUILD);
  }

  /**
   * What determines the result of a recorded trace, beside the trace and how it is read: the version, and the files of
   * rules and bindings.
   */
  public String fingerprint() {
    List<Input> files = new ArrayList<>(rules.inputs());
    files.addAll(bindings.inputs());
    return Version.TEXT + " " + options + " " + files;
  }

  /** Files of rules, bindings and sources; several scenarios are of one ride. */
  private List<Input> inputs(List<JudgedSource> judged) {
    List<Input> inputs = new ArrayList<>(rules.inputs());
    inputs.addAll(bindings.inputs());
    inputs.addAll(controller.inputs());
    judged.stream().flatMap(each -> each.inputs().stream()).distinct().forEach(inputs::add);
    return inputs;
  }
}
