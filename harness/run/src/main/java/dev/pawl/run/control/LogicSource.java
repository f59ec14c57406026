package dev.pawl.run.control;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.logic.LogicError;
import dev.pawl.logic.LogicHarness;
import dev.pawl.logic.LogicOutcome;
import dev.pawl.logic.ProgramLine;
import dev.pawl.logic.ScanOptions;
import dev.pawl.report.model.ProgramPlace;
import dev.pawl.report.model.Reading;
import dev.pawl.run.EventSource;
import dev.pawl.trace.intake.Progress;
import java.io.IOException;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * A source that logic under test answers to: its inputs drive the logic, and what that gives is judged with them.
 *
 * @param controlled the source
 * @param controller the logic
 */
record LogicSource(EventSource controlled, RuleBook book, LogicController controller) implements EventSource {

  @Override
  public String name() {
    return controlled.name();
  }

  @Override
  public Optional<Path> file() {
    return controlled.file();
  }

  @Override
  public boolean reacts() {
    return controlled.reacts();
  }

  /** Nobody else sees or records it twice. */
  @Override
  public EventSource forAnotherLook() {
    return new LogicSource(controlled.forAnotherLook(), book,
        controller.withRecording(Optional.empty()).withWitness((source, judge) -> judge));
  }

  /** The logic may take signals that the judge does not. */
  @Override
  public EventSource.Run begin(boolean[] needed) throws IOException {
    boolean[] taken = needed.clone();
    for (int signal = 0; signal < taken.length; signal++) {
      taken[signal] |= controller.binding().binds(signal) || controller.recording().isPresent();
    }
    return new Run(controlled.begin(taken));
  }

  /** One run: the harness is made at the first event, since power cuts count from there. */
  private final class Run implements EventSource.Run, EventSink {

    private final EventSource.Run run;
    private Keeping.Kept judge;
    private LogicHarness harness;
    private LogicOutcome outcome;

    private Run(EventSource.Run run) {
      this.run = run;
    }

    @Override
    public EventSink heardBy(EventSink taker) {
      return run.heardBy(taker);
    }

    @Override
    public boolean calendar() {
      return run.calendar();
    }

    @Override
    public Optional<ZoneId> zone() {
      return run.zone();
    }

    @Override
    public Summary runTo(EventSink sink, Progress progress) throws IOException {
      EventSink witnessed = controller.witness().apply(name(), sink);
      judge = Keeping.of(controller.recording(), witnessed, book.signals(), run::calendar);
      Summary summary = run.runTo(this, progress);
      Extent extent = summary.extent();
      OptionalLong end = finish(summary.isRejected() ? OptionalLong.empty() : extent.end());
      List<Integer> silent = summary.silent().stream().filter(signal -> !controller.binding().gives(signal)).toList();
      Extent judged = new Extent(extent.lines(), extent.events(), end, extent.interrupted());
      return new Summary(judged, silent, summary.reading(), new Reading(counters(), List.of(), 0, failure()));
    }

    @Override
    public void event(long time, int signal, long value, long line) {
      if (harness == null) {
        start(time);
      }
      harness.event(time, signal, value, line);
    }

    @Override
    public void advanceTo(long time) {
      if (harness == null) {
        start(time);
      }
      harness.advanceTo(time);
    }

    private void start(long time) {
      List<ScanOptions.Outage> outages = controller.scans().outages().stream()
          .map(cut -> new ScanOptions.Outage(cut.start() + time, cut.end() + time, cut.restart())).toList();
      ScanOptions scans = controller.scans().withOutages(outages);
      harness = new LogicHarness(controller.program(), controller.binding(), book, scans, new Gate());
    }

    private OptionalLong finish(OptionalLong end) {
      if (harness == null || end.isEmpty()) {
        judge.close(OptionalLong.empty());
        return end;
      }
      outcome = harness.finish(end.getAsLong());
      OptionalLong judged = OptionalLong.of(Math.min(end.getAsLong(), harness.stoppedAt()));
      judge.close(judged);
      return judged;
    }

    private String failure() {
      if (outcome == null || harness.stoppedAt() == Long.MAX_VALUE) {
        return "";
      }
      LogicError error = outcome.errors().get(outcome.errors().size() - 1);
      return "the program stopped by a run-time error at " + error + "; what comes after is not judged";
    }

    private List<Reading.Counter> counters() {
      List<Reading.Counter> counters = new ArrayList<>();
      if (outcome != null) {
        counters.add(new Reading.Counter("scans of the program under test", outcome.scans()));
        count(counters, "scans ran long", outcome.overruns());
        count(counters, "scans that fell due were skipped", outcome.skipped());
        count(counters, "events of the trace left out, because the program gives those signals itself",
            outcome.replaced());
        count(counters, "unknown values of inputs, for which the program saw the value before",
            outcome.unknownInputs());
        if (outcome.errorCount() > 0) {
          count(counters, "run-time errors of the program, the first at " + outcome.errors().get(0),
              outcome.errorCount());
        }
      }
      return counters;
    }

    private static void count(List<Reading.Counter> counters, String label, long count) {
      if (count > 0) {
        counters.add(new Reading.Counter(label, count));
      }
    }

    @Override
    public Optional<ProgramPlace> writer(long line) {
      return ProgramLine.decode(line, controller.program().program().files()).filter(place -> place.line() > 0)
          .flatMap(place -> controller.files().place(place.file(), place.line()));
    }

    @Override
    public void close() throws IOException {
      run.close();
    }

    /** Lets nothing through that comes after the program has stopped. */
    private final class Gate implements EventSink {

      @Override
      public void event(long time, int signal, long value, long line) {
        if (time <= harness.stoppedAt()) {
          judge.event(time, signal, value, line);
        }
      }

      @Override
      public void advanceTo(long time) {
        if (time <= harness.stoppedAt()) {
          judge.advanceTo(time);
        }
      }
    }
  }
}
