package dev.pawl.logic.runtime;

/**
 * How function blocks behave where controllers differ (common practice, no source).
 *
 * @param zeroTime when a timer with PT = 0 is done
 * @param fallingEdge what F_TRIG gives on its first call with CLK = FALSE
 * @param offDelayStart what TOF gives on its first call with IN = FALSE
 */
public record BlockOptions(ZeroTime zeroTime, FirstFallingEdge fallingEdge, OffDelayStart offDelayStart) {

  public static final BlockOptions DEFAULT = new BlockOptions(ZeroTime.SAME_SCAN, FirstFallingEdge.PULSE, OffDelayStart.OFF);

  /** When TON and TOF with PT = 0 are done. TP gives a pulse of one scan either way. */
  public enum ZeroTime {
    SAME_SCAN,
    NEXT_SCAN
  }

  /** The first call of F_TRIG with CLK = FALSE. */
  public enum FirstFallingEdge {
    /** Q is TRUE, as the form in the standard gives it: Q := NOT CLK AND NOT M; M := NOT CLK. */
    PULSE,
    /** Q stays FALSE: nothing has fallen yet. */
    NO_PULSE
  }

  /** The first call of TOF with IN = FALSE. */
  public enum OffDelayStart {
    /** Q is FALSE: nothing has been on. */
    OFF,
    /** Q is TRUE for PT, as if IN had just fallen. */
    ON_FOR_PT
  }
}
