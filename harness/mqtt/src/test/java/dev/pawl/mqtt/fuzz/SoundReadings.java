package dev.pawl.mqtt.fuzz;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.payload.ReadingTaker;
import dev.pawl.mqtt.support.Ride;

/**
 * Takes what a reader makes of a payload, and fails where that is no value of its signal, or words that a terminal or a
 * report could not bear.
 */
final class SoundReadings implements ReadingTaker {

  private static final int LONGEST_WORDS = 400;
  private static final long NUMBER = Ride.signal("lift_speed");

  private final StringBuilder digest = new StringBuilder();
  private int count;

  @Override
  public void reading(int signal, long value, long stated) {
    Signal of = Ride.BOOK.signals().get(signal);
    if (value != EventSink.UNKNOWN) {
      require(signal == NUMBER ? Double.isFinite(Double.longBitsToDouble(value)) : value == 0 || value == 1, of.name()
          + " got the value " + value);
    }
    count++;
    digest.append(signal).append('=').append(value).append('@').append(stated).append(' ');
  }

  @Override
  public void traced(int signal, long value, long time) {
    reading(signal, value, time);
  }

  @Override
  public void anomaly(Anomaly anomaly, int signal, String what) {
    require(!what.isBlank() && what.length() <= LONGEST_WORDS, "words of " + what.length() + " characters: " + what);
    require(what.codePoints().noneMatch(c -> Character.isISOControl(c) || Character.getType(c) == Character.FORMAT
        && c != 0x200C && c != 0x200D), "words that control a terminal or show nothing");
    count++;
    digest.append(anomaly).append(signal).append(what).append(' ');
  }

  /** Readings and anomalies together. */
  int count() {
    return count;
  }

  String digest() {
    return digest.toString();
  }

  void require(boolean holds, String fault) {
    if (!holds) {
      throw new AssertionError(fault);
    }
  }
}
