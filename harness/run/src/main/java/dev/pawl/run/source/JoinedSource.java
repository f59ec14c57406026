package dev.pawl.run.source;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.mqtt.replay.Widening;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.TracePlace;
import dev.pawl.report.words.TimeText;
import dev.pawl.run.EventSource;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.TraceReader;
import dev.pawl.trace.TraceSummary;
import dev.pawl.trace.Traces;
import dev.pawl.trace.ahead.Merging;
import dev.pawl.trace.intake.Progress;
import java.io.IOException;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * Several recorded traces that are one session: one after the other, as a logger that begins new files writes them, or
 * side by side, as several loggers do. Their events are merged by time, clocks that are stated or found to be wrong put
 * right.
 */
public final class JoinedSource implements EventSource {

  /** An event's line has the number of its file above these bits. */
  private static final int LINE_BITS = 40;

  private final List<Path> traces;
  private final TraceOptions options;
  private final SessionClocks clocks;

  /**
   * One session.
   *
   * @param traces its files
   * @param options how they are read
   */
  public JoinedSource(List<Path> traces, TraceOptions options) {
    this.traces = List.copyOf(traces);
    this.options = options;
    this.clocks = SessionClocks.of(traces, options);
  }

  @Override
  public String name() {
    return traces.get(0) + (traces.size() > 1 ? " and " + (traces.size() - 1) + " more" : "");
  }

  @Override
  public Optional<Path> file() {
    return Optional.empty();
  }

  @Override
  public List<Path> files() {
    return traces;
  }

  @Override
  public boolean reacts() {
    return false;
  }

  @Override
  public EventSource forAnotherLook() {
    return this;
  }

  @Override
  public RuleBook judgedBy(RuleBook book) {
    return Widening.of(book, clocks::uncertainty);
  }

  @Override
  public Run begin(boolean[] needed) throws IOException {
    List<Opened> opened = new ArrayList<>();
    for (Path trace : traces) {
      opened.add(Opened.of(trace, options.withNeeded(clocks.taken(trace, needed)).withAhead(false),
          clocks.aheadOf(trace)));
    }
    opened.sort(Comparator.comparingLong(Opened::first));
    return new Reader(opened, options, clocks);
  }

  /**
   * A trace of which the beginning has been looked at.
   *
   * @param ahead nanoseconds by which its clock is ahead
   * @param first nanoseconds, its first instant by the right clock
   * @param calendar whether its times are dates
   */
  private record Opened(Path trace, TraceOptions options, long ahead, long first, boolean calendar) {

    static Opened of(Path trace, TraceOptions options, long ahead) throws IOException {
      First first = new First();
      try (TraceReader reader = Traces.open(trace, options.withLenient(true))) {
        reader.readTo(first, (bytes, lines) -> first.time.isEmpty());
        return new Opened(trace, options, ahead, first.time.orElse(Long.MIN_VALUE / 2) - ahead, reader.calendar());
      }
    }

    TraceSummary readTo(EventSink sink, long file, Progress progress) throws IOException {
      try (TraceReader reader = Traces.open(trace, options)) {
        return reader.readTo(new Shifted(sink, ahead, file << LINE_BITS), progress);
      }
    }

    String fileName() {
      return trace.getFileName().toString();
    }
  }

  /** A sink that keeps the time of what comes first. */
  private static final class First implements EventSink {

    private OptionalLong time = OptionalLong.empty();

    @Override
    public void event(long at, int signal, long value, long line) {
      advanceTo(at);
    }

    @Override
    public void advanceTo(long at) {
      time = time.isPresent() ? time : OptionalLong.of(at);
    }
  }

  /** A sink that puts a clock right, and says of which file a line is. */
  private record Shifted(EventSink sink, long ahead, long file) implements EventSink {

    @Override
    public void event(long time, int signal, long value, long line) {
      sink.event(time - ahead, signal, value, file | line);
    }

    @Override
    public void advanceTo(long time) {
      sink.advanceTo(time - ahead);
    }
  }

  /** The reading of all. */
  private record Reader(List<Opened> opened, TraceOptions options, SessionClocks clocks) implements Run {

    @Override
    public EventSink heardBy(EventSink judge) {
      return judge;
    }

    @Override
    public boolean calendar() {
      return opened.get(0).calendar();
    }

    @Override
    public Optional<ZoneId> zone() {
      return options.bindings().time().zone();
    }

    @Override
    public TracePlace place(String name, long line) {
      return line <= 0 ? new TracePlace(name, 0)
          : new TracePlace(opened.get((int) (line >>> LINE_BITS)).trace().toString(), line & (1L << LINE_BITS) - 1);
    }

    @Override
    public Summary runTo(EventSink sink, Progress progress) throws IOException {
      Optional<String> refused = mixed().or(clocks::failure);
      if (refused.isPresent()) {
        return new Summary(new Extent(0, 0, OptionalLong.empty(), false), List.of(),
            new Reading(List.of(), List.of(), 0, refused.get()));
      }
      Together together = new Together(progress, opened.size());
      List<Merging.Part<TraceSummary>> parts = new ArrayList<>();
      for (int i = 0; i < opened.size(); i++) {
        Opened each = opened.get(i);
        int file = i;
        parts.add(new Merging.Part<>(each.first(), merged -> each.readTo(merged, file,
            (bytes, lines) -> together.reached(file, bytes, lines))));
      }
      return summary(Merging.merge(sink, parts));
    }

    /** Dates and times from a start of a trace's own have nothing in common. */
    private Optional<String> mixed() {
      Opened first = opened.get(0);
      return opened.stream().filter(each -> each.calendar() != first.calendar()).findFirst()
          .map(other -> "the traces cannot be one session: the times of " + (first.calendar() ? first : other)
              .fileName() + " are dates, those of " + (first.calendar() ? other : first).fileName()
              + " count from a start of its own;"
              + " state under 'time' in a bindings file what both are, or leave 'joined' out");
    }

    private Summary summary(List<TraceSummary> summaries) {
      long lines = 0;
      long events = 0;
      long problemCount = 0;
      boolean interrupted = false;
      OptionalLong end = OptionalLong.empty();
      List<Integer> silent = new ArrayList<>(summaries.get(0).silent());
      List<Reading.Counter> counters = new ArrayList<>(clocks.counters());
      List<Reading.Problem> problems = new ArrayList<>();
      String failure = "";
      for (int i = 0; i < summaries.size(); i++) {
        TraceSummary summary = summaries.get(i);
        Opened file = opened.get(i);
        String name = file.fileName();
        lines += summary.counts().lines();
        events += summary.counts().events();
        interrupted |= summary.outcome() == TraceSummary.Outcome.INTERRUPTED;
        silent.retainAll(summary.silent());
        if (end.isPresent() && summary.times().first().isPresent() && file.first() > end.getAsLong()) {
          counters.add(new Reading.Counter("hole between files, of " + TimeText.duration(file.first() - end.getAsLong())
              + " before " + name, 1));
        }
        if (summary.times().end().isPresent()) {
          long last = summary.times().end().getAsLong() - file.ahead();
          end = OptionalLong.of(Math.max(last, end.orElse(last)));
        }
        Reading met = RecordedSource.met(summary, options.lenient());
        met.counters().forEach(counter -> counters.add(new Reading.Counter(name + ": " + counter.label(),
            counter.count())));
        met.problems().forEach(problem -> problems.add(new Reading.Problem(problem.line(), name + ": "
            + problem.message())));
        problemCount += met.problemCount();
        failure = failure.isEmpty() && !met.failure().isEmpty() ? name + ": " + met.failure() : failure;
      }
      Reading reading = new Reading(counters, problems, problemCount, failure);
      return new Summary(new Extent(lines, events, end, interrupted), silent, reading);
    }

    @Override
    public void close() {}
  }

  /** How far all have come, told by several threads. */
  private static final class Together {

    private final Progress progress;
    private final long[] bytes;
    private final long[] lines;

    Together(Progress progress, int files) {
      this.progress = progress;
      this.bytes = new long[files];
      this.lines = new long[files];
    }

    synchronized boolean reached(int file, long taken, long done) {
      bytes[file] = taken;
      lines[file] = done;
      long allBytes = 0;
      long allLines = 0;
      for (int i = 0; i < bytes.length; i++) {
        allBytes += bytes[i];
        allLines += lines[i];
      }
      return progress.reached(allBytes, allLines);
    }
  }
}
