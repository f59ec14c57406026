package dev.pawl.report.compare;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.report.compare.EdgeLog.Edge;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.words.ValueText;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * How one output differs between two runs over the same trace.
 *
 * <p>Edges to the same value at the same time are one edge. Of the rest between two such, taken in order, those to the
 * same value and not further apart than {@link #REACH} are one edge that moved; what has no partner vanished or was
 * added.
 *
 * @param trace what the runs were over
 * @param base what its times are counted from
 * @param signal the output's name
 * @param unchanged edges that are the same
 * @param changes the others, in order of time
 */
public record OutputChanges(String trace, TimeBase base, String signal, long unchanged, List<EdgeChange> changes) {

  /** Nanoseconds between an edge and where it moved to, at most. */
  public static final long REACH = 10_000_000_000L;

  public OutputChanges {
    changes = List.copyOf(changes);
  }

  /** The outputs that differ, in the order of the rule book. */
  public static List<OutputChanges> of(String trace, TimeBase base, RuleBook book, EdgeLog before, EdgeLog after) {
    List<OutputChanges> all = new ArrayList<>();
    for (Signal signal : book.signals()) {
      Pairing pairing = new Pairing(signal, before.of(signal.index()), after.of(signal.index()));
      pairing.pair();
      if (!pairing.changes.isEmpty()) {
        pairing.changes.sort(Comparator.comparingLong(EdgeChange::time));
        all.add(new OutputChanges(trace, base, signal.name(), pairing.unchanged, pairing.changes));
      }
    }
    return all;
  }

  /** Whether an edge came or went, or moved by more than so many nanoseconds. */
  public boolean hasMoreThan(long tolerance) {
    return changes.stream().anyMatch(change -> change.kind() != EdgeChange.Kind.MOVED
        || Math.abs(change.shift()) > tolerance);
  }

  /** How many of the changes are of a kind. */
  public long count(EdgeChange.Kind kind) {
    return changes.stream().filter(change -> change.kind() == kind).count();
  }

  /** The search for partners among the edges of one output. */
  private static final class Pairing {

    private final Signal signal;
    private final List<Edge> before;
    private final List<Edge> after;
    private final List<EdgeChange> changes = new ArrayList<>();
    private long unchanged;

    private Pairing(Signal signal, List<Edge> before, List<Edge> after) {
      this.signal = signal;
      this.before = before;
      this.after = after;
    }

    /** Goes from one pair of equal edges to the next, and pairs what lies between. */
    private void pair() {
      int fromBefore = 0;
      int fromAfter = 0;
      int i = 0;
      int j = 0;
      while (i < before.size() && j < after.size()) {
        if (before.get(i).equals(after.get(j))) {
          between(fromBefore, i, fromAfter, j);
          unchanged++;
          fromBefore = ++i;
          fromAfter = ++j;
        } else if (before.get(i).time() < after.get(j).time()) {
          i++;
        } else if (before.get(i).time() > after.get(j).time()) {
          j++;
        } else {
          i++;
          j++;
        }
      }
      between(fromBefore, before.size(), fromAfter, after.size());
    }

    private void between(int fromBefore, int toBefore, int fromAfter, int toAfter) {
      int i = fromBefore;
      int j = fromAfter;
      while (i < toBefore && j < toAfter) {
        Edge old = before.get(i);
        Edge late = after.get(j);
        if (old.value() == late.value() && Math.abs(old.time() - late.time()) <= REACH) {
          changes.add(change(EdgeChange.Kind.MOVED, old, late));
          i++;
          j++;
        } else if (old.time() <= late.time()) {
          changes.add(change(EdgeChange.Kind.VANISHED, old, old));
          i++;
        } else {
          changes.add(change(EdgeChange.Kind.ADDED, late, late));
          j++;
        }
      }
      before.subList(i, toBefore).forEach(old -> changes.add(change(EdgeChange.Kind.VANISHED, old, old)));
      after.subList(j, toAfter).forEach(late -> changes.add(change(EdgeChange.Kind.ADDED, late, late)));
    }

    private EdgeChange change(EdgeChange.Kind kind, Edge old, Edge late) {
      return new EdgeChange(kind, ValueText.of(signal.type(), old.value()), old.time(), late.time());
    }
  }
}
