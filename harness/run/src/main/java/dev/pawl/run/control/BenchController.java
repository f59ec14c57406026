package dev.pawl.run.control;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.EventSink;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.RuleEngine;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.logic.ScanOptions;
import dev.pawl.mqtt.client.ConnectionTrouble;
import dev.pawl.mqtt.feed.Recording;
import dev.pawl.mqtt.feed.RowFile;
import dev.pawl.mqtt.guard.BenchGuard;
import dev.pawl.mqtt.replay.InputSource;
import dev.pawl.mqtt.replay.Pace;
import dev.pawl.mqtt.replay.ReplayTimeouts;
import dev.pawl.mqtt.replay.Replay;
import dev.pawl.mqtt.replay.ReplayResult;
import dev.pawl.mqtt.replay.ReplaySetting;
import dev.pawl.mqtt.replay.Widening;
import dev.pawl.plant.loop.RideLoop;
import dev.pawl.report.model.Input;
import dev.pawl.report.model.Reading;
import dev.pawl.run.Controller;
import dev.pawl.run.EventSource;
import dev.pawl.run.RunException;
import dev.pawl.run.files.FileTrouble;
import dev.pawl.run.live.EvidenceWords;
import dev.pawl.run.source.RecordedSource;
import dev.pawl.run.source.RideSource;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.TraceReader;
import dev.pawl.trace.TraceSummary;
import dev.pawl.trace.Traces;
import dev.pawl.trace.bindings.Bindings;
import dev.pawl.trace.feedback.Feedback;
import dev.pawl.trace.intake.Progress;
import dev.pawl.trace.time.TimeScale;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;

/**
 * A bench behind a broker: a trace's inputs are played to it, or trains move as it commands, and the recording of that
 * is what is judged, by rules widened by the timing of the replay.
 *
 * @param listening how long to listen before the first input
 * @param recording file for what is judged; one trace goes into it
 * @param findings told of findings as they come
 */
public record BenchController(Bench bench, Pace pace, Duration listening, RecordingFile recording,
    FindingListener findings, BenchListener listener) implements Controller {

  private static final Duration STEP_PATIENCE = Duration.ofSeconds(60);
  private static final Duration TAIL = Duration.ofMillis(500);
  private static final String MOVED = LogicController.CLOSED_LOOP + " What a bench shows, the ride has yet to show.";
  private static final String CAUTION = "The bench answered to recorded inputs, which cannot react: trains did not move"
      + " because its outputs changed. Once an output differs from what was recorded, signals that follow it are "
      + "unknown to"
      + " the rules. What a bench shows, the ride has yet to show.";

  @Override
  public List<Input> inputs() {
    return List.of();
  }

  @Override
  public Controlled control(EventSource source, RuleBook book, Bindings bindings) {
    try {
      return source instanceof RideSource ride ? moved(ride, book) : answered(source, book, bindings);
    } catch (IOException e) {
      throw new RunException(FileTrouble.message(source.name(), e));
    } catch (ConnectionTrouble e) {
      throw new RunException(e.getMessage());
    }
  }

  /** Trains move as the bench commands. */
  private Controlled moved(RideSource ride, RuleBook book) throws IOException {
    if (ride.cutsPower()) {
      throw new RunException(ride.name() + ": this scenario cuts the controller's power, which nobody can do over a"
          + " broker; run it with the logic in process, or without that");
    }
    ReplayResult result = replayed(new RideInputs(ride.moved()), book);
    return judged(result, book, answers -> new MovedSource(answers, ride), MOVED);
  }

  /** A trace is played; the whole of it is read before anything of it is sent. */
  private Controlled answered(EventSource source, RuleBook book, Bindings bindings) throws IOException {
    if (!(source instanceof RecordedSource recorded)) {
      throw new RunException(source.name() + ": only a recorded trace, or a ride, can be played to a bench");
    }
    RecordedOutputs outputs = new RecordedOutputs(signal -> gives(signal, book));
    TraceSummary summary = checked(recorded.trace(), recorded.options(), outputs);
    ReplayResult result = replayed(new TraceInputs(recorded.trace(), recorded.options(), summary), book);
    // How long the bench's scans are nobody says; they are taken to be the usual ones.
    long late = result.pace().uncertainty() + 2 * ScanOptions.DEFAULT.period() + book.resolution();
    Feedback feedback = new Feedback(book, signal -> gives(signal, book), bindings.feedback(), bindings.sampling(),
        output -> late);
    return judged(result, book, answers -> new AnsweredSource(answers, outputs, feedback), CAUTION);
  }

  /** Whether a signal comes from the bench, whatever the trace says of it. */
  private boolean gives(int signal, RuleBook book) {
    return book.signals().get(signal).direction() != Signal.Direction.INPUT && bench.topics().of(signal).isPresent();
  }

  private ReplayResult replayed(Inputs inputs, RuleBook book) throws IOException {
    TimeScale scale = inputs.calendar() ? TimeScale.RFC_3339 : TimeScale.NANOSECONDS;
    ReplayResult result;
    try (BenchGuard guard = bench.permit().get();
        Recording kept = new Recording(new RowFile(recording.open()), book.signals(), scale)) {
      ReplayTimeouts timeouts = new ReplayTimeouts(listening, STEP_PATIENCE, TAIL);
      Replay replay = new Replay(new ReplaySetting(book, bench.topics(), pace, timeouts, bench.clock(),
          listener::isEndWanted));
      replay.tell(listener::waits);
      RuleEngine live = new RuleEngine(book, EngineOptions.DEFAULT, findings);
      listener.listens();
      result = replay.run(bench.settings(), guard, inputs, live, kept);
    }
    recording.finish();
    return result;
  }

  private static TraceSummary checked(Path trace, TraceOptions reading, EventSink taker) throws IOException {
    try (TraceReader reader = Traces.open(trace, reading)) {
      TraceSummary summary = reader.readTo(taker, Progress.NONE);
      if (summary.isRejected()) {
        throw new RunException(trace + ": " + summary.problemLine()
            + "; nothing was played ('pawl check' shows the places)");
      }
      return summary;
    }
  }

  private Controlled judged(ReplayResult result, RuleBook book, UnaryOperator<EventSource> compared, String caution) {
    String quality = EvidenceWords.pace(result.pace());
    listener.kept(quality);
    Optional<String> endedEarly = result.stopped().map(why -> "the replay ended before the trace did: " + why)
        .or(() -> result.recordingFailure().map(why -> "recording ended early: " + why));
    if (endedEarly.isPresent() && result.messages() == 0) {
      throw new RunException(endedEarly.get() + " (what came so far is in " + recording.file() + ")");
    }
    Reading met = new Reading(counters(result, quality, book), List.of(), 0, endedEarly.orElse(""));
    EventSource source = compared.apply(new RecordedSource(recording.file(), TraceOptions.of(book), met));
    RuleBook widened = Widening.of(book, result.pace().uncertainty());
    return new Controlled(source, widened, endedEarly.isPresent(), List.of(caution));
  }

  private static List<Reading.Counter> counters(ReplayResult result, String quality, RuleBook book) {
    List<Reading.Counter> all = new ArrayList<>();
    all.add(new Reading.Counter("inputs sent, " + quality, result.pace().inputs()));
    all.add(new Reading.Counter("messages taken from the broker", result.messages()));
    add(all, "events of the trace left out, because the bench gives those signals", result.replaced());
    add(all, "inputs not sent, because their value is unknown or has no code", result.unsaid());
    add(all, "messages sent again after a lost connection", result.repeated());
    all.addAll(EvidenceWords.counters(result.evidence(), book.signals().stream().map(Signal::name).toList()));
    return all;
  }

  private static void add(List<Reading.Counter> counters, String what, long count) {
    if (count > 0) {
      counters.add(new Reading.Counter(what, count));
    }
  }

  /** What is played. */
  private interface Inputs extends InputSource {

    /** Whether its times count from 1970. */
    boolean calendar();
  }

  /** A ride in motion. */
  private static final class RideInputs implements Inputs {

    private final RideLoop loop;
    private long end;

    RideInputs(RideLoop loop) {
      this.loop = loop;
    }

    @Override
    public boolean calendar() {
      return loop.calendar();
    }

    @Override
    public long end() {
      return end;
    }

    @Override
    public void play(EventSink taker) {
      end = loop.run(taker, scan -> true);
    }

    @Override
    public Optional<EventSink> reacting() {
      return Optional.of(loop);
    }
  }

  /** A trace. */
  private record TraceInputs(Path trace, TraceOptions reading, TraceSummary summary) implements Inputs {

    @Override
    public boolean calendar() {
      return summary.times().calendar();
    }

    @Override
    public long end() {
      return summary.times().end().orElse(0);
    }

    @Override
    public void play(EventSink taker) throws IOException {
      try (TraceReader reader = Traces.open(trace, reading.withAhead(false))) {
        reader.readTo(taker, Progress.NONE);
      }
    }
  }
}
