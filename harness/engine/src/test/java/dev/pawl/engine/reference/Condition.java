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
import java.util.stream.LongStream;

/**
 * A condition as a rule reads it.
 *
 * @param parts what it is made of
 * @param seen its truth at every moment
 * @param wavers whether it may have been otherwise at one, since the order is open in which its parts turned
 * @param happens whether an event in it happens
 * @param apart how far apart changes have to be for their order to be certain, in moments; 0 where it is
 */
record Condition(BoolExpr expression, List<Part> parts, Truth[] seen, boolean[] wavers, boolean[] happens,
    long apart) {

  static Condition of(BoolExpr expression, Function<BoolExpr, Truth[]> truths, Moments moments, long resolution,
      boolean ofTrigger) {
    Truth[] seen = truths.apply(expression);
    boolean[] wavers = new boolean[seen.length];
    boolean[] happens = new boolean[seen.length];
    List<Part> parts = parts(expression, moments).stream().distinct()
        .map(part -> Part.of(part, truths, moments, resolution, ofTrigger)).toList();
    boolean mayWaver = parts.size() > 1 && parts.stream().anyMatch(part -> part.apart > 0);
    for (int m = 0; mayWaver && m < seen.length; m++) {
      wavers[m] = m > 0 && seen[m] == seen[m - 1] && !Moments.isUnknown(seen[m])
          && mayBeOtherwise(expression, parts, seen, m) || isEventOpen(expression, parts, seen, m);
      int now = m;
      happens[m] = parts.stream().anyMatch(part -> part.isEvent() && part.happens(now));
    }
    Set<Integer> signals = RuleParts.signals(List.of(expression), moments.book);
    long apart = signals.size() < 2 ? 0 : 2 * Math.max(resolution, Order.period(moments, signals));
    return new Condition(expression, parts, seen, wavers, happens, apart);
  }

  /** For how few moments it may seem to be otherwise without having been; 0 for none. */
  long brief() {
    return hasEvents(expression) ? 0 : apart;
  }

  /**
   * Whether it may not have been so, or only before an event at {@code m0}, since it ceases so soon after it became so
   * at a later moment.
   *
   * @param after what comes less than this after the event may have come before it
   */
  boolean ceasesSoon(int m0, long from, long after) {
    long before = m0 + after;
    long brief = from + apart;
    return Math.max(before, brief) > seen.length || ceasesIn(from + 1, before - 1)
        || (hasEvents(expression) ? waversIn(from, brief - 1) : ceasesIn(from + 1, brief - 1));
  }

  private boolean ceasesIn(long from, long to) {
    return waversIn(from, to) || LongStream.rangeClosed(from, to)
        .anyMatch(m -> seen[(int) m] == Truth.FALSE || seen[(int) m] == Truth.UNKNOWN);
  }

  /** Its truth where it has to stay so: borderline for some moments after it was true. */
  Truth[] toStay(Truth unknownAs) {
    Truth[] read = read();
    Truth[] staying = read.clone();
    for (int m = 0; m < read.length; m++) {
      staying[m] = read[m] == Truth.FALSE && wasTrue(read, m, brief()) ? Truth.BORDERLINE : read[m];
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

  /** Whether there is anything in a condition that comes or goes with time. */
  static boolean hasDurations(BoolExpr expression) {
    boolean[] found = {false};
    expression.walk(e -> found[0] |= e instanceof BoolExpr.HeldFor || e instanceof BoolExpr.InLast
        || e instanceof BoolExpr.Since || e instanceof NumExpr.CountInLast || e instanceof NumExpr.TimeSince);
    return found[0];
  }

  /** Whether a condition is made of events and of states. */
  static boolean isMixed(BoolExpr e) {
    return hasEvents(e) && !isOfEvents(e);
  }

  private static boolean isOfEvents(BoolExpr e) {
    return e instanceof BoolExpr.Moment || e instanceof BoolExpr.Not not && isOfEvents(not.operand())
        || e instanceof BoolExpr.And and && isOfEvents(and.left()) && isOfEvents(and.right())
        || e instanceof BoolExpr.Or or && isOfEvents(or.left()) && isOfEvents(or.right())
        || e instanceof BoolExpr.Same same && isOfEvents(same.left()) && isOfEvents(same.right());
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

  /** Whether what it is at a moment rests on a part that turned after an earlier one, and not at the moment itself. */
  boolean restsOnTurned(long after, int m) {
    return truth(expression, parts.stream().collect(Collectors.toMap(Part::expression,
        part -> part.turnsOrHappens(m) ? part.table[m] : part.whenOpen(after + 1, m)))) != seen[m];
  }

  /** Whether it may have been otherwise at an event, by what turns now. */
  private static boolean isEventOpen(BoolExpr expression, List<Part> parts, Truth[] seen, int m) {
    return parts.stream().filter(Part::isEvent).anyMatch(event -> {
      int e = event.happenedLast(m);
      boolean asks = e == m || parts.stream().anyMatch(part -> part.turnsAfter(event, e, m, m));
      return e >= 0 && asks && !Moments.isUnknown(seen[e]) && truth(expression, parts.stream().collect(Collectors
          .toMap(Part::expression, part -> part.when(event, e, m)))) != seen[e];
    });
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
          period > 0 || ofTrigger && hasDurations(expression), moments.changes(signals));
    }

    boolean isEvent() {
      return hasEvents(expression);
    }

    /** When it happened last up to a moment; -1 for never. */
    int happenedLast(int m) {
      int e = m;
      while (e >= 0 && !happens(e)) {
        e--;
      }
      return e;
    }

    private boolean happens(int m) {
      return table[m] == Truth.TRUE && (m == 0 || table[m - 1] != Truth.TRUE);
    }

    /** Whether it turns beside an event; one event happens beside another where they are sampled. */
    private boolean turnsBeside(Part event, int m) {
      return isEvent() ? isSampledWith(event) && happens(m) : turns(m);
    }

    private boolean turnsOrHappens(int m) {
      return isEvent() ? happens(m) : turns(m);
    }

    /** Its truth at a moment, borderline where it turned from another one on. */
    private Truth whenOpen(long from, int m) {
      return IntStream.rangeClosed((int) Math.max(from, 0), m).anyMatch(this::turnsOrHappens) ? Truth.BORDERLINE
          : table[m];
    }

    private boolean isSampledWith(Part other) {
      return sampled || other.sampled;
    }

    /** Whether it is what it seems to be at an event, since it rests on the same signals, or turned with it. */
    private boolean isExact(Part event, int e) {
      return event.signals.containsAll(signals) || !isSampledWith(event) && turns(e);
    }

    /** Whether it turns in {@code [from, to]}, so soon after an event that it may have done so before. */
    boolean turnsAfter(Part event, int e, int from, int to) {
      return !isExact(event, e) && IntStream.rangeClosed(Math.max(from, e + 1), (int) Math.min(to, e + apart - 1))
          .anyMatch(m -> turnsBeside(event, m));
    }

    /** What it may have been at an event, as far as a later moment shows. */
    Truth when(Part event, int e, int m) {
      boolean open = this != event && !isExact(event, e) && (turnsBeside(event, e)
          || IntStream.range((int) Math.max(e - event.apart + 1, 0), e).anyMatch(k -> turnsBeside(event, k))
          || turnsAfter(event, e, e + 1, m));
      return open ? Truth.BORDERLINE : table[e];
    }

    boolean turns(int m) {
      return !isEvent() && m > 0 && table[m] != table[m - 1]
          && table[m] != Truth.UNKNOWN && table[m - 1] != Truth.UNKNOWN
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
      read[m] = wavers[m] && !Moments.isUnknown(read[m]) ? Truth.BORDERLINE : read[m];
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
