package dev.pawl.engine.reference;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Truth;
import java.util.function.IntToDoubleFunction;

/** The value of each numeric expression at every moment; NaN stands for unknown. */
final class NumberTables implements NumExpr.Visitor<double[]> {
  private static final double UNKNOWN = Double.NaN;

  private final Moments moments;
  /** What looks back sees of it, if it is not that itself. */
  private final boolean lookedBackAt;

  NumberTables(Moments moments, boolean lookedBackAt) {
    this.moments = moments;
    this.lookedBackAt = lookedBackAt;
  }

  /** The numbers that are looked back at. */
  private NumberTables past() {
    return new NumberTables(moments, true);
  }

  private Truth[] happenings(BoolExpr event) {
    return moments.tables(true).happenings(event);
  }

  /** The same with the unknown that may have been there before something that looks back begins late. */
  private Truth[] happenings(BoolExpr event, int begins) {
    Truth[] table = happenings(event);
    if (begins > 0) {
      table = table.clone();
      table[begins - 1] = Truth.UNKNOWN;
    }
    return table;
  }

  double[] of(NumExpr expression) {
    return expression.accept(this);
  }

  /**
   * The same with the windows of counts longer by some moments, as far as they are compared as they are or after
   * arithmetic.
   */
  double[] of(NumExpr expression, long longer) {
    if (expression instanceof NumExpr.CountInLast count) {
      return counted(count, Math.max(2 * count.duration() + longer, 0));
    } else if (expression instanceof NumExpr.Negate negate) {
      return negated(of(negate.operand(), longer));
    } else if (expression instanceof NumExpr.Arithmetic e) {
      return calculated(e.operator(), of(e.left(), longer), of(e.right(), longer));
    }
    return of(expression);
  }

  @Override public double[] visit(NumExpr.Constant constant) { return at(m -> constant.value()); }

  @Override
  public double[] visit(NumExpr.Signal signal) {
    return at(m -> {
      long value = moments.value(signal.signal(), m);
      return value == EventSink.UNKNOWN ? UNKNOWN : Double.longBitsToDouble(value);
    });
  }

  @Override
  public double[] visit(NumExpr.Negate negate) {
    return negated(of(negate.operand()));
  }

  private double[] negated(double[] x) {
    return at(m -> -x[m]);
  }

  @Override
  public double[] visit(NumExpr.Arithmetic arithmetic) {
    return calculated(arithmetic.operator(), of(arithmetic.left()), of(arithmetic.right()));
  }

  private double[] calculated(NumExpr.Operator operator, double[] left, double[] right) {
    return at(m -> finite(switch (operator) {
      case ADD -> left[m] + right[m];
      case SUBTRACT -> left[m] - right[m];
      case MULTIPLY -> left[m] * right[m];
      case DIVIDE -> left[m] / right[m];
    }));
  }

  @Override public double[] visit(NumExpr.Trains trains) { return moments.zone(trains.zone()).trains(lookedBackAt); }

  @Override
  public double[] visit(NumExpr.CountInLast count) {
    return counted(count, 2 * count.duration());
  }

  private double[] counted(NumExpr.CountInLast count, long span) {
    int begins = moments.beginsLate(count);
    Truth[] event = happenings(count.event());
    Truth[] later = happenings(count.event(), begins);
    return at(m -> occurrences(m < begins ? event : later, (int) Math.max(0, m - span), m));
  }

  @Override
  public double[] visit(NumExpr.CountSince count) {
    int begins = moments.beginsLate(count);
    Truth[] event = happenings(count.event());
    Truth[] later = happenings(count.event(), begins);
    Truth[] anchor = happenings(count.anchor());
    return at(m -> {
      int a = lastHappening(anchor, m);
      return a < 0 || Double.isNaN(occurrences(anchor, a, m)) ? UNKNOWN
          : occurrences(m < begins ? event : later, a, m);
    });
  }

  @Override
  public double[] visit(NumExpr.TimeSince since) {
    double[] halves = halvesSince(since);
    return at(m -> halves[m] / 2 / 1e9);
  }

  @Override
  public double[] visit(NumExpr.Extreme extreme) {
    double[] x = past().of(extreme.operand());
    return at(m -> extreme(x, (int) Math.max(0, m - 2 * extreme.duration()), m, extreme.greatest()));
  }

  @Override
  public double[] visit(NumExpr.Mean mean) {
    double[] x = past().of(mean.operand());
    return at(m -> mean(x, (int) Math.max(0, m - 2 * mean.duration()), m));
  }

  @Override
  public double[] visit(NumExpr.Previous previous) {
    double[] x = of(previous.operand());
    return at(m -> {
      int change = TruthTables.lastChange(m, k -> changed(x, k));
      return change < 0 ? UNKNOWN : x[change - 1];
    });
  }

  @Override
  public double[] visit(NumExpr.Rate rate) {
    double[] x = of(rate.operand());
    return at(m -> rate(x, m));
  }

  @Override
  public double[] visit(NumExpr.PassingSpeed speed) {
    return passingSpeed(moments.tables(lookedBackAt).happenings(speed.from()),
        moments.tables(lookedBackAt).happenings(speed.to()),
        speed.distance());
  }

  /** Half-nanoseconds since an event last happened. */
  double[] halvesSince(NumExpr.TimeSince since) {
    int begins = moments.beginsLate(since);
    Truth[] happenings = happenings(since.event());
    Truth[] later = happenings(since.event(), begins);
    return at(m -> {
      int a = lastHappening(happenings, m);
      return a < 0 || Double.isNaN(occurrences(m < begins ? happenings : later, a, m)) ? UNKNOWN : m - a;
    });
  }

  private static int lastHappening(Truth[] event, int m) {
    for (int k = m; k >= 0; k--) {
      if (event[k] == Truth.TRUE) {
        return k;
      }
    }
    return -1;
  }

  /** How often an event happens in {@code [from, to]}; NaN if it possibly happens there. */
  private static double occurrences(Truth[] event, int from, int to) {
    int count = 0;
    for (int k = from; k <= to; k++) {
      if (Moments.isUnknown(event[k])) {
        return UNKNOWN;
      }
      count += event[k] == Truth.TRUE ? 1 : 0;
    }
    return count;
  }

  private static double extreme(double[] x, int from, int to, boolean greatest) {
    double extreme = x[from];
    for (int k = from; k <= to; k++) {
      extreme = greatest ? Math.max(extreme, x[k]) : Math.min(extreme, x[k]);
    }
    return extreme;
  }

  /**
   * Odd moments last 1 ns each, even ones nothing; a window that begins or ends at an odd moment begins or ends at its
   * middle.
   */
  private static double mean(double[] x, int from, int to) {
    double integral = 0;
    for (int k = from; k <= to; k++) {
      if (Double.isNaN(x[k])) {
        return UNKNOWN;
      }
      double length = k % 2 == 0 ? 0 : k == from || k == to ? 0.5 : 1;
      integral += x[k] * length;
    }
    return from == to ? x[to] : finite(integral / ((to - from) / 2.0));
  }

  private static boolean changed(double[] x, int k) {
    return x[k] != x[k - 1] && !(Double.isNaN(x[k]) && Double.isNaN(x[k - 1]));
  }

  private static double rate(double[] x, int m) {
    int b = TruthTables.lastChange(m, k -> x[k] < x[k - 1] || x[k] > x[k - 1]);
    if (b < 0) {
      return UNKNOWN;
    }
    for (int k = b; k <= m; k++) {
      if (Double.isNaN(x[k])) {
        return UNKNOWN;
      }
    }
    int a = Math.max(0, TruthTables.lastChange(b - 1, k -> changed(x, k)));
    return finite((x[b] - x[b - 1]) / ((b - a) / 2.0 / 1e9));
  }

  private double[] passingSpeed(Truth[] from, Truth[] to, double distance) {
    double[] table = new double[moments.count];
    double speed = UNKNOWN;
    int first = -1;
    for (int m = 0; m < table.length; m++) {
      if (Moments.isUnknown(from[m]) || Moments.isUnknown(to[m])) {
        speed = UNKNOWN;
        first = -1;
      } else if (to[m] == Truth.TRUE) {
        speed = first < 0 ? UNKNOWN : distance / ((m - first) / 2.0 / 1e9);
        first = -1;
      }
      if (from[m] == Truth.TRUE) {
        first = m;
      }
      table[m] = speed;
    }
    return table;
  }

  private static double finite(double value) {
    return Double.isInfinite(value) ? UNKNOWN : value;
  }

  private double[] at(IntToDoubleFunction value) {
    double[] table = new double[moments.count];
    for (int m = 0; m < table.length; m++) {
      table[m] = value.applyAsDouble(m);
    }
    return table;
  }
}
