package dev.pawl.engine.reference;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.grammar.rules.model.Truth;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * A condition as a rule reads it.
 *
 * @param seen its truth at every moment
 * @param wavers whether it may have been otherwise at one, since the order is open in which its parts turned
 * @param brief for how few moments it may seem to be otherwise without having been; 0 for none
 */
record Condition(Truth[] seen, boolean[] wavers, long brief) {

  static Condition of(BoolExpr expression, Function<BoolExpr, Truth[]> truths, Moments moments, long resolution,
      boolean ofTrigger) {
    Truth[] seen = truths.apply(expression);
    boolean[] wavers = new boolean[seen.length];
    if (!haveEvents(List.of(expression))) {
      List<Part> parts = parts(expression, moments).stream().distinct()
          .map(part -> Part.of(part, truths, moments, resolution, ofTrigger)).toList();
      boolean mayWaver = parts.size() > 1 && parts.stream().anyMatch(part -> part.apart > 0);
      for (int m = 1; mayWaver && m < seen.length; m++) {
        wavers[m] = seen[m] == seen[m - 1] && !Moments.isUnknown(seen[m]) && mayBeOtherwise(expression, parts, seen, m);
      }
    }
    Set<Integer> signals = RuleParts.signals(List.of(expression), moments.book);
    long brief = signals.size() < 2 || haveEvents(List.of(expression)) ? 0
        : 2 * Math.max(resolution, Order.period(moments, signals));
    return new Condition(seen, wavers, brief);
  }

  /** Its truth where it has to stay so: borderline for some moments after it was true. */
  Truth[] toStay(Truth unknownAs) {
    Truth[] read = read();
    Truth[] staying = read.clone();
    for (int m = 0; m < read.length; m++) {
      staying[m] = read[m] == Truth.FALSE && wasTrue(read, m, brief) ? Truth.BORDERLINE : read[m];
      staying[m] = unknownAs != null && Moments.isUnknown(staying[m]) ? unknownAs : staying[m];
    }
    return staying;
  }

  /** Its truth where its becoming true is a trigger: borderline where it becomes so again too soon. */
  Truth[] toRise(long brief) {
    Truth[] read = read();
    Truth[] rising = read.clone();
    for (int m = 1; m < read.length; m++) {
      boolean rises = read[m] == Truth.TRUE && read[m - 1] == Truth.FALSE;
      rising[m] = rises && mayHaveBeenTrue(read, m, brief) ? Truth.BORDERLINE : read[m];
    }
    return rising;
  }

  private static boolean wasTrue(Truth[] read, int m, long brief) {
    return IntStream.range((int) Math.max(m - brief + 1, 0), m).anyMatch(k -> read[k] == Truth.TRUE);
  }

  private static boolean mayHaveBeenTrue(Truth[] read, int m, long brief) {
    return IntStream.range((int) Math.max(m - brief + 1, 0), m).anyMatch(k -> read[k] != Truth.FALSE);
  }

  /** Whether some conditions speak of what is so at single moments. */
  static boolean haveEvents(Collection<? extends BoolExpr> conditions) {
    return conditions.stream().anyMatch(Condition::hasEvents);
  }

  private static boolean hasEvents(BoolExpr e) {
    return e instanceof BoolExpr.Moment || e instanceof BoolExpr.Not not && hasEvents(not.operand())
        || e instanceof BoolExpr.And and && (hasEvents(and.left()) || hasEvents(and.right()))
        || e instanceof BoolExpr.Or or && (hasEvents(or.left()) || hasEvents(or.right()))
        || e instanceof BoolExpr.Same same && (hasEvents(same.left()) || hasEvents(same.right()));
  }

  private static boolean mayBeOtherwise(BoolExpr expression, List<Part> parts, Truth[] seen, int m) {
    for (Part latest : parts) {
      if (latest.turns(m)) {
        Map<BoolExpr, Truth> then = parts.stream().collect(Collectors.toMap(Part::expression,
            part -> part.when(latest, m)));
        if (truth(expression, then) != seen[m]) {
          return true;
        }
      }
    }
    return false;
  }

  private static Truth truth(BoolExpr expression, Map<BoolExpr, Truth> parts) {
    Truth known = parts.get(expression);
    if (known != null) {
      return known;
    } else if (expression instanceof BoolExpr.Not not) {
      return TruthTables.not(truth(not.operand(), parts));
    } else if (expression instanceof BoolExpr.And and) {
      return TruthTables.and(truth(and.left(), parts), truth(and.right(), parts));
    } else if (expression instanceof BoolExpr.Or or) {
      return TruthTables.or(truth(or.left(), parts), truth(or.right(), parts));
    }
    BoolExpr.Same same = (BoolExpr.Same) expression;
    return TruthTables.same(truth(same.left(), parts), truth(same.right(), parts));
  }

  private static List<BoolExpr> parts(BoolExpr expression, Moments moments) {
    List<BoolExpr> parts = new ArrayList<>();
    if (RuleParts.signals(List.of(expression), moments.book).size() < 2) {
      parts.add(expression);
    } else if (expression instanceof BoolExpr.Not not) {
      parts.addAll(parts(not.operand(), moments));
    } else if (expression instanceof BoolExpr.And and) {
      parts.addAll(parts(and.left(), moments));
      parts.addAll(parts(and.right(), moments));
    } else if (expression instanceof BoolExpr.Or or) {
      parts.addAll(parts(or.left(), moments));
      parts.addAll(parts(or.right(), moments));
    } else if (expression instanceof BoolExpr.Same same) {
      parts.addAll(parts(same.left(), moments));
      parts.addAll(parts(same.right(), moments));
    } else {
      parts.add(expression);
    }
    return parts;
  }

  /** What a condition is made of; {@code apart}: how far a change before this one's has to be, in moments. */
  private record Part(BoolExpr expression, Truth[] table, Set<Integer> signals, long apart, boolean sampled,
      Set<Integer> changes) {

    static Part of(BoolExpr expression, Function<BoolExpr, Truth[]> truths, Moments moments, long resolution,
        boolean ofTrigger) {
      Set<Integer> signals = RuleParts.signals(List.of(expression), moments.book);
      long period = Order.period(moments, signals);
      return new Part(expression, truths.apply(expression), signals, 2 * Math.max(resolution, period),
          period > 0 || ofTrigger && looksBack(expression), moments.changes(signals));
    }

    private static boolean looksBack(BoolExpr expression) {
      boolean[] found = {false};
      expression.walk(e -> found[0] |= e instanceof BoolExpr.HeldFor || e instanceof BoolExpr.InLast
          || e instanceof BoolExpr.Since || e instanceof NumExpr.CountInLast || e instanceof NumExpr.TimeSince);
      return found[0];
    }

    boolean turns(int m) {
      return m > 0 && table[m] != table[m - 1] && table[m] != Truth.UNKNOWN && table[m - 1] != Truth.UNKNOWN
          && (table[m] != Truth.BORDERLINE && table[m - 1] != Truth.BORDERLINE || changes.contains(m));
    }

    /** What it may have been when another one turned. */
    Truth when(Part other, int m) {
      boolean same = this == other || signals.size() == 1 && signals.equals(other.signals);
      boolean open = !same && (turns(m) ? sampled || other.sampled
          : turned((int) Math.max(m - other.apart + 1, 1), m - 1));
      return open ? Truth.BORDERLINE : table[m];
    }

    private boolean turned(int from, int to) {
      return IntStream.rangeClosed(from, to).anyMatch(this::turns);
    }
  }

  /** Its truth as the rule reads it. */
  Truth[] read() {
    return read(null);
  }

  /** The same with every unknown and borderline taken as something else, null for left as it is. */
  Truth[] read(Truth unknownAs) {
    Truth[] read = seen.clone();
    for (int m = 0; m < read.length; m++) {
      read[m] = wavers[m] ? Truth.BORDERLINE : read[m];
      read[m] = unknownAs != null && Moments.isUnknown(read[m]) ? unknownAs : read[m];
    }
    return read;
  }

  /** Whether it wavers at a moment of {@code [from, to]}. */
  boolean waversIn(long from, long to) {
    for (long m = Math.max(from, 0); m <= Math.min(to, wavers.length - 1L); m++) {
      if (wavers[(int) m]) {
        return true;
      }
    }
    return false;
  }
}
