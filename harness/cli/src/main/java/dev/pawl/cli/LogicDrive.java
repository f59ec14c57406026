package dev.pawl.cli;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.logic.LogicError;
import dev.pawl.logic.LogicHarness;
import dev.pawl.logic.LogicOutcome;
import dev.pawl.logic.LogicProgram;
import dev.pawl.logic.ProgramLine;
import dev.pawl.logic.ScanOptions;
import dev.pawl.logic.SignalBinding;
import dev.pawl.report.model.ProgramPlace;
import dev.pawl.report.model.Reading;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.BiFunction;
import java.util.function.BooleanSupplier;

/** Logic under test between a course and its judge: the course's inputs drive it, and what it gives is judged with them. */
final class LogicDrive implements Drive {

  private final RuleBook book;
  private final LogicFiles files;
  private final SignalBinding binding;
  private final LogicProgram program;
  private final ScanOptions scans;
  private final Keeping keeping;
  private final BiFunction<String, EventSink, EventSink> witness;

  /**
   * A drive for any number of runs.
   *
   * @param scans times of power cuts count from the start of each run
   * @param keeping where the judged events of a run are kept
   * @param witness puts itself before the judge of the run with the given name, to see what is judged
   */
  LogicDrive(RuleBook book, LogicFiles files, SignalBinding binding, LogicProgram program, ScanOptions scans, Keeping keeping,
      BiFunction<String, EventSink, EventSink> witness) {
    this.book = book;
    this.files = files;
    this.binding = binding;
    this.program = program;
    this.scans = scans;
    this.keeping = keeping;
    this.witness = witness;
  }

  @Override
  public boolean takes(int signal) {
    return binding.binds(signal) || keeping.isWanted();
  }

  @Override
  public boolean gives(int signal) {
    return binding.gives(signal);
  }

  @Override
  public Drive.Run begin(String course, EventSink judge, BooleanSupplier calendar, boolean first) {
    return new Run(first ? keeping.of(witness.apply(course, judge), book.signals(), calendar) : new Keeping.Kept(judge));
  }

  /** One run: the harness is made at the first event, since power cuts count from there. */
  private final class Run implements Drive.Run, EventSink {

    private final Keeping.Kept judge;
    private LogicHarness harness;
    private LogicOutcome outcome;

    private Run(Keeping.Kept judge) {
      this.judge = judge;
    }

    @Override
    public EventSink sink() {
      return this;
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
      List<ScanOptions.Outage> outages = scans.outages().stream()
          .map(cut -> new ScanOptions.Outage(cut.start() + time, cut.end() + time, cut.restart())).toList();
      harness = new LogicHarness(program, binding, book, scans.withOutages(outages), new Gate());
    }

    @Override
    public OptionalLong finish(OptionalLong end) {
      if (harness == null || end.isEmpty()) {
        judge.close(OptionalLong.empty());
        return end;
      }
      outcome = harness.finish(end.getAsLong());
      OptionalLong judged = OptionalLong.of(Math.min(end.getAsLong(), harness.stoppedAt()));
      judge.close(judged);
      return judged;
    }

    @Override
    public String failure() {
      if (outcome == null || harness.stoppedAt() == Long.MAX_VALUE) {
        return "";
      }
      LogicError error = outcome.errors().get(outcome.errors().size() - 1);
      return "the program stopped by a run-time error at " + error + "; what comes after is not judged";
    }

    @Override
    public List<Reading.Counter> counters() {
      List<Reading.Counter> counters = new ArrayList<>();
      if (outcome != null) {
        counters.add(new Reading.Counter("scans of the program under test", outcome.scans()));
        count(counters, "scans ran long", outcome.overruns());
        count(counters, "scans that fell due were skipped", outcome.skipped());
        count(counters, "events of the trace left out, because the program gives those signals itself", outcome.replaced());
        count(counters, "unknown values of inputs, for which the program saw the value before", outcome.unknownInputs());
        if (outcome.errorCount() > 0) {
          count(counters, "run-time errors of the program, the first at " + outcome.errors().get(0), outcome.errorCount());
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
      return ProgramLine.decode(line, program.program().files()).filter(place -> place.line() > 0)
          .flatMap(place -> files.place(place.file(), place.line()));
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
