package dev.pawl.engine.reference;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.grammar.rules.model.Truth;

/**
 * How one obligation ended.
 *
 * @param ending which count it belongs to
 * @param kind the finding it gives, null for one that is met or cancelled
 * @param decided moment of the decision
 * @param place moment that the finding names
 * @param deadline moment of the deadline, {@code place} where the form has none
 * @param doubted whether unknown values left it undecided
 */
record Ruling(Ending ending, Kind kind, long decided, long place, long deadline, boolean doubted) {

  enum Ending {
    MET,
    ALREADY_SO,
    MISSED,
    OPEN,
    BORDERLINE,
    UNKNOWN,
    CANCELLED
  }

  static Ruling met(long decided, long deadline) {
    return new Ruling(Ending.MET, null, decided, decided, deadline, false);
  }

  static Ruling alreadySo(long decided) {
    return new Ruling(Ending.ALREADY_SO, null, decided, decided, decided, false);
  }

  static Ruling missed(Kind kind, long decided, long place, long deadline) {
    return new Ruling(Ending.MISSED, kind, decided, place, deadline, false);
  }

  static Ruling near(long decided, long place, long deadline) {
    return new Ruling(Ending.BORDERLINE, Kind.BORDERLINE, decided, place, deadline, false);
  }

  static Ruling open(long end, long deadline) {
    return new Ruling(Ending.OPEN, Kind.OPEN, end, end, deadline, false);
  }

  /** Undecided through unknown values, of which {@code doubt} is the worst. */
  static Ruling doubtful(Truth doubt, long decided, long deadline) {
    return new Ruling(ending(doubt), kind(doubt), decided, decided, deadline, true);
  }

  /** The same, but undecided through an unknown {@code unless}. */
  Ruling doubtedBy(Truth doubt) {
    return new Ruling(ending(doubt), kind(doubt), decided, place, deadline, true);
  }

  private static Ending ending(Truth doubt) {
    return doubt == Truth.UNKNOWN ? Ending.UNKNOWN : Ending.BORDERLINE;
  }

  private static Kind kind(Truth doubt) {
    return doubt == Truth.UNKNOWN ? Kind.UNKNOWN : Kind.BORDERLINE;
  }

  static Ruling cancelled(long decided) {
    return new Ruling(Ending.CANCELLED, null, decided, decided, decided, false);
  }
}
