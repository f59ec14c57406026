package dev.pawl.run.control;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.logic.LineWitness;
import dev.pawl.logic.LogicError;
import dev.pawl.logic.LogicHarness;
import dev.pawl.logic.LogicOutcome;
import dev.pawl.logic.ProgramLine;
import dev.pawl.logic.ScanOptions;
import dev.pawl.report.model.DepartureResult;
import dev.pawl.report.model.ProgramPlace;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.model.TraceResult;
import dev.pawl.run.EventSource;
import dev.pawl.run.RunException;
import dev.pawl.run.RunOfAnother;
import dev.pawl.run.SourceOfAnother;
import dev.pawl.run.Unjudged;
import dev.pawl.run.files.FileTrouble;
import dev.pawl.run.files.LogicFiles;
import dev.pawl.trace.feedback.Feedback;
import dev.pawl.trace.intake.Progress;
import dev.pawl.trace.sampling.SamplingMeter;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.BooleanSupplier;

/**
 * A source that logic under test answers to: its inputs drive the logic, and what that gives is judged with them.
 *
 * @param source what drives it
 * @param feedback which of its signals follow which outputs
 * @param controller the logic
 * @param turn an input that is otherwise than recorded
 * @param periods how the outputs of the source were looked at, by signal index, as far as an earlier look has shown it
 */
record LogicSource(EventSource source, Feedback feedback, LogicController controller, Optional<Turn> turn,
    long[] periods) implements SourceOfAnother {

  /** Nobody else sees or records it twice. */
  @Override
  public EventSource forAnotherLook() {
    return unseen(turn);
  }

  /** Runs through it again for a witness, as long as that wants to see more. */
  void shown(LogicFiles files, LineWitness witness, BooleanSupplier more) throws IOException {
    LogicSource again = new LogicSource(source.forAnotherLook(), feedback, controller.with(files, witness), turn,
        periods.clone());
    try (EventSource.Run run = again.begin(new boolean[periods.length])) {
      run.runTo(run.heardBy(new Unjudged()), (bytes, lines) -> more.getAsBoolean());
    }
  }

  private LogicSource unseen(Optional<Turn> other) {
    return new LogicSource(source.forAnotherLook(), feedback, controller.unseen(), other, periods);
  }

  /** The same with an input turned, up to the end of that; nothing is compared with what was recorded. */
  EventSource turned(Turn other) {
    return unseen(Optional.of(other));
  }

  @Override
  public TraceResult examined(TraceResult result) {
    TraceResult known = Drawings.of(this, feedback.book()).added(source.examined(result));
    if (!controller.challenged() || known.rules().isEmpty()) {
      return known;
    }
    try {
      return new Challenges(this, feedback.book(), controller.binding()).added(known);
    } catch (IOException e) {
      throw new RunException(FileTrouble.message(name(), e));
    }
  }

  /** The logic may take signals that the judge does not. */
  @Override
  public EventSource.Run begin(boolean[] needed) throws IOException {
    boolean[] taken = needed.clone();
    for (int signal = 0; signal < taken.length; signal++) {
      taken[signal] |= controller.binding().binds(signal) || controller.recording().isPresent();
    }
    return new Run(source.begin(taken));
  }

  /** One run: the harness is made at the first event, since power cuts count from there. */
  private final class Run extends RunOfAnother implements EventSink {

    private KeptRecording.Kept kept;
    private Optional<ComparedLoop> compared = Optional.empty();
    private SamplingMeter looks;
    private EventSink judge;
    private LogicHarness harness;
    private LogicOutcome outcome;

    private Run(EventSource.Run run) {
      super(run);
    }

    @Override
    public Summary runTo(EventSink sink, Progress progress) throws IOException {
      EventSink witnessed = controller.witness().apply(name(), sink);
      kept = KeptRecording.of(controller.recording(), witnessed, feedback.book().signals(), run::calendar);
      compared = reacts() || turn.isPresent() ? Optional.empty()
          : Optional.of(new ComparedLoop(feedback.measured(periods), kept));
      looks = looksAtOutputs();
      run.cuts((from, to, warm) -> harness.cut(new ScanOptions.Outage(from, to, warm ? ScanOptions.Restart.WARM
          : ScanOptions.Restart.COLD)));
      judge = compared.<EventSink>map(ComparedLoop::loop).orElse(kept);
      Summary summary = turn.isPresent() ? turnedTo(turn.get(), progress) : run.runTo(this, progress);
      Extent extent = summary.extent();
      OptionalLong end = finish(summary.isRejected() ? OptionalLong.empty() : extent.end());
      if (compared.isPresent() && !extent.interrupted()) {
        System.arraycopy(looks.periods(), 0, periods, 0, periods.length);
      }
      List<Integer> silent = summary.silent().stream().filter(signal -> !controller.binding().gives(signal)).toList();
      Extent judged = new Extent(extent.lines(), extent.events(), end, extent.interrupted());
      return new Summary(judged, silent, summary.reading(), new Reading(counters(), List.of(), 0,
          failure().isEmpty() ? summary.control().failure() : failure()));
    }

    private SamplingMeter looksAtOutputs() {
      boolean[] outputs = new boolean[periods.length];
      feedback.moving().forEach(output -> outputs[output] = true);
      return new SamplingMeter(feedback.book(), outputs, 1, new Unjudged());
    }

    private Summary turnedTo(Turn otherwise, Progress progress) throws IOException {
      TurnedInput input = new TurnedInput(otherwise, this);
      Summary all = run.runTo(input, (bytes, lines) -> !input.isOver() && progress.reached(bytes, lines));
      OptionalLong end = all.extent().end().isPresent()
          ? OptionalLong.of(Math.min(all.extent().end().getAsLong(), otherwise.until()))
          : OptionalLong.empty();
      Extent extent = new Extent(all.extent().lines(), all.extent().events(), end, false);
      return new Summary(extent, all.silent(), all.reading(), all.control());
    }

    @Override
    public void event(long time, int signal, long value, long line) {
      if (harness == null) {
        start(time);
      }
      harness.event(time, signal, value, line);
      if (compared.isPresent() && controller.binding().gives(signal) && time <= harness.stoppedAt()) {
        compared.get().loop().recorded(time, signal, value);
        looks.event(time, signal, value, line);
      }
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
      harness = new LogicHarness(controller.program(), controller.binding(), feedback.book(), scans, new Gate());
      harness.show(controller.lines().apply(name()));
    }

    private OptionalLong finish(OptionalLong end) {
      if (harness == null || end.isEmpty()) {
        kept.close(OptionalLong.empty());
        return end;
      }
      outcome = harness.finish(end.getAsLong());
      OptionalLong judged = OptionalLong.of(Math.min(end.getAsLong(), harness.stoppedAt()));
      compared.ifPresent(it -> it.loop().finish(judged.getAsLong()));
      kept.close(judged);
      return judged;
    }

    private String failure() {
      if (outcome == null || harness.stoppedAt() == Long.MAX_VALUE) {
        return "";
      }
      LogicError error = outcome.errors().get(outcome.errors().size() - 1);
      return "the program stopped by a run-time error at " + controller.files().told(error)
          + "; what comes after is not judged";
    }

    private List<Reading.Counter> counters() {
      List<Reading.Counter> counters = new ArrayList<>();
      if (outcome != null) {
        counters.add(new Reading.Counter("scans of the program under test", outcome.scans()));
        count(counters, "scans ran long", outcome.overruns());
        count(counters, "scans that fell due were skipped", outcome.skipped());
        if (outcome.tasks().size() > 1) {
          outcome.tasks().forEach(task -> fared(counters, task));
        }
        count(counters, "events of the trace left out, because the program gives those signals itself",
            outcome.replaced());
        count(counters, "unknown values of inputs, for which the program saw the value before",
            outcome.unknownInputs());
        outcome.missed().forEach(missed -> count(counters, "states of "
            + feedback.book().signals().get(missed.signal()).name()
            + " shorter than a scan, so that the program never saw them; the first began at "
            + TimeText.at(calendar() ? TimeBase.EPOCH : TimeBase.START, missed.first()), missed.count()));
        if (outcome.errorCount() > 0) {
          count(counters, "run-time errors of the program, the first at "
            + controller.files().told(outcome.errors().get(0)),
              outcome.errorCount());
        }
        compared.ifPresent(it -> counters.addAll(it.counters(calendar() ? TimeBase.EPOCH : TimeBase.START)));
      }
      return counters;
    }

    private static void fared(List<Reading.Counter> counters, LogicOutcome.TaskRuns task) {
      counters.add(new Reading.Counter("runs of the task " + task.name(), task.runs()));
      count(counters, "runs of the task " + task.name() + " took long", task.overruns());
      count(counters, "runs of the task " + task.name() + " that fell due were skipped", task.skipped());
    }

    private static void count(List<Reading.Counter> counters, String label, long count) {
      if (count > 0) {
        counters.add(new Reading.Counter(label, count));
      }
    }

    @Override
    public Optional<ProgramPlace> writer(int signal, long line) {
      return ProgramLine.decode(line, controller.program().program().files()).filter(place -> place.line() > 0)
          .flatMap(place -> controller.files().place(place.file(), place.line(), controller.binding().variable(signal)
              .orElse("")));
    }

    @Override
    public List<DepartureResult> departures(Rule rule) {
      return compared.map(it -> it.departures(rule)).orElse(List.of());
    }

    @Override
    public List<String> unrecorded(Rule rule) {
      return compared.map(it -> it.unrecorded(rule)).orElse(List.of());
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
