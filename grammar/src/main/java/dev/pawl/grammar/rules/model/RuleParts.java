package dev.pawl.grammar.rules.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;

/** The signals behind rules and expressions. */
public final class RuleParts {

  /** Rests on nothing but the signals' values at its moment. */
  private static final long MOMENT = -2;
  /** Rests on the trains in a zone at its moment, too. */
  private static final long ZONE = -1;
  /** Rests on what was just before its moment, or at the start of the trace. */
  private static final long BEFORE = 0;
  /** May rest on what was at any moment before. */
  private static final long FOR_EVER = Long.MAX_VALUE;

  /** How far back the value of each form rests on what stands in it: one of the above, or nanoseconds. */
  private static final Expr.Visitor<Long> REACH = new Expr.Visitor<>() {
    @Override public Long visit(BoolExpr.Constant e) { return MOMENT; }
    @Override public Long visit(BoolExpr.Signal e) { return MOMENT; }
    @Override public Long visit(BoolExpr.Not e) { return MOMENT; }
    @Override public Long visit(BoolExpr.And e) { return MOMENT; }
    @Override public Long visit(BoolExpr.Or e) { return MOMENT; }
    @Override public Long visit(BoolExpr.Same e) { return MOMENT; }
    @Override public Long visit(BoolExpr.Compare e) { return MOMENT; }
    @Override public Long visit(BoolExpr.EnumEquals e) { return MOMENT; }
    @Override public Long visit(BoolExpr.Rises e) { return BEFORE; }
    @Override public Long visit(BoolExpr.Falls e) { return BEFORE; }
    @Override public Long visit(BoolExpr.BoolChanges e) { return BEFORE; }
    @Override public Long visit(BoolExpr.NumChanges e) { return BEFORE; }
    @Override public Long visit(BoolExpr.EnumChanges e) { return BEFORE; }
    @Override public Long visit(BoolExpr.HeldFor e) { return e.duration(); }
    @Override public Long visit(BoolExpr.InLast e) { return e.duration(); }
    @Override public Long visit(BoolExpr.Since e) { return FOR_EVER; }
    @Override public Long visit(BoolExpr.Previous e) { return FOR_EVER; }
    @Override public Long visit(BoolExpr.Occupied e) { return ZONE; }
    @Override public Long visit(BoolExpr.Enters e) { return BEFORE; }
    @Override public Long visit(BoolExpr.Leaves e) { return BEFORE; }
    @Override public Long visit(BoolExpr.BacksOut e) { return BEFORE; }
    @Override public Long visit(BoolExpr.Miscounts e) { return BEFORE; }
    @Override public Long visit(BoolExpr.TraceStart e) { return BEFORE; }
    @Override public Long visit(BoolExpr.TraceEnd e) { return BEFORE; }
    @Override public Long visit(NumExpr.Constant e) { return MOMENT; }
    @Override public Long visit(NumExpr.Signal e) { return MOMENT; }
    @Override public Long visit(NumExpr.Negate e) { return MOMENT; }
    @Override public Long visit(NumExpr.Arithmetic e) { return MOMENT; }
    @Override public Long visit(NumExpr.CountInLast e) { return e.duration(); }
    @Override public Long visit(NumExpr.CountSince e) { return FOR_EVER; }
    @Override public Long visit(NumExpr.TimeSince e) { return FOR_EVER; }
    @Override public Long visit(NumExpr.Extreme e) { return e.duration(); }
    @Override public Long visit(NumExpr.Mean e) { return e.duration(); }
    @Override public Long visit(NumExpr.Rate e) { return FOR_EVER; }
    @Override public Long visit(NumExpr.Previous e) { return FOR_EVER; }
    @Override public Long visit(NumExpr.PassingSpeed e) { return FOR_EVER; }
    @Override public Long visit(NumExpr.Trains e) { return ZONE; }
    @Override public Long visit(EnumExpr.Literal e) { return MOMENT; }
    @Override public Long visit(EnumExpr.Signal e) { return MOMENT; }
    @Override public Long visit(EnumExpr.Previous e) { return FOR_EVER; }
  };

  private RuleParts() {}

  /**
   * Whether a rule looks back further than to the rising or falling of its trigger. What breaks one that does not does
   * so whatever was before.
   */
  public static boolean looksBack(Rule rule) {
    List<BoolExpr> others = new ArrayList<>(rule.duty().requirements());
    rule.duty().whilst().ifPresent(others::add);
    rule.duty().unless().ifPresent(others::add);
    return others.stream().anyMatch(RuleParts::looksBack) || rule.duty()
        .match(when -> looksBack(WithoutEdges.of(when.trigger())), always -> false);
  }

  /** Whether a condition rests on more than the signals' values at its moment. */
  public static boolean looksBack(BoolExpr condition) {
    boolean[] back = {false};
    condition.walk(part -> back[0] |= part.accept(REACH) != MOMENT);
    return back[0];
  }

  /** The same, but that it may rest on the trains in zones, too. */
  public static boolean looksBackBeyondZones(BoolExpr condition) {
    boolean[] back = {false};
    condition.walk(part -> back[0] |= part.accept(REACH) != MOMENT && part.accept(REACH) != ZONE);
    return back[0];
  }

  /**
   * How long the number of trains in a zone still matters to a rule's conditions, nanoseconds: by their windows, one
   * within another; {@link Long#MAX_VALUE} where it may matter for ever, 0 where only at the moment.
   */
  public static long zonesMatterFor(Rule rule) {
    return rule.duty().conditions().stream().mapToLong(RuleParts::zonesMatterFor).max().orElse(0);
  }

  private static long zonesMatterFor(Expr expression) {
    if (expression.zones().isEmpty()) {
      return 0;
    }
    long own = Math.max(expression.accept(REACH), 0);
    long inner = expression.parts().expressions().stream().mapToLong(RuleParts::zonesMatterFor).max().orElse(0);
    return own > Long.MAX_VALUE - inner ? Long.MAX_VALUE : own + inner;
  }

  /** Indices of the signals a rule needs, its trials' and those behind its zones included. */
  public static Set<Integer> signals(Rule rule, RuleBook book) {
    return signals(conditions(rule), book);
  }

  /** All conditions of a rule: of its duty, then of its trials. */
  public static List<BoolExpr> conditions(Rule rule) {
    return Stream.concat(rule.duty().conditions().stream(), rule.proof().conditions().stream()).toList();
  }

  /** Indices of the signals that expressions need, those behind their zones included. */
  public static Set<Integer> signals(List<? extends Expr> expressions, RuleBook book) {
    Set<Integer> signals = new TreeSet<>();
    expressions.forEach(expression -> gather(expression, book, signals, new TreeSet<>()));
    return signals;
  }

  /** Indices of the zones that expressions read, those behind their zones included. */
  public static Set<Integer> zones(List<? extends Expr> expressions, RuleBook book) {
    Set<Integer> zones = new TreeSet<>();
    expressions.forEach(expression -> gather(expression, book, new TreeSet<>(), zones));
    return zones;
  }

  private static void gather(Expr expression, RuleBook book, Set<Integer> signals, Set<Integer> zones) {
    signals.addAll(expression.signals());
    for (int zone : expression.zones()) {
      if (zones.add(zone)) {
        book.zones().get(zone).conditions().forEach(part -> gather(part, book, signals, zones));
      }
    }
  }
}
