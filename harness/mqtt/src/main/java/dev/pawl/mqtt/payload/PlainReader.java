package dev.pawl.mqtt.payload;

import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.trace.intake.ValueReader;

/** A reader of payloads that are one value as text. */
final class PlainReader implements TopicReader {

  private static final int LONGEST = 4096;

  private final int signal;
  private final ValueReader values;

  PlainReader(int signal, ValueReader values) {
    this.signal = signal;
    this.values = values;
  }

  @Override
  public void read(byte[] payload, ReadingTaker taker) {
    String text = payload.length > LONGEST ? null : Excerpts.utf8(payload);
    if (text == null) {
      taker.anomaly(Anomaly.MALFORMED, signal,
          payload.length > LONGEST ? "a payload of " + payload.length + " bytes is no value"
              : "a payload is not UTF-8");
      return;
    }
    long value = values.read(text.strip());
    if (value == ValueReader.INVALID) {
      taker.anomaly(Anomaly.MALFORMED, signal, Excerpts.of(text) + " is not " + values.expectation());
    } else {
      taker.reading(signal, value, ReadingTaker.NO_TIME);
    }
  }
}
