package dev.pawl.bench.mqtt;

/** Someone who hears the load's messages by their numbers. */
interface Taker extends AutoCloseable {

  /** What hears of each message as it has been dealt with. */
  interface Heard {
    void number(int number, long time);
  }

  @Override
  void close() throws Exception;
}
