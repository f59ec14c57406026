package dev.pawl.engine.zone;

import dev.pawl.engine.graph.Begun;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.SignalState;

/** One end of a zone: turns what its flags do into trains that come in and go out there. */
public abstract sealed class ZoneEnd permits EdgeEnd, PairEnd {

  /** What the end saw at one moment. */
  enum Step {
    NOTHING,
    /** A train came in. */
    IN,
    /** A train went out. */
    OUT,
    /** The flags changed as no train can make them. */
    IMPOSSIBLE,
    /** A flag is unknown. */
    LOST
  }

  /** What the signals behind the flags were when this end last counted. */
  final EventCapture lastCounted;

  /** Whether the signals behind the flags have all been seen. */
  final Begun begun;

  ZoneEnd(Begun begun, SignalState[] signals) {
    this.begun = begun;
    this.lastCounted = new EventCapture(signals);
  }

  /**
   * An entry at which a single event counts one train.
   *
   * @param begun whether the event has begun
   * @param signals the signals behind the event
   */
  public static ZoneEnd entry(Event event, Begun begun, SignalState[] signals) {
    return new EdgeEnd(event, begun, Step.IN, signals);
  }

  /** An exit of the same kind. */
  public static ZoneEnd exit(Event event, Begun begun, SignalState[] signals) {
    return new EdgeEnd(event, begun, Step.OUT, signals);
  }

  /**
   * An end with two flags, at which trains may come in and go out.
   *
   * @param begun whether both flags have begun
   * @param signals the signals behind the flags
   */
  public static ZoneEnd pair(BoolNode outer, BoolNode inner, Begun begun, SignalState[] signals) {
    return new PairEnd(outer, inner, begun, signals);
  }

  /** States what the zone depends on at this end. */
  abstract void connect(ZoneNode zone);

  /** Follows the flags at the moment being evaluated. */
  abstract Step follow(long moment);

  /**
   * Whether at the moment last followed a train possibly was counted by a single event: it possibly happened, or had
   * not been seen yet.
   */
  abstract boolean mayCount();

  /** Whether what a train did at the moment last followed may not show. */
  abstract boolean isHidden();

  /** Whether the flags have all been seen by then. */
  final boolean hasBegun(long moment) {
    return begun.at() <= moment;
  }

  /** Whether trains come in and go out here. */
  final boolean isBothWays() {
    return this instanceof PairEnd;
  }
}
