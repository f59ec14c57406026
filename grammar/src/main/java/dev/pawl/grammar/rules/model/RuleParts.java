package dev.pawl.grammar.rules.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;

/** The signals behind rules and expressions. */
public final class RuleParts {

  /** Those whose value at a moment rests on nothing but the signals' values at that moment. */
  private static final Set<Class<? extends Expr>> OF_THE_MOMENT =
      Set.of(BoolExpr.Constant.class, BoolExpr.Signal.class, BoolExpr.Not.class, BoolExpr.And.class, BoolExpr.Or.class,
      BoolExpr.Same.class, BoolExpr.Compare.class, BoolExpr.EnumEquals.class, NumExpr.Constant.class,
      NumExpr.Signal.class, NumExpr.Negate.class, NumExpr.Arithmetic.class, EnumExpr.Literal.class,
      EnumExpr.Signal.class);

  /** Those whose value may rest on what was at any moment before. */
  private static final Set<Class<? extends Expr>> FOR_EVER =
      Set.of(BoolExpr.Since.class, BoolExpr.Previous.class, NumExpr.CountSince.class, NumExpr.TimeSince.class,
      NumExpr.Rate.class, NumExpr.Previous.class, NumExpr.PassingSpeed.class, EnumExpr.Previous.class);

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
    condition.walk(part -> back[0] |= !OF_THE_MOMENT.contains(part.getClass()));
    return back[0];
  }

  /** The same, but that it may rest on the trains in zones, too. */
  public static boolean looksBackBeyondZones(BoolExpr condition) {
    boolean[] back = {false};
    condition.walk(part -> back[0] |= !OF_THE_MOMENT.contains(part.getClass()) && !(part instanceof BoolExpr.Occupied)
        && !(part instanceof NumExpr.Trains));
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
    long own = ownWindow(expression);
    long inner = expression.parts().expressions().stream().mapToLong(RuleParts::zonesMatterFor).max().orElse(0);
    return own > Long.MAX_VALUE - inner ? Long.MAX_VALUE : own + inner;
  }

  private static long ownWindow(Expr expression) {
    if (expression instanceof BoolExpr.HeldFor held) {
      return held.duration();
    } else if (expression instanceof BoolExpr.InLast last) {
      return last.duration();
    } else if (expression instanceof NumExpr.CountInLast count) {
      return count.duration();
    } else if (expression instanceof NumExpr.Extreme extreme) {
      return extreme.duration();
    } else if (expression instanceof NumExpr.Mean mean) {
      return mean.duration();
    }
    return FOR_EVER.contains(expression.getClass()) ? Long.MAX_VALUE : 0;
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
