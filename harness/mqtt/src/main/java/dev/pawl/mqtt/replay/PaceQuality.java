package dev.pawl.mqtt.replay;

/**
 * How well a replay kept its pace: by how much inputs went out after they were due, in nanoseconds.
 *
 * @param inputs inputs sent
 * @param median median lateness
 * @param high lateness that 99 of 100 did not exceed
 * @param worst greatest lateness
 * @param worstDelay longest time from sending to the broker's acknowledgement
 * @param longestStall longest time for which this machine kept the replay waiting although it was its turn
 * @param clocks what times that answers state by their senders' clocks can be off
 * @param untimed answers that stated no time in a replay step by step
 * @param longestStep longest trace time between two steps
 * @param factor trace seconds in one second; 0 step by step
 */
public record PaceQuality(long inputs, long median, long high, long worst, long worstDelay, long longestStall,
    long clocks, long untimed,
    long longestStep, double factor) {

  /**
   * Nanoseconds of trace time by which the recorded times of inputs and answers can be off each other: the greatest
   * lateness, and the longest way to the broker, once for an input and once for the answer, the longest stall of this
   * machine, which may have held up the thread that times answers, and what senders' clocks are uncertain by. A
   * step-by-step replay has its own time, and no such error; but an answer that states no time may be early by as much
   * as its step is long.
   */
  public long uncertainty() {
    if (factor == 0) {
      return untimed > 0 ? longestStep : 0;
    }
    return (long) Math.ceil((worst + 2 * worstDelay + longestStall + clocks) * factor);
  }
}
