package dev.pawl.logic.blocks;

import dev.pawl.logic.runtime.BlockOptions;
import dev.pawl.logic.runtime.BlockOptions.FirstFallingEdge;
import dev.pawl.logic.runtime.BlockOptions.OffDelayStart;
import dev.pawl.logic.runtime.BlockOptions.PulseEdge;
import dev.pawl.logic.runtime.BlockOptions.ZeroTime;
import org.junit.jupiter.api.Test;

/**
 * TON, TOF and TP, a test for each edge case. Their timing diagrams are those of IEC 61131-3, from memory; where it is
 * silent, common practice, no source. Scans are 10 ms apart; the expected values are worked out by hand.
 */
class TimersTest {

  private static final BlockOptions NEXT_SCAN =
      BlockOptions.DEFAULT.with(ZeroTime.NEXT_SCAN);
  private static final BlockOptions NEXT_PULSE = BlockOptions.DEFAULT.with(PulseEdge.NEXT_PULSE);
  private static final BlockOptions ON_FOR_PT =
      new BlockOptions(ZeroTime.SAME_SCAN, PulseEdge.LOST, FirstFallingEdge.PULSE, OffDelayStart.ON_FOR_PT);

  // ---- row "start"

  @Test
  void onDelayStartsWithQFalseAndNothingElapsed() {
    Timeline.timer("TON", "T#30ms").scans("01", "00", "0 0");
  }

  @Test
  void offDelayStartsWithQTrueWhenInFalls() {
    Timeline.timer("TOF", "T#30ms").scans("10", "11", "0 0");
  }

  @Test
  void pulseStartsWithQTrueWhenInRises() {
    Timeline.timer("TP", "T#30ms").scans("01", "01", "0 0");
  }

  // ---- row "elapsed >= PT (inclusive)"

  @Test
  void onDelayIsDoneOnTheScanAtWhichPtHasElapsed() {
    Timeline.timer("TON", "T#30ms").scans("11111", "00011", "0 10 20 30 30");
  }

  @Test
  void offDelayIsDoneOnTheScanAtWhichPtHasElapsed() {
    Timeline.timer("TOF", "T#30ms").scans("100000", "111100", "0 0 10 20 30 30");
  }

  @Test
  void pulseIsDoneOnTheScanAtWhichPtHasElapsed() {
    Timeline.timer("TP", "T#30ms").scans("11111", "11100", "0 10 20 30 30");
  }

  @Test
  void aPresetBetweenTwoScansIsReachedOnTheSecond() {
    Timeline.timer("TON", "T#25ms").scans("11111", "00011", "0 10 20 25 25");
  }

  // ---- row "input changes before expiry"

  @Test
  void onDelayStartsAfreshWhenInFallsBeforeExpiry() {
    Timeline.timer("TON", "T#30ms").scans("1110111111", "0000000111", "0 10 20 0 0 10 20 30 30 30");
  }

  @Test
  void offDelayStaysOnWhenInRisesBeforeExpiry() {
    Timeline.timer("TOF", "T#30ms").scans("10010000", "11111110", "0 0 10 0 0 10 20 30");
  }

  @Test
  void pulseIgnoresItsInputWhileItRuns() {
    Timeline.timer("TP", "T#40ms").scans("101010", "111100", "0 10 20 30 40 0");
  }

  // ---- row "changes on the expiry scan"

  @Test
  void onDelayNeverFiresWhenInFallsOnTheExpiryScan() {
    Timeline.timer("TON", "T#30ms").scans("1110", "0000", "0 10 20 0");
  }

  @Test
  void offDelayHasNoGapWhenInRisesOnTheExpiryScan() {
    Timeline.timer("TOF", "T#30ms").scans("10001", "11111", "0 0 10 20 0");
  }

  @Test
  void pulseForgetsItsTimeAtOnceWhenInIsLowOnTheExpiryScan() {
    Timeline.timer("TP", "T#30ms").scans("1110", "1110", "0 10 20 0");
  }

  @Test
  void pulseLosesAnEdgeOnTheExpiryScan() {
    Timeline.timer("TP", "T#30ms").scans("1001101", "1110001", "0 10 20 30 30 0 0");
  }

  /** Only an edge on that very call: IN that has been TRUE since before gives no second pulse. */
  @Test
  void pulseTakesAnEdgeOnTheExpiryScanByOption() {
    Timeline.timer("TP", "T#30ms", NEXT_PULSE).scans("1001100", "1111110", "0 10 20 0 10 20 0");
    Timeline.timer("TP", "T#30ms", NEXT_PULSE).scans("1011101", "1110001", "0 10 20 30 30 0 0");
    Timeline.timer("TP", "T#30ms", NEXT_PULSE).scans("1111101", "1110001", "0 10 20 30 30 0 0");
  }

  // ---- row "after expiry"

  @Test
  void onDelayHoldsUntilInFalls() {
    Timeline.timer("TON", "T#10ms").scans("1111101", "0111100", "0 10 10 10 10 0 0");
  }

  @Test
  void offDelayHoldsItsTimeUntilInRises() {
    Timeline.timer("TOF", "T#10ms").scans("1000001", "1100001", "0 0 10 10 10 10 0");
  }

  @Test
  void pulseHoldsItsTimeUntilInFalls() {
    Timeline.timer("TP", "T#10ms").scans("1111011", "1000010", "0 10 10 10 0 0 10");
  }

  // ---- row "PT=0": implementations differ, so it is an option and both are tested

  @Test
  void onDelayOfZeroFiresOnTheSameScan() {
    Timeline.timer("TON", "T#0s").scans("0110", "0110", "0 0 0 0");
  }

  @Test
  void onDelayOfZeroFiresOnTheNextScan() {
    Timeline.timer("TON", "T#0s", NEXT_SCAN).scans("0110", "0010", "0 0 0 0");
  }

  @Test
  void offDelayOfZeroEndsOnTheSameScan() {
    Timeline.timer("TOF", "T#0s").scans("1100", "1100", "0 0 0 0");
  }

  @Test
  void offDelayOfZeroEndsOnTheNextScan() {
    Timeline.timer("TOF", "T#0s", NEXT_SCAN).scans("1100", "1110", "0 0 0 0");
  }

  @Test
  void pulseOfZeroIsNone() {
    Timeline.timer("TP", "T#0s").scans("0110", "0000", "0 0 0 0");
  }

  @Test
  void pulseOfZeroLastsOneScanWhereTimersAreDoneOnTheNext() {
    Timeline.timer("TP", "T#0s", NEXT_SCAN).scans("0110", "0100", "0 0 0 0");
  }

  // ---- row "first call"

  @Test
  void onDelayTakesAnInputThatIsTrueOnTheFirstCallForAnEdge() {
    Timeline.timer("TON", "T#20ms").scans("111", "001", "0 10 20");
  }

  @Test
  void offDelayIsOffOnAFirstCallWithInFalse() {
    Timeline.timer("TOF", "T#20ms").scans("000", "000", "0 0 0");
  }

  @Test
  void offDelayIsOnForItsTimeOnAFirstCallWithInFalseByOption() {
    Timeline.timer("TOF", "T#20ms", ON_FOR_PT).scans("0000", "1100", "0 10 20 20");
  }

  @Test
  void pulseTakesAnInputThatIsTrueOnTheFirstCallForAnEdge() {
    Timeline.timer("TP", "T#20ms").scans("111", "110", "0 10 20");
  }

  // ---- beyond the table: the preset changes while the time runs; common practice, no source

  @Test
  void aShortenedPresetTakesEffectOnTheNextScan() {
    Timeline.timer("TON", "T#50ms").scans("111", "000", "0 10 20").preset(20_000_000).scans("1", "1", "20");
  }

  @Test
  void aNegativePresetCountsAsZero() {
    Timeline.timer("TON", "T#-5ms").scans("01", "01", "0 0");
    Timeline.timer("TON", "T#-5ms", NEXT_SCAN).scans("011", "001", "0 0 0");
  }
}
