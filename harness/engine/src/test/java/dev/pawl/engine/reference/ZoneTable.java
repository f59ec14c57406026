package dev.pawl.engine.reference;


import dev.pawl.engine.TrackingFinding.Kind;
import dev.pawl.engine.ZoneOutcome;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Truth;
import dev.pawl.grammar.rules.model.Zone;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntPredicate;
import java.util.stream.Stream;

/** The occupancy of one zone at every moment. */
final class ZoneTable {
  final Truth[] enters;
  final Truth[] leaves;
  final Truth[] backsOut;
  final Truth[] miscounts;
  final int[] least;
  final int[] most;
  final List<Found> findings = new ArrayList<>();
  private final Moments moments;
  private final Zone zone;
  private final End entry;
  private final End exit;
  private final int begins;
  private final ZoneOutcome.Start start;
  private int entered;
  private int left;
  private int low;
  private int high;
  private boolean mayMiscount;

  /** A finding; {@code since} is the moment from which on the count may have been wrong, -1 for from the start on. */
  record Found(Kind kind, int moment, int since) {}

  /** What one end of a zone shows at every moment; hidden where it may not show what a train did. */
  private record End(boolean[] in, boolean[] out, boolean[] maybe, boolean[] impossible, boolean[] blind,
      boolean[] hidden) {
    End(int count) {
      this(new boolean[count], new boolean[count], new boolean[count], new boolean[count], new boolean[count],
          new boolean[count]);
    }
  }

  ZoneTable(Moments moments, Zone zone) {
    this.moments = moments;
    this.zone = zone;
    this.enters = new Truth[moments.count];
    this.leaves = new Truth[moments.count];
    this.backsOut = new Truth[moments.count];
    this.miscounts = new Truth[moments.count];
    this.least = new int[moments.count];
    this.most = new int[moments.count];
    this.entry = end(zone.entry(), true);
    this.exit = end(zone.exit(), false);
    this.high = zone.holds();
    this.begins = moments.begins(zone.conditions());
    this.start = zone.startsWith().isEmpty() ? ZoneOutcome.Start.NOT_STATED
        : startCounts() ? ZoneOutcome.Start.AS_STATED : ZoneOutcome.Start.DOUBTFUL;
    for (int m = 0; m < moments.count; m++) {
      follow(m);
    }
  }

  private boolean startCounts() {
    return begins < moments.count && begins <= 2 * moments.sampling.firstValuesWithin()
        && Stream.of(zone.entry(), zone.exit()).flatMap(end -> end.flags().stream()).allMatch(this::isAsAtFirst);
  }

  private boolean isAsAtFirst(BoolExpr flag) {
    Truth[] table = moments.truths.of(flag);
    Truth first = table[0];
    for (int m = 0; m <= begins; m++) {
      boolean sameKnown = !Moments.isUnknown(first) && table[m] == first;
      boolean unseen = table[m] == Truth.UNKNOWN && moments.isUnseen(flag, m);
      boolean cameFalse = first == Truth.UNKNOWN && moments.isUnseen(flag, 0) && (table[m] == Truth.FALSE || unseen);
      if (!sameKnown && !cameFalse) {
        return false;
      }
    }
    return true;
  }

  private End end(Zone.Boundary boundary, boolean isEntry) {
    if (boundary instanceof Zone.Edge edge) {
      return edge(moments.truths.happenings(edge.event()), moments.begins(edge.conditions()), isEntry);
    }
    Zone.Pair pair = (Zone.Pair) boundary;
    return pair(moments.truths.of(pair.outer()), moments.truths.of(pair.inner()), moments.begins(pair.conditions()));
  }

  private static End edge(Truth[] event, int begins, boolean isEntry) {
    End end = new End(event.length);
    for (int m = 0; m < event.length; m++) {
      (isEntry ? end.in : end.out)[m] = event[m] == Truth.TRUE;
      end.hidden[m] = Moments.isUnknown(event[m]);
      end.maybe[m] = end.hidden[m] || m <= begins;
    }
    return end;
  }

  private static End pair(Truth[] outer, Truth[] inner, int begins) {
    End end = new End(outer.length);
    for (int m = 0; m < outer.length; m++) {
      end.blind[m] = Moments.isUnknown(outer[m]) || Moments.isUnknown(inner[m]);
      end.hidden[m] = begins < m && (end.blind[m] || end.blind[m - 1]);
      if (m > 0 && !end.blind[m] && !end.blind[m - 1]) {
        boolean freeBefore = outer[m - 1] == Truth.FALSE && inner[m - 1] == Truth.FALSE;
        boolean freeNow = outer[m] == Truth.FALSE && inner[m] == Truth.FALSE;
        boolean outerOnlyBefore = outer[m - 1] == Truth.TRUE && inner[m - 1] == Truth.FALSE;
        boolean outerOnlyNow = outer[m] == Truth.TRUE && inner[m] == Truth.FALSE;
        end.in[m] = freeBefore && outerOnlyNow;
        end.out[m] = outerOnlyBefore && freeNow;
        end.impossible[m] = outer[m] != outer[m - 1] && inner[m] != inner[m - 1];
      }
    }
    return end;
  }

  private void follow(int m) {
    int found = findings.size();
    mayMiscount = entry.hidden[m] || exit.hidden[m];
    int ins = (entry.in[m] ? 1 : 0) + (exit.in[m] ? 1 : 0);
    int outs = (entry.out[m] ? 1 : 0) + (exit.out[m] ? 1 : 0);
    entered += ins;
    left += outs;
    int limit = Math.max(high, zone.holds());
    high = entry.maybe[m] ? limit + 1 : high;
    low = exit.maybe[m] ? -1 : low;
    for (int k = outs; k < ins; k++) {
      countIn(m);
    }
    for (int k = ins; k < outs; k++) {
      countOut(m);
    }
    boolean overfilled = findings.size() > found && findings.get(found).kind() == Kind.OVERFILLED;
    low = Math.max(low, 0);
    high = Math.min(high, overfilled ? zone.holds() + 1 : limit);
    for (End end : List.of(entry, exit)) {
      if (end.impossible[m]) {
        findings.add(new Found(Kind.IMPOSSIBLE_ORDER, m, m));
      }
      if (end.impossible[m] || end.blind[m]) {
        low = 0;
        high = zone.holds();
      }
    }
    if (m == begins && start == ZoneOutcome.Start.AS_STATED) {
      low = zone.startsWith().getAsInt();
      high = low;
    }
    boolean pairIn = zone.entry() instanceof Zone.Pair;
    boolean pairOut = zone.exit() instanceof Zone.Pair;
    enters[m] = seen(ins > 0, entry.hidden[m] || pairOut && exit.hidden[m]);
    leaves[m] = seen(exit.out[m], exit.hidden[m]);
    backsOut[m] = seen(entry.out[m], pairIn && entry.hidden[m]);
    miscounts[m] = seen(findings.size() > found, mayMiscount);
    least[m] = low;
    most[m] = high;
  }

  private static Truth seen(boolean counted, boolean hidden) {
    return counted ? Truth.TRUE : hidden ? Truth.UNKNOWN : Truth.FALSE;
  }

  private void countIn(int m) {
    if (low >= zone.holds()) {
      findings.add(new Found(Kind.OVERFILLED, m, lastEnd(m, k -> most[k] == 0, 1)));
      low = zone.holds();
      high = zone.holds() + 1;
    } else {
      mayMiscount |= high >= zone.holds();
      low = low + 1;
      high = Math.min(high + 1, zone.holds());
    }
  }

  private void countOut(int m) {
    if (high == 0) {
      findings.add(new Found(Kind.LEFT_EMPTY, m, lastEnd(m, k -> least[k] >= zone.holds(), 2)));
      low = 0;
      high = zone.holds() - 1;
    } else {
      mayMiscount |= low <= 0;
      low = Math.max(low - 1, 0);
      high = high - 1;
    }
  }

  /**
   * Up to when, that moment left out, the count was so for the last time but {@code times - 1} that ended before m; -1
   * for never.
   */
  private static int lastEnd(int m, IntPredicate so, int times) {
    int left = times;
    for (int k = m - 1; k > 0; k--) {
      if (so.test(k - 1) && !so.test(k) && --left == 0) {
        return k;
      }
    }
    return -1;
  }

  /** From which moment on what was met may still be taken back. */
  int confirmedUntil() {
    int end = moments.count;
    return Math.min(lastEnd(end, k -> most[k] == 0, 1), lastEnd(end, k -> least[k] >= zone.holds(), 2));
  }

  /** Looked back at, it is unknown where the count was found wrong, since it was wrong before. */
  Truth[] occupied(boolean lookedBackAt) {
    Truth[] table = new Truth[moments.count];
    for (int m = 0; m < table.length; m++) {
      boolean found = lookedBackAt && miscounts[m] == Truth.TRUE;
      table[m] = found ? Truth.UNKNOWN : least[m] > 0 ? Truth.TRUE : most[m] == 0 ? Truth.FALSE : Truth.UNKNOWN;
    }
    return table;
  }

  /** The number of trains at every moment; NaN while it is not proven. */
  double[] trains(boolean lookedBackAt) {
    double[] table = new double[moments.count];
    for (int m = 0; m < table.length; m++) {
      table[m] = lookedBackAt && miscounts[m] == Truth.TRUE ? Double.NaN : least[m] == most[m] ? least[m] : Double.NaN;
    }
    return table;
  }

  ZoneOutcome outcome() {
    return new ZoneOutcome(zone.index(), entered, left, findings.size(), low, high, start);
  }
}
