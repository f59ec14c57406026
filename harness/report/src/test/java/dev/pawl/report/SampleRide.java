package dev.pawl.report;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.Evidence;
import dev.pawl.engine.Finding;
import dev.pawl.engine.Margin;
import dev.pawl.engine.MarginSpread;
import dev.pawl.engine.Obligations;
import dev.pawl.engine.RuleOutcome;
import dev.pawl.engine.Sight;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.engine.ZoneOutcome;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Comparison;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Proof;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.rules.model.Zone;
import dev.pawl.grammar.source.Position;
import dev.pawl.report.collect.FindingCollector;
import dev.pawl.report.collect.ResultBuilder;
import dev.pawl.report.model.Acceptance;
import dev.pawl.report.model.Decisions;
import dev.pawl.report.model.Drawing;
import dev.pawl.report.model.Drawing.Box;
import dev.pawl.report.model.Drawing.Port;
import dev.pawl.report.model.Drawing.Shape;
import dev.pawl.report.model.Drawing.Wire;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.Input;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.Review;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.picture.PictureRecorder;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.OptionalInt;

/**
 * A small invented ride with one rule of each verdict, and what an engine would tell about one trace of it, all by
 * hand.
 */
public final class SampleRide {

  public static final long MS = 1_000_000L;
  public static final int ESTOP = 0;
  public static final int LIFT_RUN = 1;
  public static final int LIFT_SPEED = 2;
  public static final int MODE = 3;
  public static final int BASE_FLAG = 4;
  public static final int CREST_FLAG = 5;
  public static final String TRACE = "traces/day.csv";

  private SampleRide() {}

  public static RuleBook book() {
    return new RuleBook("Sample", 10 * MS, List.of(bool(ESTOP, "estop_chain"), bool(LIFT_RUN, "lift_run"), speed(),
        mode(), bool(BASE_FLAG, "base_flag"), bool(CREST_FLAG, "crest_flag")), List.of(lift()),
        List.of(stop(), speedLimit(), dispatch(), idle(), reset()));
  }

  private static Signal bool(int index, String name) {
    return new Signal(index, name, Signal.Direction.INPUT, new ValueType.Bool(), at(index + 3));
  }

  private static Signal speed() {
    return new Signal(LIFT_SPEED, "lift_speed", Signal.Direction.OUTPUT,
        new ValueType.Quantity("mph", Dimension.SPEED, 0.44704, 0), at(5));
  }

  private static Signal mode() {
    return new Signal(MODE, "mode", Signal.Direction.OUTPUT, new ValueType.Enumeration("", List.of("MANUAL", "AUTO")),
        at(6));
  }

  private static Zone lift() {
    return new Zone(0, "lift", new Zone.Edge(new BoolExpr.Rises(new BoolExpr.Signal(BASE_FLAG))),
        new Zone.Edge(new BoolExpr.Falls(new BoolExpr.Signal(CREST_FLAG))), 48, 1, OptionalInt.of(0), at(9));
  }

  private static Position at(int line) {
    return new Position("rules/sample.rules", line, 1, 4);
  }

  private static final Rule.Basis PRACTICE = new Rule.Basis("practice", true);

  private static Rule stop() {
    Rule.Duty duty = new Rule.When(new BoolExpr.Falls(new BoolExpr.Signal(ESTOP)), Optional.empty(), Optional.empty(),
        new Demand.Within(new BoolExpr.Not(new BoolExpr.Signal(LIFT_RUN)), 0, 500 * MS, Optional.empty()));
    return new Rule(0, "STOP-01", "E-stop stops the lift", Rule.Severity.CRITICAL, PRACTICE, duty, Proof.NONE, 10 * MS,
        "when falls(estop_chain) must not lift_run within 500 ms", at(12));
  }

  private static Rule speedLimit() {
    BoolExpr required = new BoolExpr.Compare(Comparison.AT_MOST, new NumExpr.Signal(LIFT_SPEED),
        new NumExpr.Constant(6 * 0.44704), 0);
    return new Rule(1, "LIFT-02", "Lift speed stays below its limit", Rule.Severity.MAJOR,
        new Rule.Basis("sample sheet, 3.2", false), new Rule.Always(required, false, Optional.empty(),
            Optional.empty()), Proof.NONE, 10 * MS, "always lift_speed <= 6 mph",
        at(18));
  }

  private static Rule dispatch() {
    BoolExpr trigger = new BoolExpr.Rises(new BoolExpr.Signal(CREST_FLAG));
    return new Rule(2, "ZONE-01", "No dispatch into an occupied zone", Rule.Severity.CRITICAL, PRACTICE,
        new Rule.When(trigger, Optional.empty(), Optional.empty(),
            new Demand.AtOnce(new BoolExpr.Not(new BoolExpr.Occupied(0)), Optional.empty())), Proof.NONE,
        10 * MS, "when rises(crest_flag) must not occupied(lift)", at(24));
  }

  private static Rule idle() {
    BoolExpr trigger = new BoolExpr.HeldFor(new BoolExpr.Not(new BoolExpr.Occupied(0)), 20_000 * MS);
    return new Rule(3, "LIFT-01", "Lift idles when no train is near", Rule.Severity.MINOR, PRACTICE,
        new Rule.When(trigger, Optional.empty(), Optional.empty(),
            new Demand.Within(new BoolExpr.Not(new BoolExpr.Signal(LIFT_RUN)), 0, 3000 * MS, Optional.empty())),
        Proof.NONE, 10 * MS, "when not occupied(lift) for 20 s must not lift_run within 3 s", at(30));
  }

  private static Rule reset() {
    return new Rule(4, "STOP-02", "Reset alone starts nothing", Rule.Severity.MAJOR, PRACTICE,
        new Rule.Always(new BoolExpr.Not(new BoolExpr.Signal(LIFT_RUN)), true, Optional.empty(), Optional.empty()),
        Proof.NONE, 10 * MS, "never lift_run", at(36));
  }

  /**
   * What the listener is told: three broken obligations of STOP-01, the first answered late, and two miscounts of the
   * lift zone.
   */
  public static FindingCollector findings(int keep) {
    return findings(keep, 724_200);
  }

  private static FindingCollector findings(int keep, long late) {
    FindingCollector collector = new FindingCollector(book(), keep);
    for (int i = 0; i < 3; i++) {
      collector.finding(missedStop(i * 60_000L));
      if (i == 0) {
        collector.lateResponse(0, 723_450 * MS, 723_950 * MS, late * MS);
      }
    }
    collector.finding(new Finding(3, Finding.Kind.OPEN, 899_000 * MS, 900_000 * MS, false, 902_000 * MS, List.of()));
    collector.tracking(miscount(300_000));
    collector.tracking(miscount(400_000));
    return collector;
  }

  private static Finding missedStop(long shift) {
    long trigger = (723_450 + shift) * MS;
    return new Finding(0, Finding.Kind.NO_RESPONSE, trigger, trigger + 500 * MS, true, trigger + 500 * MS,
        List.of(new Evidence(Evidence.Moment.TRIGGER, trigger, ESTOP, 0, 1201 + shift),
            new Evidence(Evidence.Moment.BREAK, 700_010 * MS, LIFT_RUN, 1, 1102)));
  }

  private static TrackingFinding miscount(long time) {
    return new TrackingFinding(0, TrackingFinding.Kind.LEFT_EMPTY, time * MS, OptionalLong.of((time - 5000) * MS),
        List.of(new Evidence(Evidence.Moment.BREAK, time * MS, CREST_FLAG, EventSink.UNKNOWN, 640)));
  }

  public static TraceOutcome outcome() {
    return new TraceOutcome(0, 900_000 * MS, 12_345, 2, List.of(
        new RuleOutcome(0, new Obligations(11, 3, 0, 0, 0, 0, 0),
            Optional.of(new Margin(-0.25, "s", 724_200 * MS, 723_450 * MS,
        false)), Optional.of(new MarginSpread(0.5, 1, 2, 3, 5)), List.of(), 0, 0),
        new RuleOutcome(1, new Obligations(1, 0, 0, 0, 0, 0, 0),
            Optional.of(new Margin(0.44704, "m/s", 41_000 * MS, 0, false)),
            Optional.of(new MarginSpread(6 * 0.44704, 0, 1, 0, 0)), List.of(), 0, 900_000 * MS),
        new RuleOutcome(2, new Obligations(0, 0, 0, 0, 0, 0, 0, 4), Optional.empty(), 0),
        new RuleOutcome(3, new Obligations(6, 0, 1, 0, 0, 2, 0),
            Optional.of(new Margin(1.25, "s", 80_000 * MS, 78_250 * MS,
        true)), Optional.of(new MarginSpread(3, 0, 0, 2, 4)), List.of(), 0, 0),
        new RuleOutcome(4, new Obligations(1, 0, 0, 0, 0, 0, 0), Optional.empty(), 890_500 * MS)),
        List.of(new ZoneOutcome(0, 14, 16, 2, 0, 1, ZoneOutcome.Start.DOUBTFUL)),
        book().signals().stream().map(signal -> signal.index() == LIFT_SPEED ? Sight.ONE_VALUE : Sight.CHANGING)
            .toList());
  }

  public static Reading reading() {
    return new Reading(List.of(new Reading.Counter("rows out of order", 3)),
        List.of(new Reading.Problem(88, "time 12.000 is earlier than 12.100 before it; row left out")), 3, "");
  }

  public static TraceResult trace() {
    return new ResultBuilder(book(), TRACE, TimeBase.START).build(outcome(), findings(2), reading(), 70_001, 12_345,
        false);
  }

  /** The report with its pictures. */
  public static Report drawn() {
    return drawn(724_200);
  }

  /** The same where the drive stood at another instant after the first emergency stop, in milliseconds. */
  public static Report drawn(long stood) {
    TraceResult trace = new ResultBuilder(book(), TRACE, TimeBase.START).build(outcome(), findings(2, stood),
        reading(), 70_001, 12_345, false);
    PictureRecorder recorder = new PictureRecorder(book(), trace, 2);
    play(recorder, stood);
    return report(withDrawings(recorder.result()));
  }

  public static Report report() {
    return report(trace());
  }

  public static Report report(TraceResult... traces) {
    return new Report("0.1.0", "2026-11-25T10:00:00Z", false, "Sample", List.of(
        new Input(Input.Role.RULES, "rules/sample.rules", 812, "a".repeat(64)),
        new Input(Input.Role.TRACE, TRACE, 402_112, "0123456789abcdef".repeat(4))), List.of(traces), List.of(), book());
  }

  /** The report with a finding that is accepted, an acceptance that has expired, and a review. */
  public static Report decided() {
    Report report = report();
    return report.decided(new Decisions(LocalDate.of(2026, 11, 25), List.of(
        new Acceptance("STOP-01", Optional.of("day.csv"), Optional.empty(), "order 118", "J. Smith",
            LocalDate.of(2026, 12, 31), "site.decisions", 1),
        new Acceptance("LIFT-02", Optional.empty(), Optional.empty(), "was worn", "J. Smith",
            LocalDate.of(2026, 11, 24), "site.decisions", 5)),
        List.of(new Review("A. Reviewer", LocalDate.of(2026, 11, 24), List.of("every finding"), "agreed",
            report.identity(), "site.decisions", 9))), report.inputs());
  }

  /** Plays the trace that the findings speak of, as far as it matters. */
  public static void play(EventSink sink) {
    play(sink, 724_200);
  }

  private static void play(EventSink sink, long stood) {
    sink.event(0, ESTOP, 1, 2);
    sink.event(0, MODE, 1, 3);
    sink.event(0, CREST_FLAG, 0, 4);
    sink.event(20_000 * MS, BASE_FLAG, 1, 20);
    sink.event(22_000 * MS, BASE_FLAG, 0, 22);
    sink.event(40_000 * MS, LIFT_SPEED, Double.doubleToRawLongBits(4 * 0.44704), 30);
    sink.event(41_000 * MS, LIFT_SPEED, Double.doubleToRawLongBits(5 * 0.44704), 31);
    sink.event(299_000 * MS, CREST_FLAG, 1, 638);
    sink.event(300_000 * MS, CREST_FLAG, EventSink.UNKNOWN, 640);
    sink.event(300_500 * MS, CREST_FLAG, 0, 641);
    sink.event(700_010 * MS, LIFT_RUN, 1, 1102);
    sink.event(723_450 * MS, ESTOP, 0, 1201);
    sink.event(stood * MS, LIFT_RUN, 0, 1203);
    sink.event(726_000 * MS, ESTOP, 1, 1204);
    sink.event(727_000 * MS, LIFT_RUN, 1, 1205);
    sink.event(783_450 * MS, ESTOP, 0, 61201);
    sink.event(899_900 * MS, BASE_FLAG, 1, 70000);
    sink.event(900_000 * MS, BASE_FLAG, 0, 70001);
  }

  /** What wrote an output, with all that can be drawn of a network. */
  public static Drawing network() {
    Port in = new Port("", false, "");
    return new Drawing("Lift, network 3", "lift_run", 74_750 * MS, List.of(
        new Box(Shape.CONTACT, "train_near", "", "", "TRUE", false, List.of(in), List.of(new Port("", false, "TRUE"))),
        new Box(Shape.CONTACT, "a_restart_by_hand_of_the_operator_at_the_panel", "", "rises", "FALSE", false,
            List.of(in), List.of(new Port("", false, "FALSE"))),
        new Box(Shape.CONTACT, "estop_latched", "", "NOT", "FALSE", false, List.of(in),
            List.of(new Port("", false, "TRUE"))),
        new Box(Shape.READ, "T#500ms", "", "", "", false, List.of(), List.of(new Port("", false, "T#500ms"))),
        new Box(Shape.BLOCK, "TON", "settle", "", "", false, List.of(new Port("IN", true, ""), new Port("PT", false,
            "")), List.of(new Port("Q", false, "TRUE"), new Port("ET", false, "500 ms"))),
        new Box(Shape.COIL, "lift_run", "", "set", "TRUE", true, List.of(in), List.of(in)),
        new Box(Shape.RAIL, "", "", "", "", false, List.of(), List.of(new Port("", false, "TRUE")))),
        List.of(new Wire(6, 0, 0, 0, "TRUE", false), new Wire(6, 0, 1, 0, "TRUE", false),
            new Wire(0, 0, 2, 0, "TRUE", false), new Wire(1, 0, 2, 0, "FALSE", false),
            new Wire(2, 0, 4, 0, "TRUE", false), new Wire(3, 0, 4, 1, "T#500ms", false),
            new Wire(4, 0, 5, 0, "TRUE", false), new Wire(4, 1, 5, 0, "TRUE", true)));
  }

  /** The same of a chart. */
  public static Drawing chart() {
    Port in = new Port("", false, "");
    return new Drawing("Dispatch", "gate_release", 74_750 * MS, List.of(
        new Box(Shape.STEP, "Ready", "", "initial", "not active", false, List.of(in), List.of()),
        new Box(Shape.TRANSITION, "dispatch_button AND NOT lift_occupied AND NOT brakes_occupied", "", "",
            "not enabled", false, List.of(new Port("dispatch_button", false, "TRUE"), new Port("lift_occupied", false,
            "FALSE")), List.of()),
        new Box(Shape.STEP, "Release", "", "", "active for 250 ms", true, List.of(in),
            List.of(new Port("N gate_release", false, "writes"), new Port("S horn", false, ""))),
        new Box(Shape.TRANSITION, "base_flag", "", "", "not met", false, List.of(new Port("base_flag", false,
            "FALSE")), List.of()),
        new Box(Shape.STEP, "Ready", "", "", "", false, List.of(in), List.of())),
        List.of(new Wire(0, 0, 1, 0, "FALSE", false), new Wire(1, 0, 2, 0, "FALSE", false),
            new Wire(2, 0, 3, 0, "TRUE", false), new Wire(3, 0, 4, 0, "FALSE", false)));
  }

  /** A trace in which the first rule's finding has both. */
  public static TraceResult withDrawings(TraceResult trace) {
    List<RuleResult> rules = new ArrayList<>(trace.rules());
    RuleResult first = rules.get(0);
    List<FindingResult> broken = new ArrayList<>(first.broken());
    broken.set(0, broken.get(0).withDrawings(List.of(network(), chart())));
    rules.set(0, new RuleResult(first.rule(), first.obligations(), first.margin(), first.seen(), broken,
        first.doubtful()));
    return trace.withRules(rules);
  }
}
