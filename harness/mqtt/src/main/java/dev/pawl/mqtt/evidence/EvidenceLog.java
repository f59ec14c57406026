package dev.pawl.mqtt.evidence;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/** Counts of anomalies, with the first of each kind in words and the signals that they touched. Not thread-safe. */
public final class EvidenceLog {

  private final long[] counts = new long[Anomaly.values().length];
  private final long[] firstTimes = new long[counts.length];
  private final String[] firstDetails = new String[counts.length];
  private final BitSet[] signals = new BitSet[counts.length];
  private final int signalCount;

  /** An empty log for a rule book of so many signals. */
  public EvidenceLog(int signalCount) {
    this.signalCount = signalCount;
    for (int i = 0; i < counts.length; i++) {
      signals[i] = new BitSet(signalCount);
    }
  }

  /**
   * Notes one.
   *
   * @param time nanoseconds, where it happened in the stream
   * @param signal index of the signal it touched; -1 where it is not known
   * @param detail what happened, for the first of its kind
   */
  public void note(Anomaly anomaly, long time, int signal, String detail) {
    note(anomaly, 1, time, signal, detail);
  }

  /** Notes several at once. */
  public void note(Anomaly anomaly, long count, long time, int signal, String detail) {
    int kind = anomaly.ordinal();
    if (counts[kind] == 0) {
      firstTimes[kind] = time;
      firstDetails[kind] = detail;
    }
    counts[kind] += count;
    if (signal >= 0) {
      signals[kind].set(signal);
    }
  }

  /** Notes one that touched all signals. */
  public void noteForAll(Anomaly anomaly, long time, String detail) {
    note(anomaly, time, -1, detail);
    signals[anomaly.ordinal()].set(0, signalCount);
  }

  /** Notes one that touched several signals. */
  public void note(Anomaly anomaly, long time, List<Integer> touched, String detail) {
    note(anomaly, time, -1, detail);
    touched.forEach(signals[anomaly.ordinal()]::set);
  }

  public long count(Anomaly anomaly) {
    return counts[anomaly.ordinal()];
  }

  /** Notes several that touched all signals. */
  public void noteForAll(Anomaly anomaly, long count, long time, String detail) {
    note(anomaly, count, time, -1, detail);
    signals[anomaly.ordinal()].set(0, signalCount);
  }

  /** One kind of anomaly that happened. */
  public record Item(Anomaly anomaly, long count, long firstTime, String firstDetail, List<Integer> signals) {
    public Item {
      signals = List.copyOf(signals);
    }
  }

  /** All kinds that happened. */
  public List<Item> items() {
    List<Item> items = new ArrayList<>();
    for (Anomaly anomaly : Anomaly.values()) {
      int kind = anomaly.ordinal();
      if (counts[kind] > 0) {
        items.add(new Item(anomaly, counts[kind], firstTimes[kind], firstDetails[kind],
            signals[kind].stream().boxed().toList()));
      }
    }
    return items;
  }
}
