package dev.pawl.run.stress;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.EventSink;
import dev.pawl.engine.Finding;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.RuleOutcome;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.logic.LineWitness;
import dev.pawl.logic.LogicHarness;
import dev.pawl.logic.LogicOutcome;
import dev.pawl.logic.LogicProgram;
import dev.pawl.logic.ScanOptions;
import dev.pawl.logic.SignalBinding;
import dev.pawl.plant.loop.RideLoop;
import dev.pawl.plant.loop.Truth;
import dev.pawl.plant.ride.Ride;
import dev.pawl.plant.scenario.Scenario;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.LongConsumer;

/**
 * What is stressed: a ride around logic, judged by rules. It can run on several threads at once.
 *
 * @param program compiled with {@code binding.recorded()}
 */
public record Subject(Ride ride, RuleBook book, LogicProgram program, SignalBinding binding, ScanOptions scans) {

  /** A run goes on for so many seconds at most as long as a hazard can still be noticed. */
  private static final double RUN_ON = 60;
  /** Scans between looks at how near trains are. */
  private static final int LOOK_EVERY = 20;
  private static final EngineOptions FIRST_FINDINGS = new EngineOptions(true, 1);

  /** Nanoseconds from one look at the ride, and so one movement of it, to the next. */
  public long step() {
    return scans.shortest(program.program().tasks());
  }

  /** The same with other logic. */
  Subject with(LogicProgram otherProgram, SignalBinding otherBinding) {
    return new Subject(ride, book, otherProgram, otherBinding, scans);
  }

  /** Runs a scenario to its end. */
  RunResult run(Scenario scenario, BitSet ignored) {
    return run(scenario, ignored, LineWitness.NONE, time -> {});
  }

  /** When anything that is no number changes in a run of a scenario: seconds after its start, each once, in order. */
  double[] moments(Scenario scenario) {
    TreeSet<Long> moments = new TreeSet<>();
    run(scenario, new BitSet(), LineWitness.NONE, moments::add);
    return moments.stream().mapToDouble(it -> it / 1e9).filter(it -> it <= scenario.lasts()).toArray();
  }

  /**
   * Runs a scenario to its end.
   *
   * @param ignored rules that notice nothing, since they are broken without any fault
   * @param witness is shown what watched lines of the program come to
   * @param changes is told, in nanoseconds after the start, when a signal that is no number changes
   */
  RunResult run(Scenario scenario, BitSet ignored, LineWitness witness, LongConsumer changes) {
    long[] broken = new long[book.rules().size()];
    Arrays.fill(broken, -1);
    long step = step();
    RideLoop loop = new RideLoop(ride, scenario.lasting(scenario.lasts() + RUN_ON), book, step);
    long usual = Math.round(scenario.lasts() * 1e9 / step);
    long start = loop.start();
    RuleEngine engine = new RuleEngine(book, FIRST_FINDINGS, new FirstBreaks(broken, start));
    Outputs outputs = new Outputs(engine, time -> changes.accept(time - start));
    ScanOptions fromStart = scans.withOutages(scans.outages().stream().map(cut -> new ScanOptions.Outage(cut.start()
        + start, cut.end() + start, cut.restart())).toList());
    LogicHarness harness = new LogicHarness(program, binding, book, fromStart, loop.heardBy(outputs));
    harness.show(witness);
    outputs.harness = harness;
    loop.cuts((from, to, warm) -> harness.cut(new ScanOptions.Outage(from, to, warm ? ScanOptions.Restart.WARM
        : ScanOptions.Restart.COLD)));
    double[] gap = {Double.POSITIVE_INFINITY};
    long[] last = {0};
    long end = loop.run(harness, scan -> {
      boolean goesOn = harness.stoppedAt() == Long.MAX_VALUE
          && (scan <= usual || loop.truth().isOpen(scan * step / 1e9));
      last[0] = goesOn ? scan : last[0];
      if (goesOn && scan % LOOK_EVERY == 0 && scan > 0) {
        gap[0] = Math.min(gap[0], loop.smallestGap());
      }
      return goesOn;
    });
    LogicOutcome logic = harness.finish(Math.min(end, harness.stoppedAt()));
    TraceOutcome outcome = engine.finish(Math.min(end, harness.stoppedAt()));
    Optional<String> early = loop.beyondModel().map("the model of the ride ended: "::concat);
    if (harness.stoppedAt() != Long.MAX_VALUE) {
      early = Optional.of("the program stopped by a run-time error at "
          + logic.errors().get(logic.errors().size() - 1));
    }
    return new RunResult(hazards(loop.truth(), broken, ignored), broken, margins(outcome), tried(outcome), gap[0],
        outputs.hash,
        last[0] + 1, early);
  }

  private static BitSet tried(TraceOutcome outcome) {
    BitSet tried = new BitSet();
    outcome.rules().forEach(rule -> tried.set(rule.rule(), rule.verdict() != Verdict.NOT_EXERCISED));
    return tried;
  }

  private static double[] margins(TraceOutcome outcome) {
    return outcome.rules().stream().map(RuleOutcome::margin).mapToDouble(it -> it.isPresent() ? it.get().value()
        : Double.NaN).toArray();
  }

  private static List<RunResult.Hazard> hazards(Truth truth, long[] broken, BitSet ignored) {
    long first = Long.MAX_VALUE;
    for (int rule = 0; rule < broken.length; rule++) {
      first = broken[rule] >= 0 && !ignored.get(rule) ? Math.min(first, broken[rule]) : first;
    }
    List<RunResult.Hazard> hazards = new ArrayList<>();
    for (Truth.Happening it : truth.happenings()) {
      boolean noticed = first != Long.MAX_VALUE && it.isNoticedBy(first / 1e9);
      if (it.hazard() && hazards.stream().noneMatch(of -> of.kind() == it.kind() && of.noticed() == noticed)) {
        hazards.add(new RunResult.Hazard(it.kind(), it.seconds(), it.words(), noticed));
      }
    }
    return hazards;
  }

  /** Notes when each rule was first broken. */
  private record FirstBreaks(long[] broken, long start) implements FindingListener {

    @Override
    public void finding(Finding finding) {
      if (finding.kind().breaks()) {
        long time = Math.max(0, finding.time() - start);
        broken[finding.rule()] = broken[finding.rule()] < 0 ? time : Math.min(time, broken[finding.rule()]);
      }
    }

    @Override
    public void tracking(TrackingFinding finding) {}

    @Override
    public void lateResponse(int rule, long trigger, long deadline, long time) {}
  }

  /** Adds up what the controller puts out, and tells of changes, on their way to the judge; ends with the program. */
  private final class Outputs implements EventSink {

    private final EventSink judge;
    private final LongConsumer changes;
    private LogicHarness harness;
    private long hash;

    Outputs(EventSink judge, LongConsumer changes) {
      this.judge = judge;
      this.changes = changes;
    }

    @Override
    public void event(long time, int signal, long value, long line) {
      if (time > harness.stoppedAt()) {
        return;
      }
      if (binding.gives(signal)) {
        hash = (hash ^ time) * 0x9E3779B97F4A7C15L;
        hash = (Long.rotateLeft(hash, 29) ^ value * 31 + signal) * 0xBF58476D1CE4E5B9L;
      }
      if (!book.signals().get(signal).type().isNumber()) {
        changes.accept(time);
      }
      judge.event(time, signal, value, line);
    }

    @Override
    public void advanceTo(long time) {
      if (time <= harness.stoppedAt()) {
        judge.advanceTo(time);
      }
    }
  }
}
