package dev.pawl.mqtt.payload;

/** A reader of the payloads of one topic. */
public interface TopicReader {

  /** Reads one payload into readings; never throws for its content. */
  void read(byte[] payload, ReadingTaker taker);
}
