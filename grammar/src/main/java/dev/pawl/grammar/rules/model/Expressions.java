package dev.pawl.grammar.rules.model;

import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;

/** Walks over expressions: their parts, and the signals and zones they use. */
public final class Expressions {

  private Expressions() {}

  /** The expressions of a zone's end. */
  public static List<BoolExpr> of(Zone.Boundary boundary) {
    if (boundary instanceof Zone.Pair pair) {
      return List.of(pair.outer(), pair.inner());
    }
    return List.of(((Zone.Edge) boundary).event());
  }

  /** The zones an expression speaks of, without those that these zones depend on. */
  public static Set<Integer> zones(BoolExpr expression) {
    Set<Integer> zones = new TreeSet<>();
    walk(expression, node -> {
      if (node instanceof BoolExpr.Occupied occupied) {
        zones.add(occupied.zone());
      } else if (node instanceof BoolExpr.Enters enters) {
        zones.add(enters.zone());
      } else if (node instanceof BoolExpr.Leaves leaves) {
        zones.add(leaves.zone());
      } else if (node instanceof BoolExpr.BacksOut backsOut) {
        zones.add(backsOut.zone());
      } else if (node instanceof BoolExpr.Miscounts miscounts) {
        zones.add(miscounts.zone());
      } else if (node instanceof NumExpr.Trains trains) {
        zones.add(trains.zone());
      }
    });
    return zones;
  }

  /** The signals an expression names, without those of its zones. */
  public static Set<Integer> signals(BoolExpr expression) {
    Set<Integer> signals = new TreeSet<>();
    walk(expression, node -> {
      if (node instanceof BoolExpr.Signal signal) {
        signals.add(signal.signal());
      } else if (node instanceof NumExpr.Signal signal) {
        signals.add(signal.signal());
      } else if (node instanceof EnumExpr.Signal signal) {
        signals.add(signal.signal());
      }
    });
    return signals;
  }

  /** Visits an expression and everything in it: {@link BoolExpr}, {@link NumExpr} and {@link EnumExpr} nodes, the outer first. */
  public static void walk(Object node, Consumer<Object> visitor) {
    visitor.accept(node);
    parts(node).forEach(part -> walk(part, visitor));
  }

  /** The expressions directly inside a node. */
  public static List<Object> parts(Object node) {
    if (node instanceof NumExpr number) {
      return numberParts(number);
    }
    if (node instanceof EnumExpr.Previous previous) {
      return List.of(previous.operand());
    }
    return node instanceof BoolExpr condition ? conditionParts(condition) : List.of();
  }

  private static List<Object> conditionParts(BoolExpr node) {
    if (node instanceof BoolExpr.Not not) {
      return List.of(not.operand());
    }
    if (node instanceof BoolExpr.And and) {
      return List.of(and.left(), and.right());
    }
    if (node instanceof BoolExpr.Or or) {
      return List.of(or.left(), or.right());
    }
    if (node instanceof BoolExpr.Same same) {
      return List.of(same.left(), same.right());
    }
    if (node instanceof BoolExpr.Compare compare) {
      return List.of(compare.left(), compare.right());
    }
    if (node instanceof BoolExpr.EnumEquals equal) {
      return List.of(equal.left(), equal.right());
    }
    if (node instanceof BoolExpr.Since since) {
      return List.of(since.operand(), since.anchor());
    }
    return singlePart(node);
  }

  private static List<Object> singlePart(BoolExpr node) {
    if (node instanceof BoolExpr.Rises rises) {
      return List.of(rises.operand());
    }
    if (node instanceof BoolExpr.Falls falls) {
      return List.of(falls.operand());
    }
    if (node instanceof BoolExpr.BoolChanges changes) {
      return List.of(changes.operand());
    }
    if (node instanceof BoolExpr.NumChanges changes) {
      return List.of(changes.operand());
    }
    if (node instanceof BoolExpr.EnumChanges changes) {
      return List.of(changes.operand());
    }
    if (node instanceof BoolExpr.HeldFor held) {
      return List.of(held.operand());
    }
    if (node instanceof BoolExpr.InLast inLast) {
      return List.of(inLast.operand());
    }
    return node instanceof BoolExpr.Previous previous ? List.of(previous.operand()) : List.of();
  }

  private static List<Object> numberParts(NumExpr node) {
    if (node instanceof NumExpr.Negate negate) {
      return List.of(negate.operand());
    }
    if (node instanceof NumExpr.Arithmetic arithmetic) {
      return List.of(arithmetic.left(), arithmetic.right());
    }
    if (node instanceof NumExpr.CountInLast count) {
      return List.of(count.event());
    }
    if (node instanceof NumExpr.CountSince count) {
      return List.of(count.event(), count.anchor());
    }
    if (node instanceof NumExpr.TimeSince since) {
      return List.of(since.event());
    }
    if (node instanceof NumExpr.Extreme extreme) {
      return List.of(extreme.operand());
    }
    if (node instanceof NumExpr.Mean mean) {
      return List.of(mean.operand());
    }
    if (node instanceof NumExpr.Rate rate) {
      return List.of(rate.operand());
    }
    if (node instanceof NumExpr.Previous previous) {
      return List.of(previous.operand());
    }
    return node instanceof NumExpr.PassingSpeed speed ? List.of(speed.from(), speed.to()) : List.of();
  }
}
