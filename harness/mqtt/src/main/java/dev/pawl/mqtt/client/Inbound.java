package dev.pawl.mqtt.client;

import java.util.function.LongSupplier;

/**
 * Something that came from a connection: a message, or the news that the connection is up or gone.
 */
public final class Inbound {

  /** What came. */
  public enum Kind {
    MESSAGE,
    /** The connection is up and all is subscribed; first messages may have come already. */
    CONNECTED,
    /** The connection is gone; nothing is known from here on until it is up again. */
    LOST,
    /** A connection that was lost is up again, and the broker had kept all messages of quality 1 that came meanwhile. */
    RESUMED,
    /** A value that the harness itself has sent: see {@link #own}. */
    OWN,
    /** Messages that need no acknowledgement came faster than they were taken, and some were dropped here. */
    OVERFLOW
  }

  /** No number. */
  public static final long NO_NUMBER = Long.MIN_VALUE;

  /** Stands for nothing to acknowledge. */
  static final Runnable NOTHING = () -> {};

  private final Kind kind;
  private long arrival;
  private final String topic;
  private final byte[] payload;
  private final boolean retained;
  private final boolean repeated;
  private final Stamp stamp;
  private final Runnable acknowledgement;
  private long expirySeconds = NO_NUMBER;
  private boolean withheld;
  private int signal = -1;
  private LongSupplier measure = () -> 0;
  private long silence;
  private long value;

  private Inbound(Kind kind, String topic, byte[] payload, boolean retained, boolean repeated, Stamp stamp,
      Runnable acknowledgement) {
    this.kind = kind;
    this.topic = topic;
    this.payload = payload;
    this.retained = retained;
    this.repeated = repeated;
    this.stamp = stamp;
    this.acknowledgement = acknowledgement;
  }

  /** A message that needs no acknowledgement. */
  public static Inbound message(String topic, byte[] payload, boolean retained, boolean repeated, Stamp stamp) {
    return message(topic, payload, retained, repeated, stamp, NOTHING);
  }

  static Inbound message(String topic, byte[] payload, boolean retained, boolean repeated, Stamp stamp,
      Runnable acknowledgement) {
    return new Inbound(Kind.MESSAGE, topic, payload, retained, repeated, stamp, acknowledgement);
  }

  /**
   * A value that the harness has sent.
   *
   * @param time nanoseconds, the trace time that it stands for; {@link #NO_NUMBER} for the time at which it is put into the queue
   */
  public static Inbound own(int signal, long value, long time) {
    Inbound own = new Inbound(Kind.OWN, "", new byte[0], false, false, new Stamp("", NO_NUMBER, time), NOTHING);
    own.signal = signal;
    own.value = value;
    return own;
  }

  /**
   * News of the connection.
   *
   * @param detail what is known about it, without secrets
   */
  public static Inbound news(Kind kind, String detail) {
    return new Inbound(kind, detail, new byte[0], false, false, Stamp.NONE, NOTHING);
  }

  /**
   * The news that the connection is gone.
   *
   * @param silence nanoseconds since its last sign of life
   */
  static Inbound lost(String detail, LongSupplier silence) {
    Inbound lost = news(Kind.LOST, detail);
    lost.measure = silence;
    return lost;
  }

  public Kind kind() {
    return kind;
  }

  /** Nanoseconds on the harness clock at which it was put into its queue; of a lost connection, its last sign of life. */
  public long arrival() {
    return arrival;
  }

  void arrivedAt(long time) {
    arrival = time;
  }

  /** When this happened: a lost connection with its last sign of life, all else now. */
  long happened(long now) {
    silence = measure.getAsLong();
    return now - silence;
  }

  public String topic() {
    return topic;
  }

  /** What is known about the news. */
  public String detail() {
    return topic;
  }

  /** The message's bytes; not to be changed. */
  public byte[] payload() {
    return payload;
  }

  /** Whether the broker had kept the message from earlier, so that its age is unknown. */
  public boolean retained() {
    return retained;
  }

  /** Whether the sender marked it as perhaps sent before (DUP). */
  public boolean repeated() {
    return repeated;
  }

  /** Seconds after which the broker forgets the message; {@link #NO_NUMBER} if it never does. */
  public long expirySeconds() {
    return expirySeconds;
  }

  Inbound expiringIn(Long seconds) {
    expirySeconds = seconds == null ? NO_NUMBER : seconds;
    return this;
  }

  public Stamp stamp() {
    return stamp;
  }

  /** Nanoseconds since anything came by a connection that is gone now. */
  public long silence() {
    return silence;
  }

  /** The signal of an own value. */
  public int signal() {
    return signal;
  }

  /** The engine value of an own value. */
  public long value() {
    return value;
  }

  boolean needsAcknowledgement() {
    return acknowledgement != NOTHING;
  }

  boolean isWithheld() {
    return withheld;
  }

  void withhold(boolean on) {
    withheld = on;
  }

  /** Tells the broker that the message has a place here. */
  void acknowledge() {
    acknowledgement.run();
  }
}
