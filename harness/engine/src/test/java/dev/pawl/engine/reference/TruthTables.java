package dev.pawl.engine.reference;

import static dev.pawl.grammar.rules.model.Truth.BORDERLINE;
import static dev.pawl.grammar.rules.model.Truth.FALSE;
import static dev.pawl.grammar.rules.model.Truth.TRUE;
import static dev.pawl.grammar.rules.model.Truth.UNKNOWN;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Comparison;
import dev.pawl.grammar.rules.model.EnumExpr;
import dev.pawl.grammar.rules.model.Expr;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.grammar.rules.model.Truth;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.IntFunction;
import java.util.function.IntPredicate;
import java.util.function.LongFunction;
import java.util.function.UnaryOperator;

/** The truth of each boolean expression at every moment. */
final class TruthTables implements BoolExpr.Visitor<Truth[]> {
  private final Moments moments;
  /** How far off the durations are that are read at another's moment, in moments; 0 where they are exact. */
  private final long slack;
  /** What looks back sees of it, if it is not that itself. */
  private final boolean lookedBackAt;
  /** That of the rule that reads them, in nanoseconds; none where everything is what it seems to be. */
  private final OptionalLong resolution;
  private final NumberTables numbers;
  private final Map<BoolExpr, Truth[]> tables = new HashMap<>();

  private static final BoolExpr.Question<Truth> BEFORE_THE_START = new BoolExpr.Question<>() {
    @Override public Truth otherwise(BoolExpr e) { return UNKNOWN; }
    @Override public Truth visit(BoolExpr.Constant e) { return truth(e.value()); }
    @Override public Truth visit(BoolExpr.TraceStart e) { return FALSE; }
    @Override public Truth visit(BoolExpr.TraceEnd e) { return FALSE; }
    @Override public Truth visit(BoolExpr.Rises e) { return FALSE; }
    @Override public Truth visit(BoolExpr.Falls e) { return FALSE; }
    @Override public Truth visit(BoolExpr.BoolChanges e) { return FALSE; }
    @Override public Truth visit(BoolExpr.NumChanges e) { return FALSE; }
    @Override public Truth visit(BoolExpr.EnumChanges e) { return FALSE; }
    @Override public Truth visit(BoolExpr.Enters e) { return FALSE; }
    @Override public Truth visit(BoolExpr.Leaves e) { return FALSE; }
    @Override public Truth visit(BoolExpr.BacksOut e) { return FALSE; }
    @Override public Truth visit(BoolExpr.Miscounts e) { return FALSE; }
    @Override public Truth visit(BoolExpr.Not e) { return not(e.operand().accept(this)); }
    @Override public Truth visit(BoolExpr.And e) { return and(e.left().accept(this), e.right().accept(this)); }
    @Override public Truth visit(BoolExpr.Or e) { return or(e.left().accept(this), e.right().accept(this)); }
    @Override public Truth visit(BoolExpr.Same e) { return same(e.left().accept(this), e.right().accept(this)); }
  };

  TruthTables(Moments moments, long slack, OptionalLong resolution, boolean lookedBackAt) {
    this.moments = moments;
    this.slack = slack;
    this.resolution = resolution;
    this.lookedBackAt = lookedBackAt;
    this.numbers = new NumberTables(moments, lookedBackAt);
  }

  /** The tables of what is looked back at. */
  private TruthTables past() {
    return moments.tables(slack, resolution, true);
  }

  /** What is looked back at, as far as the order is open of what it is made of. */
  private Truth[] past(BoolExpr expression) {
    return isOpen(expression) ? open(expression).read() : past().of(expression);
  }

  /** For how few moments that may seem to be otherwise without having been. */
  private long brief(BoolExpr expression) {
    return isOpen(expression) ? open(expression).brief() : 0;
  }

  private boolean isOpen(BoolExpr expression) {
    return resolution.isPresent() && !Condition.haveEvents(List.of(expression));
  }

  private Condition open(BoolExpr expression) {
    return Condition.of(expression, past()::of, moments, resolution.getAsLong(), false);
  }

  Truth[] of(BoolExpr expression) {
    if (resolution.isPresent() && (expression instanceof BoolExpr.Moment || expression instanceof BoolExpr.Previous)) {
      return moments.tables(lookedBackAt).of(expression);
    }
    Truth[] table = tables.get(expression);
    if (table == null) {
      table = expression.accept(this);
      tables.put(expression, table);
    }
    return table;
  }

  /** Whether something happens: true at the moments at which it does, unknown or borderline where it possibly does. */
  Truth[] happenings(BoolExpr event) {
    return of(new BoolExpr.Rises(event));
  }

  /** The same of a trigger, of which only what stands beside an event is read at another's moment. */
  Truth[] triggers(BoolExpr trigger) {
    return rises(trigger, ofTrigger(trigger));
  }

  private Truth[] ofTrigger(BoolExpr trigger) {
    if (trigger instanceof BoolExpr.And both) {
      Truth[] left = isEvent(both.right()) && !isEvent(both.left()) ? of(both.left()) : ofTrigger(both.left());
      Truth[] right = isEvent(both.left()) && !isEvent(both.right()) ? of(both.right()) : ofTrigger(both.right());
      return at(m -> and(left[m], right[m]));
    }
    if (trigger instanceof BoolExpr.Or either) {
      Truth[] left = ofTrigger(either.left());
      Truth[] right = ofTrigger(either.right());
      return at(m -> or(left[m], right[m]));
    }
    return moments.truths.of(trigger);
  }

  private static boolean isEvent(BoolExpr expression) {
    return expression instanceof BoolExpr.Moment || expression instanceof BoolExpr.And both
        && (isEvent(both.left()) || isEvent(both.right())) || expression instanceof BoolExpr.Or either
        && isEvent(either.left()) && isEvent(either.right());
  }

  /** Whether a trigger stands at a moment that happened before anybody looked. */
  boolean stands(BoolExpr trigger, int m) {
    Truth[] table = ofTrigger(trigger);
    return table[m] == TRUE && before(trigger, table, m) == UNKNOWN && moments.isUnseen(trigger, m - 1);
  }

  /** What an expression was just before a moment, if that was the start too. */
  static Truth before(BoolExpr expression, Truth[] table, int m) {
    return m == 0 ? expression.accept(BEFORE_THE_START) : table[m - 1];
  }

  /** The same with every unknown and borderline taken as something else, null for left as it is. */
  Truth[] of(BoolExpr expression, Truth unknownAs) {
    Truth[] table = of(expression);
    return unknownAs == null ? table : at(m -> Moments.isUnknown(table[m]) ? unknownAs : table[m]);
  }

  @Override public Truth[] visit(BoolExpr.Constant constant) { return at(m -> constant.value() ? TRUE : FALSE); }

  @Override
  public Truth[] visit(BoolExpr.Signal signal) {
    return at(m -> ofSignal(moments.value(signal.signal(), m)));
  }

  @Override
  public Truth[] visit(BoolExpr.Not not) {
    Truth[] p = of(not.operand());
    return at(m -> not(p[m]));
  }

  @Override
  public Truth[] visit(BoolExpr.And and) {
    Truth[] left = of(and.left());
    Truth[] right = of(and.right());
    return at(m -> and(left[m], right[m]));
  }

  @Override
  public Truth[] visit(BoolExpr.Or or) {
    Truth[] left = of(or.left());
    Truth[] right = of(or.right());
    return at(m -> or(left[m], right[m]));
  }

  @Override
  public Truth[] visit(BoolExpr.Same same) {
    Truth[] left = of(same.left());
    Truth[] right = of(same.right());
    return at(m -> same(left[m], right[m]));
  }

  @Override public Truth[] visit(BoolExpr.Compare compare) { return compared(compare); }

  @Override
  public Truth[] visit(BoolExpr.EnumEquals equals) {
    int[] left = ofMember(equals.left());
    int[] right = ofMember(equals.right());
    return at(m -> left[m] < 0 || right[m] < 0 ? UNKNOWN : truth(left[m] == right[m]));
  }

  @Override
  public Truth[] visit(BoolExpr.Rises rises) {
    return rises(rises.operand(), of(rises.operand()));
  }

  /** Whether an expression of some truth rises. */
  Truth[] rises(BoolExpr operand, Truth[] p) {
    return at(m -> {
      Truth before = before(operand, p, m);
      return before == UNKNOWN && moments.isUnseen(operand, m - 1) ? FALSE : and(p[m], not(before));
    });
  }

  @Override
  public Truth[] visit(BoolExpr.Falls falls) {
    return of(new BoolExpr.Rises(new BoolExpr.Not(falls.operand())));
  }

  @Override
  public Truth[] visit(BoolExpr.BoolChanges changes) {
    return of(new BoolExpr.Or(new BoolExpr.Rises(changes.operand()), new BoolExpr.Falls(changes.operand())));
  }

  @Override
  public Truth[] visit(BoolExpr.NumChanges changes) {
    double[] x = numbers.of(changes.operand());
    return changes(changes.operand(), m -> !Double.isNaN(x[m]), m -> x[m] != x[m - 1]);
  }

  @Override
  public Truth[] visit(BoolExpr.EnumChanges changes) {
    int[] x = ofMember(changes.operand());
    return changes(changes.operand(), m -> x[m] >= 0, m -> x[m] != x[m - 1]);
  }

  @Override
  public Truth[] visit(BoolExpr.HeldFor held) {
    long brief = brief(held.operand());
    return lookingBack(held, past(held.operand()),
        p -> read(2 * held.duration(), span -> at(m -> m - span < 0 ? FALSE : everywhere(p, brief, m - span, m))));
  }

  @Override
  public Truth[] visit(BoolExpr.InLast inLast) {
    BoolExpr otherwise = new BoolExpr.Not(inLast.operand());
    long brief = brief(otherwise);
    return lookingBack(inLast, past(otherwise),
        notP -> read(2 * inLast.duration(), span -> at(m -> not(everywhere(notP, brief, Math.max(0, m - span), m)))));
  }

  /**
   * What looks back at something: from where it begins on, if that is late, with the unknown that may have been there
   * before.
   */
  private Truth[] lookingBack(BoolExpr expression, Truth[] at, UnaryOperator<Truth[]> looking) {
    Truth[] seen = looking.apply(at);
    int begins = moments.beginsLate(expression);
    if (begins < 0) {
      return seen;
    }
    Truth[] unsure = at.clone();
    unsure[begins - 1] = and(at[begins - 1], UNKNOWN);
    Truth[] later = looking.apply(unsure);
    return at(m -> m < begins ? seen[m] : later[m]);
  }

  /** What is so for a span that may be shorter or longer. */
  private Truth[] read(long span, LongFunction<Truth[]> reading) {
    return agreeing(reading.apply(Math.max(span - slack, 0)), reading.apply(span + slack));
  }

  private Truth[] agreeing(Truth[] one, Truth[] other) {
    return at(m -> one[m] == other[m] ? one[m] : one[m] == UNKNOWN || other[m] == UNKNOWN ? UNKNOWN : BORDERLINE);
  }

  @Override
  public Truth[] visit(BoolExpr.Since since) {
    Truth[] p = past(since.operand());
    Truth[] q = past(since.anchor());
    boolean exact = RuleParts.signals(List.of(since), moments.book).size() < 2;
    int begins = moments.beginsLate(since);
    return exact || slack == 0 ? since(p, q, begins) : since(p, q, slack, brief(since.anchor()), begins);
  }

  /**
   * Where the order is open in which p comes and q goes, it is borderline from the later of the two on; where p goes
   * just after q came, at that moment.
   */
  private Truth[] since(Truth[] p, Truth[] q, long near, long brief, int begins) {
    Truth[] table = new Truth[moments.count];
    long rose = Search.NEVER;
    long anchored = Search.NEVER;
    long anchoredFrom = Search.NEVER;
    Set<Integer> between = new HashSet<>();
    for (int m = 0; m < moments.count; m++) {
      Truth before = m > 0 && m != begins && q[m] != TRUE && q[m - 1] == TRUE ? anchoredBefore(table, p, q, brief, m)
          : before(table, m, begins);
      table[m] = or(q[m], and(p[m], before));
      boolean ceases = m > 0 && p[m] == FALSE && p[m - 1] == TRUE && q[m] == TRUE;
      if (ceases && anchoredFrom != Search.NEVER && m - anchoredFrom < near) {
        between.add(m);
      }
      anchoredFrom = m > 0 && q[m] == TRUE && q[m - 1] == FALSE ? m : anchoredFrom;
      boolean rises = m > 0 && p[m] == TRUE && p[m - 1] == FALSE;
      boolean falls = m > 0 && q[m] == FALSE && q[m - 1] == TRUE;
      rose = rises ? m : rose;
      anchored = falls ? m - 1 : anchored;
      boolean known = rose != Search.NEVER && anchored != Search.NEVER;
      boolean open = known && (rises && rose > anchored + 1 && rose - anchored < near
          || falls && rose < anchored && anchored - rose < near);
      if (open && p[m] == TRUE && q[m] == FALSE) {
        table[m] = BORDERLINE;
      }
    }
    return at(m -> between.contains(m) ? BORDERLINE : table[m]);
  }

  /** What it was when q went that was there, perhaps too briefly to have been. */
  private static Truth anchoredBefore(Truth[] table, Truth[] p, Truth[] q, long brief, int gone) {
    int came = gone - 1;
    while (came > 0 && q[came - 1] == TRUE) {
      came--;
    }
    if (came == 0 || gone - came >= brief) {
      return TRUE;
    }
    Truth unanchored = table[came - 1];
    for (int m = came; m < gone; m++) {
      unanchored = and(p[m], unanchored);
    }
    return or(BORDERLINE, unanchored);
  }

  @Override
  public Truth[] visit(BoolExpr.Previous previous) {
    Truth[] p = of(previous.operand());
    return at(m -> {
      int change = lastChange(m, k -> p[k] != p[k - 1]);
      return change < 0 ? UNKNOWN : p[change - 1];
    });
  }

  @Override public Truth[] visit(BoolExpr.Occupied e) { return moments.zone(e.zone()).occupied(lookedBackAt); }
  @Override public Truth[] visit(BoolExpr.Enters enters) { return moments.zone(enters.zone()).enters; }
  @Override public Truth[] visit(BoolExpr.Leaves leaves) { return moments.zone(leaves.zone()).leaves; }
  @Override public Truth[] visit(BoolExpr.BacksOut backsOut) { return moments.zone(backsOut.zone()).backsOut; }
  @Override public Truth[] visit(BoolExpr.Miscounts miscounts) { return moments.zone(miscounts.zone()).miscounts; }
  @Override public Truth[] visit(BoolExpr.TraceStart e) { return at(m -> truth(m == 0)); }
  @Override public Truth[] visit(BoolExpr.TraceEnd e) { return at(m -> truth(m == moments.last())); }

  /** The member of an enumeration at every moment; -1 for unknown. */
  int[] ofMember(EnumExpr expression) {
    int[] table = new int[moments.count];
    if (expression instanceof EnumExpr.Literal literal) {
      Arrays.fill(table, literal.index());
    } else if (expression instanceof EnumExpr.Signal signal) {
      for (int m = 0; m < table.length; m++) {
        long value = moments.value(signal.signal(), m);
        table[m] = value == EventSink.UNKNOWN ? -1 : (int) value;
      }
    } else if (expression instanceof EnumExpr.Previous previous) {
      int[] x = ofMember(previous.operand());
      for (int m = 0; m < table.length; m++) {
        int change = lastChange(m, k -> x[k] != x[k - 1]);
        table[m] = change < 0 ? -1 : x[change - 1];
      }
    }
    return table;
  }

  private Truth[] compared(BoolExpr.Compare compare) {
    if (compare.left() instanceof NumExpr.TimeSince since) {
      return timeCompared(since, compare.comparison(), numbers.of(compare.right()), compare.tolerance());
    }
    if (compare.right() instanceof NumExpr.TimeSince since) {
      return timeCompared(since, mirrored(compare.comparison()), numbers.of(compare.left()),
          compare.tolerance());
    }
    return agreeing(compared(compare, -slack), compared(compare, slack));
  }

  /** A comparison in which the windows of counts are longer by some moments. */
  private Truth[] compared(BoolExpr.Compare compare, long longer) {
    double[] left = numbers.of(compare.left(), longer);
    double[] right = numbers.of(compare.right(), longer);
    return at(m -> compare(compare.comparison(), left[m], right[m], compare.tolerance()));
  }

  /** A duration compared in whole half-nanoseconds. */
  private Truth[] timeCompared(NumExpr.TimeSince since, Comparison comparison, double[] seconds, double tolerance) {
    double[] halves = numbers.halvesSince(since);
    return at(m -> compare(comparison, halves[m], Math.rint(seconds[m] * 2e9), Math.rint(tolerance * 2e9) + slack));
  }

  static Comparison mirrored(Comparison comparison) {
    return switch (comparison) {
      case EQUAL, NOT_EQUAL -> comparison;
      case LESS -> Comparison.GREATER;
      case AT_MOST -> Comparison.AT_LEAST;
      case GREATER -> Comparison.LESS;
      case AT_LEAST -> Comparison.AT_MOST;
    };
  }

  private static Truth compare(Comparison comparison, double left, double right, double tolerance) {
    if (Double.isNaN(left) || Double.isNaN(right)) {
      return UNKNOWN;
    }
    if (Math.abs(left - right) < tolerance) {
      return BORDERLINE;
    }
    return truth(switch (comparison) {
      case EQUAL -> left == right;
      case NOT_EQUAL -> left != right;
      case LESS -> left < right;
      case AT_MOST -> left <= right;
      case GREATER -> left > right;
      case AT_LEAST -> left >= right;
    });
  }

  private Truth[] changes(Expr operand, IntPredicate known, IntPredicate differs) {
    return at(m -> {
      boolean knownBefore = m > 0 && known.test(m - 1);
      if (!knownBefore && moments.isUnseen(operand, m - 1)) {
        return FALSE;
      }
      return knownBefore && known.test(m) ? truth(differs.test(m)) : UNKNOWN;
    });
  }

  private Truth[] since(Truth[] p, Truth[] q, int begins) {
    Truth[] table = new Truth[moments.count];
    for (int m = 0; m < table.length; m++) {
      table[m] = or(q[m], and(p[m], before(table, m, begins)));
    }
    return table;
  }

  /** What {@code since} was a moment before m, which nobody knows where it begins late. */
  private static Truth before(Truth[] table, int m, int begins) {
    return m == begins ? UNKNOWN : m == 0 ? FALSE : table[m - 1];
  }

  /** Whether something is so at all moments; a fall that is over after fewer than {@code brief} may be none. */
  private static Truth everywhere(Truth[] p, long brief, long from, int to) {
    Truth all = TRUE;
    for (int m = (int) from; m <= to; m++) {
      all = and(all, p[m] == FALSE && isBrief(p, brief, m, to) ? BORDERLINE : p[m]);
    }
    return all;
  }

  private static boolean isBrief(Truth[] p, long brief, int m, int last) {
    int from = m;
    while (from > 0 && p[from - 1] == FALSE) {
      from--;
    }
    int to = m;
    while (to <= last && p[to] == FALSE) {
      to++;
    }
    return from > 0 && to <= last && to - from < brief;
  }

  /** The last moment up to m at which something took another value than at the moment before, or -1. */
  static int lastChange(int m, IntPredicate changed) {
    for (int k = m; k > 0; k--) {
      if (changed.test(k)) {
        return k;
      }
    }
    return -1;
  }

  private Truth[] at(IntFunction<Truth> value) {
    Truth[] table = new Truth[moments.count];
    for (int m = 0; m < table.length; m++) {
      table[m] = value.apply(m);
    }
    return table;
  }

  private static Truth ofSignal(long value) {
    return value == EventSink.UNKNOWN ? UNKNOWN : truth(value != 0);
  }

  static Truth truth(boolean value) {
    return value ? TRUE : FALSE;
  }

  static Truth not(Truth p) {
    return switch (p) {
      case FALSE -> TRUE;
      case TRUE -> FALSE;
      case UNKNOWN, BORDERLINE -> p;
    };
  }

  static Truth and(Truth p, Truth q) {
    if (p == FALSE || q == FALSE) {
      return FALSE;
    }
    if (p == TRUE && q == TRUE) {
      return TRUE;
    }
    return p == UNKNOWN || q == UNKNOWN ? UNKNOWN : BORDERLINE;
  }

  static Truth or(Truth p, Truth q) {
    return not(and(not(p), not(q)));
  }

  static Truth same(Truth p, Truth q) {
    if (p == UNKNOWN || q == UNKNOWN) {
      return UNKNOWN;
    }
    return p == BORDERLINE || q == BORDERLINE ? BORDERLINE : truth(p == q);
  }
}
