package dev.pawl.engine.proof;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Comparison;
import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.EnumExpr;
import dev.pawl.grammar.rules.model.NumExpr;
import java.util.ArrayList;
import java.util.List;

/**
 * Draws well-typed expressions over {@link TestSignals}. Some are drawn again later in the same book, so that sharing
 * has work to do.
 */
final class RandomExpressions {
  private static final Dimension PER_SECOND = Dimension.NONE.per(Dimension.TIME);
  private static final List<Comparison> COMPARISONS = List.of(Comparison.values());

  private static final List<NumExpr.Operator> OPERATORS = List.of(NumExpr.Operator.values());
  private static final List<NumExpr.Operator> EXACT =
      List.of(NumExpr.Operator.ADD, NumExpr.Operator.SUBTRACT, NumExpr.Operator.MULTIPLY);

  private final Draw draw;
  private final List<BoolExpr> drawn = new ArrayList<>();
  private final List<Integer> zones = new ArrayList<>();
  private final boolean plain;
  private boolean exact;

  /** @param plain whether conditions are flags and comparisons of signals only */
  RandomExpressions(Draw draw, boolean plain) {
    this.draw = draw;
    this.plain = plain;
  }

  void allowZone(int zone) {
    zones.add(zone);
  }

  long duration() {
    return draw.percent(3) ? draw.of(0, 50, 3_600_000_000_000L) : draw.between(1, 9);
  }

  BoolExpr flag() {
    return new BoolExpr.Signal(TestSignals.SWITCHES[draw.between(0, TestSignals.SWITCHES.length - 1)]);
  }

  BoolExpr bool(int depth) {
    if (plain) {
      return draw.percent(80) ? flag() : compare(0);
    }
    if (!drawn.isEmpty() && draw.percent(12)) {
      return draw.of(drawn);
    }
    BoolExpr expression = depth == 0 ? leaf() : node(depth - 1);
    drawn.add(expression);
    return expression;
  }

  private BoolExpr leaf() {
    return switch (draw.weighted(60, 10, 10, 12, 3, 2, 3)) {
      case 0 -> flag();
      case 1 -> compare(0);
      case 2 -> modes();
      case 3 -> place();
      case 4 -> new BoolExpr.Constant(draw.percent(50));
      case 5 -> new BoolExpr.TraceStart();
      default -> new BoolExpr.TraceEnd();
    };
  }

  private BoolExpr node(int depth) {
    return switch (draw.weighted(8, 8, 8, 3, 16, 8, 6, 3, 3, 2, 12, 12, 8, 4, 8)) {
      case 0 -> new BoolExpr.Not(bool(depth));
      case 1 -> new BoolExpr.And(bool(depth), bool(depth));
      case 2 -> new BoolExpr.Or(bool(depth), bool(depth));
      case 3 -> new BoolExpr.Same(bool(depth), bool(depth));
      case 4 -> compare(depth);
      case 5 -> new BoolExpr.Rises(bool(depth));
      case 6 -> new BoolExpr.Falls(bool(depth));
      case 7 -> new BoolExpr.BoolChanges(bool(depth));
      case 8 -> new BoolExpr.NumChanges(number(depth));
      case 9 -> new BoolExpr.EnumChanges(mode(depth));
      case 10 -> new BoolExpr.HeldFor(bool(depth), duration());
      case 11 -> new BoolExpr.InLast(bool(depth), duration());
      case 12 -> new BoolExpr.Since(bool(depth), bool(depth));
      case 13 -> new BoolExpr.Previous(bool(depth));
      default -> leaf();
    };
  }

  private BoolExpr place() {
    if (zones.isEmpty()) {
      return flag();
    }
    int zone = draw.of(zones);
    return switch (draw.weighted(40, 20, 20, 10, 10)) {
      case 0 -> new BoolExpr.Occupied(zone);
      case 1 -> new BoolExpr.Enters(zone);
      case 2 -> new BoolExpr.Leaves(zone);
      case 3 -> new BoolExpr.BacksOut(zone);
      default -> new BoolExpr.Miscounts(zone);
    };
  }

  private BoolExpr modes() {
    return new BoolExpr.EnumEquals(mode(1), mode(1));
  }

  private EnumExpr mode(int depth) {
    EnumExpr signal = new EnumExpr.Signal(TestSignals.MODES[draw.between(0, 1)]);
    return switch (draw.weighted(40, 40, depth > 0 ? 20 : 0)) {
      case 0 -> new EnumExpr.Literal(draw.between(0, TestSignals.MEMBERS - 1));
      case 1 -> signal;
      default -> new EnumExpr.Previous(signal);
    };
  }

  /** A condition made of comparisons only, so that it has a distance to breaking. */
  BoolExpr comparisons(int depth) {
    if (plain) {
      return compare(0);
    }
    return switch (draw.weighted(50, depth == 0 ? 0 : 15, depth == 0 ? 0 : 15, depth == 0 ? 0 : 20)) {
      case 0 -> compare(1);
      case 1 -> new BoolExpr.Not(comparisons(depth - 1));
      case 2 -> new BoolExpr.And(comparisons(depth - 1), comparisons(depth - 1));
      default -> new BoolExpr.Or(comparisons(depth - 1), comparisons(depth - 1));
    };
  }

  /** A number, mostly as it is logged, compared mostly with a constant. */
  BoolExpr bound() {
    NumExpr x = new NumExpr.Signal(TestSignals.NUMBERS[0]);
    NumExpr y = new NumExpr.Signal(TestSignals.NUMBERS[1]);
    // Mostly one length, so that several rules rest on one window.
    long window = draw.percent(70) ? 3 : duration();
    NumExpr number = switch (draw.weighted(45, 10, 13, 13, 9, 10)) {
      case 0 -> x;
      case 1 -> new NumExpr.Arithmetic(NumExpr.Operator.SUBTRACT, x, y);
      case 2 -> new NumExpr.CountInLast(new BoolExpr.Rises(flag()), window);
      case 3 -> new NumExpr.Extreme(draw.percent(50), x, window);
      case 4 -> swing(x, y, window);
      default -> new NumExpr.Previous(x);
    };
    NumExpr limit = draw.percent(80) ? new NumExpr.Constant(draw.of(-1, 0, 0.5, 1, 2)) : y;
    return sides(draw.of(COMPARISONS), Dimension.NONE, number, limit, draw.percent(75) ? 0 : draw.of(0.5, 1, 1.5));
  }

  /** The greatest value less the least over a window; or something that nearly looks like it. */
  private NumExpr swing(NumExpr x, NumExpr y, long window) {
    NumExpr.Extreme left = new NumExpr.Extreme(draw.percent(80), x, window);
    NumExpr.Extreme right = new NumExpr.Extreme(draw.percent(20), draw.percent(80) ? x : y, draw.percent(80) ? window
        : duration());
    return new NumExpr.Arithmetic(draw.percent(80) ? NumExpr.Operator.SUBTRACT : NumExpr.Operator.ADD, left, right);
  }

  private BoolExpr compare(int depth) {
    Comparison comparison = draw.of(COMPARISONS);
    boolean sharp = draw.percent(80);
    return switch (draw.weighted(60, 10, 8, 12, 10)) {
      case 0 -> sides(comparison, Dimension.NONE, number(depth), number(0), sharp ? 0 : draw.of(0.5, 1, 1.5));
      case 1 -> sides(comparison, Dimension.SPEED, speed(depth), speed(0), sharp ? 0 : draw.of(0.5e9, 1e9));
      case 2 -> sides(comparison, PER_SECOND, new NumExpr.Rate(number(depth)),
          new NumExpr.Constant(draw.of(-1e9, 0, 0.5e9, 1e9)), sharp ? 0 : 0.7e9);
      case 3 -> sides(comparison, Dimension.TIME, new NumExpr.TimeSince(bool(depth)), time(),
          sharp ? 0 : draw.of(0.5e-9, 1e-9, 2e-9));
      default -> sides(comparison, Dimension.NONE, new NumExpr.Mean(exactNumber(depth), draw.between(1, 8)), number(0),
          sharp ? 0 : draw.of(0.25, 1));
    };
  }

  private BoolExpr sides(Comparison comparison, Dimension dimension, NumExpr left, NumExpr right, double tolerance) {
    boolean swapped = draw.percent(20);
    return new BoolExpr.Compare(comparison, swapped ? right : left, swapped ? left : right, tolerance, dimension);
  }

  /** A number whose sums need no rounding, so that a mean over it has one value however it is added up. */
  private NumExpr exactNumber(int depth) {
    exact = true;
    NumExpr number = number(depth);
    exact = false;
    return number;
  }

  private NumExpr number(int depth) {
    int deep = depth > 0 ? 1 : 0;
    int places = zones.isEmpty() ? 0 : 10;
    return switch (draw.weighted(35, 25, 4 * deep, 15 * deep, 8 * deep, 8 * deep, 12 * deep, 8 * deep, places)) {
      case 0 -> new NumExpr.Signal(TestSignals.NUMBERS[draw.between(0, 1)]);
      case 1 -> new NumExpr.Constant(draw.of(-1, 0, 0.5, 1, 2, 3));
      case 2 -> new NumExpr.Negate(number(depth - 1));
      case 3 -> new NumExpr.Arithmetic(draw.of(exact ? EXACT : OPERATORS), number(depth - 1), number(depth - 1));
      case 4 -> new NumExpr.CountInLast(bool(depth - 1), duration());
      case 5 -> new NumExpr.CountSince(bool(depth - 1), bool(depth - 1));
      case 6 -> new NumExpr.Extreme(draw.percent(50), number(depth - 1), duration());
      case 7 -> new NumExpr.Previous(number(depth - 1));
      default -> new NumExpr.Trains(draw.of(zones));
    };
  }

  private NumExpr speed(int depth) {
    return switch (draw.weighted(40, 25, depth > 0 ? 35 : 0)) {
      case 0 -> new NumExpr.Signal(TestSignals.SPEED);
      case 1 -> new NumExpr.Constant(draw.of(0, 1e9, 2e9));
      default -> new NumExpr.PassingSpeed(bool(depth - 1), bool(depth - 1), 6);
    };
  }

  private NumExpr time() {
    return draw.percent(25) ? new NumExpr.Signal(TestSignals.DURATION)
        : new NumExpr.Constant(draw.of(0, 0.5, 1, 2, 2.5, 3.2, 4, 6) / 1e9);
  }
}
