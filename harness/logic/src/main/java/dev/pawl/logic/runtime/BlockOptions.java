package dev.pawl.logic.runtime;

/**
 * How function blocks behave where controllers differ (common practice, no source).
 *
 * @param zeroTime when a timer with PT = 0 is done
 * @param pulseEdge what TP does with an edge on the call at which its pulse ends
 * @param fallingEdge what F_TRIG gives on its first call with CLK = FALSE
 * @param offDelayStart what TOF gives on its first call with IN = FALSE
 */
public record BlockOptions(ZeroTime zeroTime, PulseEdge pulseEdge, FirstFallingEdge fallingEdge,
    OffDelayStart offDelayStart) {

  public static final BlockOptions DEFAULT =
      new BlockOptions(ZeroTime.SAME_SCAN, PulseEdge.LOST, FirstFallingEdge.PULSE, OffDelayStart.OFF);

  public BlockOptions with(ZeroTime way) {
    return new BlockOptions(way, pulseEdge, fallingEdge, offDelayStart);
  }

  public BlockOptions with(PulseEdge way) {
    return new BlockOptions(zeroTime, way, fallingEdge, offDelayStart);
  }

  public BlockOptions with(FirstFallingEdge way) {
    return new BlockOptions(zeroTime, pulseEdge, way, offDelayStart);
  }

  public BlockOptions with(OffDelayStart way) {
    return new BlockOptions(zeroTime, pulseEdge, fallingEdge, way);
  }

  /** When TON, TOF and TP with PT = 0 are done. */
  public enum ZeroTime {
    /** At once: TON is on with its input, TOF off with it, and TP gives no pulse. */
    SAME_SCAN,
    /** One scan later: so long TON is still off and TOF still on, and TP gives a pulse. */
    NEXT_SCAN
  }

  /** An edge of IN on the very call at which the pulse of a TP ends. */
  public enum PulseEdge {
    /** The pulse still counts as running, and ignores it. */
    LOST,
    /** The next pulse begins at once; Q stays TRUE. */
    NEXT_PULSE
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
