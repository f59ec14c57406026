package dev.pawl.cli;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.EventSink;
import dev.pawl.engine.RuleEngine;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.feed.Recording;
import dev.pawl.mqtt.feed.RowFile;
import dev.pawl.mqtt.guard.BenchGuard;
import dev.pawl.mqtt.replay.InputSource;
import dev.pawl.mqtt.replay.Pace;
import dev.pawl.mqtt.replay.Patience;
import dev.pawl.mqtt.replay.Replay;
import dev.pawl.mqtt.replay.ReplayResult;
import dev.pawl.mqtt.replay.Widening;
import dev.pawl.mqtt.time.HarnessClock;
import dev.pawl.report.model.Input;
import dev.pawl.report.model.ProgramPlace;
import dev.pawl.report.model.Reading;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.TraceReader;
import dev.pawl.trace.TraceSummary;
import dev.pawl.trace.Traces;
import dev.pawl.trace.intake.Progress;
import dev.pawl.trace.time.TimeScale;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.BooleanSupplier;

/**
 * The arrangement of a replay over a broker: the trace's inputs are played to the bench, findings are told as they come, and the recording of
 * it is what is judged, by rules widened by the timing of the replay.
 */
final class BrokerReplay implements Arrangement {

  private static final Duration STEP_PATIENCE = Duration.ofSeconds(60);
  private static final Duration TAIL = Duration.ofMillis(500);
  private static final String CAUTION = "The bench answered to recorded inputs, which cannot react: trains did not move because its outputs"
      + " changed. What a bench shows, the ride has yet to show.";

  private final BrokerOptions options;
  private final Pace pace;
  private final Duration listening;
  private final KeptTrace recording;
  private final Console console;
  private long widening;
  private List<Reading.Counter> counters = List.of();
  private Optional<String> endedEarly = Optional.empty();

  /**
   * An arrangement.
   *
   * @param listening how long to listen before the first input
   * @param recording file for what was judged
   */
  BrokerReplay(BrokerOptions options, Pace pace, Duration listening, KeptTrace recording, Console console) {
    this.options = options;
    this.pace = pace;
    this.listening = listening;
    this.recording = recording;
    this.console = console;
  }

  @Override
  public List<Course> courses(CheckOptions check, RuleFiles rules, TraceOptions reading) {
    List<Path> traces = TraceFiles.of(check.traces());
    if (traces.size() != 1) {
      throw new CommandException("--broker: one trace is played at a time, not " + traces.size());
    }
    TopicBindings topics = BrokerOptions.topics(check.bindings(), rules.book(), TopicBindings.BENCH_PREFIX, console);
    HarnessClock clock = HarnessClock.started();
    try (BrokerSession session = new BrokerSession(options, clock, console)) {
      TraceSummary summary = checked(traces.get(0), reading);
      play(session, topics, traces.get(0), reading, summary, rules.book(), clock);
    } catch (IOException e) {
      throw new CommandException(FileTrouble.message(traces.get(0).toString(), e));
    }
    return List.of(new RecordedCourse(recording.file(), TraceOptions.of(rules.book())));
  }

  /** The whole trace is read before anything of it is sent. */
  private static TraceSummary checked(Path trace, TraceOptions reading) throws IOException {
    try (TraceReader reader = Traces.open(trace, reading)) {
      TraceSummary summary = reader.readTo(new Nowhere(), Progress.NONE);
      if (summary.isRejected()) {
        throw new CommandException(trace + ": " + summary.problemLine() + "; nothing was played ('pawl check' shows the places)");
      }
      return summary;
    }
  }

  private void play(BrokerSession session, TopicBindings topics, Path trace, TraceOptions reading, TraceSummary summary, RuleBook book,
      HarnessClock clock) throws IOException {
    ReplayResult result = playAndRecord(session, topics, trace, reading, summary, book, clock);
    recording.finish();
    tell(result, book);
    endedEarly = result.stopped().map(why -> "the replay ended before the trace did: " + why)
        .or(() -> result.recordingFailure().map(why -> "recording ended early: " + why));
    if (endedEarly.isPresent() && result.messages() == 0) {
      throw new CommandException(endedEarly.get() + " (what came so far is in " + recording.file() + ")");
    }
  }

  private ReplayResult playAndRecord(BrokerSession session, TopicBindings topics, Path trace, TraceOptions reading, TraceSummary summary,
      RuleBook book, HarnessClock clock) throws IOException {
    TimeScale scale = summary.calendar() ? TimeScale.RFC_3339 : TimeScale.NANOSECONDS;
    try (BenchGuard guard = session.guard("replay");
        Recording kept = new Recording(new RowFile(recording.open()), book.signals(), scale)) {
      Replay replay = new Replay(book, topics, pace, new Patience(listening, STEP_PATIENCE, TAIL), clock);
      replay.tell(words -> console.err().println("pawl: " + words));
      RuleEngine live = new RuleEngine(book, EngineOptions.DEFAULT, new LiveLines(book, console));
      BrokerOptions.sayListening(listening, console);
      return replay.run(session.settings("replay"), guard, new TraceInputs(trace, reading, summary), live, kept,
          console.interruption()::isRequested);
    }
  }

  private void tell(ReplayResult result, RuleBook book) {
    widening = result.pace().uncertainty();
    console.err().println("pawl: pace " + pace + ": " + EvidenceWords.pace(result.pace()));
    List<Reading.Counter> all = new ArrayList<>();
    all.add(new Reading.Counter("inputs sent, " + EvidenceWords.pace(result.pace()), result.pace().inputs()));
    all.add(new Reading.Counter("messages taken from the broker", result.messages()));
    add(all, "events of the trace left out, because the bench gives those signals", result.replaced());
    add(all, "inputs not sent, because their value is unknown or has no code", result.unsaid());
    add(all, "messages sent again after a lost connection", result.repeated());
    all.addAll(EvidenceWords.counters(result.evidence(), book.signals().stream().map(Signal::name).toList()));
    counters = List.copyOf(all);
  }

  private static void add(List<Reading.Counter> counters, String what, long count) {
    if (count > 0) {
      counters.add(new Reading.Counter(what, count));
    }
  }

  @Override
  public RuleBook book(RuleFiles rules) {
    return Widening.of(rules.book(), widening);
  }

  @Override
  public Drive drive(RuleFiles rules, Console unused) {
    return new Drive() {
      @Override
      public boolean takes(int signal) {
        return false;
      }

      @Override
      public boolean gives(int signal) {
        return false;
      }

      @Override
      public Run begin(String course, EventSink judge, BooleanSupplier calendar, boolean first) {
        return new Counted(new Through(judge));
      }
    };
  }

  @Override
  public boolean endedEarly() {
    return endedEarly.isPresent();
  }

  /** A run that adds nothing but what the replay counted, and why it ended if it did before the trace. */
  private final class Counted implements Drive.Run {

    private final Drive.Run run;

    Counted(Drive.Run run) {
      this.run = run;
    }

    @Override
    public EventSink sink() {
      return run.sink();
    }

    @Override
    public OptionalLong finish(OptionalLong end) {
      return run.finish(end);
    }

    @Override
    public String failure() {
      return endedEarly.orElse(run.failure());
    }

    @Override
    public List<Reading.Counter> counters() {
      return counters;
    }

    @Override
    public Optional<ProgramPlace> writer(long line) {
      return run.writer(line);
    }
  }

  @Override
  public List<Input> inputs() {
    return List.of();
  }

  @Override
  public List<String> cautions() {
    return List.of(CAUTION);
  }

  /** The trace to be played. */
  private record TraceInputs(Path trace, TraceOptions reading, TraceSummary summary) implements InputSource {

    @Override
    public long end() {
      return summary.end().orElse(0);
    }

    @Override
    public void play(EventSink taker) throws IOException {
      try (TraceReader reader = Traces.open(trace, reading.withAhead(false))) {
        reader.readTo(taker, Progress.NONE);
      }
    }
  }

  /** Takes events to no purpose. */
  static final class Nowhere implements EventSink {

    @Override
    public void event(long time, int signal, long value, long line) {
      // Only whether they can be read is of interest.
    }

    @Override
    public void advanceTo(long time) {
      // As above.
    }
  }
}
