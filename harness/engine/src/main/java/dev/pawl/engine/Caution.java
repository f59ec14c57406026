package dev.pawl.engine;

import java.util.List;
import java.util.stream.Stream;

/**
 * What whoever reads a verdict, or is about to act, has to bear in mind. Said here once, and shown wherever a hand is
 * about to move.
 */
public enum Caution {
  JUDGEMENT("Pawl supports the judgement of a qualified person and does not replace it."),
  EVIDENCE("A rule that held, held in these traces only; it proves nothing about hardware, wiring or times that were "
      + "not recorded."),
  PRACTICE("Local codes, the manufacturer's instructions and licensed practice come first."),
  PROTECTION("Not a protective device; release, evacuate and reset by the ride's own procedures."),
  INJECTION("Never inject signals where a real ride can hear them.");

  /** For whoever reads a verdict. */
  public static final List<Caution> OF_VERDICTS = List.of(JUDGEMENT, EVIDENCE, PRACTICE);

  /** For whoever listens to a ride in motion. */
  public static final List<Caution> OF_LISTENING = with(OF_VERDICTS, PROTECTION);

  /** For whoever publishes signals. */
  public static final List<Caution> OF_PUBLISHING = with(OF_LISTENING, INJECTION);

  private final String text;

  Caution(String text) {
    this.text = text;
  }

  private static List<Caution> with(List<Caution> others, Caution more) {
    return Stream.concat(others.stream(), Stream.of(more)).toList();
  }

  /** The caution, a whole sentence. */
  public String text() {
    return text;
  }
}
