package dev.pawl.mqtt.client;

/** Something that came into a queue: a message, news of a connection, or a value of the harness's own. */
public sealed interface Inbound {

  /** No number. */
  long NO_NUMBER = Long.MIN_VALUE;

  /**
   * Nanoseconds on the harness clock at which it was put into its queue; of a lost connection, its last sign of life.
   */
  long arrival();

  /** Gives it to whoever takes each kind in its own way. */
  void giveTo(Taker taker);

  /** Takes each kind in its own way. */
  interface Taker {

    void take(Message message);

    void take(Connected connected);

    void take(Resumed resumed);

    void take(Lost lost);

    void take(Overflow overflow);

    void take(Own own);
  }

  /**
   * A message.
   *
   * @param payload its bytes; not to be changed
   * @param retained whether the broker had kept it from earlier, so that its age is unknown
   * @param stamp what a harness or its bench side wrote on it
   * @param expirySeconds after which the broker forgets it; {@link #NO_NUMBER} if it never does
   */
  record Message(String topic, byte[] payload, boolean retained, Stamp stamp, long expirySeconds, long arrival)
      implements Inbound {
    @Override
    public void giveTo(Taker taker) {
      taker.take(this);
    }
  }

  /** News of a connection. */
  sealed interface News extends Inbound {

    /** What is known about it, without secrets. */
    String detail();
  }

  /** The connection is up and all is subscribed; first messages may have come already. */
  record Connected(String detail, long arrival) implements News {
    @Override
    public void giveTo(Taker taker) {
      taker.take(this);
    }
  }

  /** A connection that was lost is up again, and the broker had kept all messages of quality 1 that came meanwhile. */
  record Resumed(String detail, long arrival) implements News {
    @Override
    public void giveTo(Taker taker) {
      taker.take(this);
    }
  }

  /**
   * The connection is gone; nothing is known from here on until it is up again.
   *
   * @param silence nanoseconds since its last sign of life
   */
  record Lost(String detail, long silence, long arrival) implements News {
    @Override
    public void giveTo(Taker taker) {
      taker.take(this);
    }
  }

  /** Messages came faster than they were taken, and some were dropped here. */
  record Overflow(String detail, long arrival) implements Inbound {
    @Override
    public void giveTo(Taker taker) {
      taker.take(this);
    }
  }

  /**
   * A value that the harness itself has sent.
   *
   * @param value engine value
   * @param time nanoseconds, the trace time that it stands for
   */
  record Own(int signal, long value, long time, long arrival) implements Inbound {
    @Override
    public void giveTo(Taker taker) {
      taker.take(this);
    }
  }
}
