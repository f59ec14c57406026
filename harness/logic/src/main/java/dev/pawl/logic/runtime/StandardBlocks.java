package dev.pawl.logic.runtime;

/**
 * The standard function blocks. An instance is a stretch of slots in the order of
 * {@link dev.pawl.grammar.logic.model.StandardBlock}: inputs, outputs, hidden memory. What they do on edge cases is
 * common practice, no source; the forms of the bistables and edges are those of IEC 61131-3, from memory.
 */
public final class StandardBlocks {

  private static final int IDLE = 0;
  private static final int RUNNING = 1;
  private static final int DONE = 2;

  private StandardBlocks() {}

  /** S1, R; Q1. Set is dominant. */
  public static void sr(long[] m, int at) {
    m[at + 2] = m[at] | (m[at + 1] ^ 1) & m[at + 2];
  }

  /** S, R1; Q1. Reset is dominant. */
  public static void rs(long[] m, int at) {
    m[at + 2] = (m[at + 1] ^ 1) & (m[at] | m[at + 2]);
  }

  /** CLK; Q; M. */
  public static void risingEdge(long[] m, int at) {
    m[at + 1] = m[at] & (m[at + 2] ^ 1);
    m[at + 2] = m[at];
  }

  /** CLK; Q; what CLK was: 0 never called, 1 FALSE, 2 TRUE. */
  public static void fallingEdge(LogicMemory memory, long[] m, int at) {
    long before = m[at + 2];
    boolean low = m[at] == 0;
    m[at + 1] = low && (before == 2 || before == 0 && memory.firstFallingEdge) ? 1 : 0;
    m[at + 2] = low ? 1 : 2;
  }

  /** CU, R, PV; Q, CV; previous CU. Counts up to {@code greatest}. */
  public static void countUp(long[] m, int at, long greatest, boolean unsigned) {
    if (m[at + 1] != 0) {
      m[at + 4] = 0;
    } else if (m[at] != 0 && m[at + 5] == 0 && m[at + 4] != greatest) {
      m[at + 4]++;
    }
    m[at + 5] = m[at];
    m[at + 3] = atLeast(m[at + 4], m[at + 2], unsigned);
  }

  /** CD, LD, PV; Q, CV; previous CD. Counts down to {@code least}. */
  public static void countDown(long[] m, int at, long least) {
    if (m[at + 1] != 0) {
      m[at + 4] = m[at + 2];
    } else if (m[at] != 0 && m[at + 5] == 0 && m[at + 4] != least) {
      m[at + 4]--;
    }
    m[at + 5] = m[at];
    m[at + 3] = least == 0 ? m[at + 4] == 0 ? 1 : 0 : m[at + 4] <= 0 ? 1 : 0;
  }

  /** CU, CD, R, LD, PV; QU, QD, CV; previous CU and CD. */
  public static void countBoth(long[] m, int at, long least, long greatest, boolean unsigned) {
    boolean up = m[at] != 0 && m[at + 8] == 0;
    boolean down = m[at + 1] != 0 && m[at + 9] == 0;
    if (m[at + 2] != 0) {
      m[at + 7] = 0;
    } else if (m[at + 3] != 0) {
      m[at + 7] = m[at + 4];
    } else if (up && !down && m[at + 7] != greatest) {
      m[at + 7]++;
    } else if (down && !up && m[at + 7] != least) {
      m[at + 7]--;
    }
    m[at + 8] = m[at];
    m[at + 9] = m[at + 1];
    m[at + 5] = atLeast(m[at + 7], m[at + 4], unsigned);
    m[at + 6] = (unsigned ? m[at + 7] == 0 : m[at + 7] <= 0) ? 1 : 0;
  }

  private static long atLeast(long count, long preset, boolean unsigned) {
    return (unsigned ? Long.compareUnsigned(count, preset) >= 0 : count >= preset) ? 1 : 0;
  }

  /** IN, PT; Q, ET; phase, start. On delay. */
  public static void onDelay(LogicMemory memory, long[] m, int at) {
    if (m[at] == 0) {
      m[at + 2] = 0;
      m[at + 3] = 0;
      m[at + 4] = IDLE;
    } else if (m[at + 4] == IDLE) {
      m[at + 4] = RUNNING;
      m[at + 5] = memory.now;
      m[at + 3] = 0;
      if (m[at + 1] <= 0 && memory.zeroTimeAtOnce) {
        m[at + 2] = 1;
        m[at + 4] = DONE;
      }
    } else if (m[at + 4] == RUNNING && elapse(memory, m, at)) {
      m[at + 2] = 1;
      m[at + 4] = DONE;
    }
  }

  /**
   * IN, PT; Q, ET; phase, start. Off delay; phase RUNNING means IN was TRUE, so that the next FALSE starts the time.
   */
  public static void offDelay(LogicMemory memory, long[] m, int at) {
    final int timing = 3;
    if (m[at] != 0) {
      m[at + 2] = 1;
      m[at + 3] = 0;
      m[at + 4] = RUNNING;
    } else if (m[at + 4] == RUNNING || m[at + 4] == IDLE && memory.offDelayStartsOn) {
      m[at + 5] = memory.now;
      m[at + 3] = 0;
      boolean done = m[at + 1] <= 0 && memory.zeroTimeAtOnce;
      m[at + 2] = done ? 0 : 1;
      m[at + 4] = done ? DONE : timing;
    } else if (m[at + 4] == IDLE) {
      m[at + 4] = DONE;
    } else if (m[at + 4] == timing && elapse(memory, m, at)) {
      m[at + 2] = 0;
      m[at + 4] = DONE;
    }
  }

  /**
   * IN, PT; Q, ET; phase, start. Pulse; it cannot be started again while it runs, whether IN is still TRUE then or not.
   */
  public static void pulse(LogicMemory memory, long[] m, int at) {
    final int runningWithoutInput = 3;
    if (m[at + 4] == RUNNING || m[at + 4] == runningWithoutInput) {
      boolean rises = m[at] != 0 && m[at + 4] == runningWithoutInput;
      m[at + 4] = m[at] != 0 ? RUNNING : runningWithoutInput;
      if (elapse(memory, m, at)) {
        if (rises && memory.pulseFollowsPulse) {
          start(memory, m, at);
        } else {
          m[at + 2] = 0;
          m[at + 4] = m[at] != 0 ? DONE : IDLE;
          m[at + 3] = m[at] != 0 ? m[at + 3] : 0;
        }
      }
    } else if (m[at + 4] == DONE) {
      if (m[at] == 0) {
        m[at + 4] = IDLE;
        m[at + 3] = 0;
      }
    } else if (m[at] != 0) {
      start(memory, m, at);
    }
  }

  /** Starts a pulse; one of no length is over at once, where the option has it so. */
  private static void start(LogicMemory memory, long[] m, int at) {
    boolean done = m[at + 1] <= 0 && memory.zeroTimeAtOnce;
    m[at + 4] = done ? DONE : RUNNING;
    m[at + 5] = memory.now;
    m[at + 2] = done ? 0 : 1;
    m[at + 3] = 0;
  }

  /** Updates ET; whether PT has been reached. */
  private static boolean elapse(LogicMemory memory, long[] m, int at) {
    long elapsed = memory.now - m[at + 5];
    long preset = Math.max(0, m[at + 1]);
    m[at + 3] = Math.min(elapsed, preset);
    return elapsed >= preset;
  }
}
