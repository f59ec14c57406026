package dev.pawl.engine.judge;

import dev.pawl.engine.Evidence;
import dev.pawl.engine.Evidence.Moment;
import dev.pawl.engine.Finding;
import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.SignalState;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;

/**
 * Gathers the evidence of one rule's findings and tells the listener. The events behind a trigger are written down when
 * the obligation arises, three longs a signal, since they are gone when it ends; a finding object is made only for the
 * findings that are told.
 */
public final class CaseFile {

  private static final int FIELDS = 3;

  private final int rule;
  private final EvidenceSignals trigger;
  private final EvidenceSignals demand;
  private final FindingListener listener;
  private final int toTell;
  private final long[] found = new long[Kind.values().length];

  /**
   * A case file.
   *
   * @param toTell how many findings of each kind to tell; the rest are only counted by the tally
   */
  public CaseFile(int rule, EvidenceSignals trigger, EvidenceSignals demand, FindingListener listener, int toTell) {
    this.rule = rule;
    this.trigger = trigger;
    this.demand = demand;
    this.listener = listener;
    this.toTell = toTell;
  }

  /** Width of a record that holds {@code own} fields and, after them, the events behind a trigger. */
  int recordWidth(int own) {
    return own + FIELDS * trigger.signals().length;
  }

  /** Writes down the events behind the trigger, from field {@code own} of a record on. */
  void writeTrigger(LongQueue queue, int place, int own) {
    int field = own;
    for (SignalState signal : trigger.signals()) {
      queue.set(place, field++, signal.value);
      queue.set(place, field++, signal.changedAt);
      queue.set(place, field++, signal.changedLine);
    }
  }

  /** Copies what {@link #writeTrigger} wrote to a record of another queue. */
  void copyTrigger(LongQueue from, int fromPlace, int fromOwn, LongQueue to, int toPlace, int toOwn) {
    for (int i = 0; i < FIELDS * trigger.signals().length; i++) {
      to.set(toPlace, toOwn + i, from.get(fromPlace, fromOwn + i));
    }
  }

  /**
   * Tells of a stretch in which the trigger may have happened, with what stood behind it at first; {@code first} is a
   * moment.
   */
  void tellPossible(LongQueue queue, int place, int own, long first) {
    if (found[Kind.UNKNOWN_TRIGGER.ordinal()]++ < toTell) {
      long time = Moments.nanoseconds(first);
      listener.finding(new Finding(rule, Kind.UNKNOWN_TRIGGER, time, time, Moments.isJustAfter(first), time,
          List.copyOf(written(queue, place, own, first))));
    }
  }

  /** Tells of an obligation whose trigger was written to a queue; times are moments. */
  boolean tell(Kind kind, LongQueue queue, int place, int own, long triggered, long time, long deadline) {
    if (found[kind.ordinal()]++ >= toTell) {
      return false;
    }
    tell(kind, triggered, time, deadline, written(queue, place, own, triggered));
    return true;
  }

  /** The events that {@link #writeTrigger} wrote. */
  private LinkedHashSet<Evidence> written(LongQueue queue, int place, int own, long triggered) {
    LinkedHashSet<Evidence> evidence = new LinkedHashSet<>();
    int field = own;
    for (SignalState signal : trigger.signals()) {
      evidence.add(event(Moment.TRIGGER, triggered, signal.index, queue.get(place, field), queue.get(place, field + 1),
          queue.get(place, field + 2)));
      field += FIELDS;
    }
    return evidence;
  }

  /** Tells of an obligation that is decided at its trigger; times are moments. */
  void tellAtTrigger(Kind kind, long triggered, long time) {
    if (found[kind.ordinal()]++ < toTell) {
      LinkedHashSet<Evidence> evidence = new LinkedHashSet<>();
      present(Moment.TRIGGER, trigger, time, evidence);
      tell(kind, triggered, time, time, evidence);
    }
  }

  /** Tells of an always rule; times are moments. */
  void tellState(Kind kind, long triggered, long time) {
    if (found[kind.ordinal()]++ < toTell) {
      tell(kind, triggered, time, time, new LinkedHashSet<>());
    }
  }

  void lateResponse(long triggered, long deadline, long time) {
    listener.lateResponse(rule, Moments.nanoseconds(triggered), Moments.nanoseconds(deadline),
        Moments.nanoseconds(time));
  }

  private void tell(Kind kind, long triggered, long time, long deadline, LinkedHashSet<Evidence> evidence) {
    present(Moment.BREAK, demand, time, evidence);
    // What was near the time may be decided later, by when other things have happened, which have no part in it.
    evidence.removeIf(event -> event.moment() == Moment.BREAK
        && event.time() > Moments.nanoseconds(Math.max(time, deadline)));
    listener.finding(new Finding(rule, kind, Moments.nanoseconds(triggered), Moments.nanoseconds(time),
        Moments.isJustAfter(time), Moments.nanoseconds(deadline), List.copyOf(evidence)));
  }

  private void present(Moment moment, EvidenceSignals support, long time, LinkedHashSet<Evidence> evidence) {
    for (SignalState signal : support.signals()) {
      evidence.add(event(moment, time, signal.index, signal.value, signal.changedAt, signal.changedLine));
    }
    List<Evidence> counted = new ArrayList<>();
    for (var zone : support.zones()) {
      zone.evidence(moment, counted);
    }
    evidence.addAll(counted);
  }

  /** One event; a signal that never had a value is shown as unknown at the time it was asked for. */
  private Evidence event(Moment moment, long asked, int signal, long value, long changedAt, long line) {
    boolean wasLogged = changedAt != Moments.NEVER;
    return new Evidence(moment, wasLogged ? changedAt : Moments.nanoseconds(asked), signal, value, line, wasLogged);
  }
}
