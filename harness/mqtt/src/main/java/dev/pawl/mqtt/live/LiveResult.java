package dev.pawl.mqtt.live;

import dev.pawl.mqtt.evidence.EvidenceLog;
import java.util.List;
import java.util.Optional;

/**
 * What listening came to.
 *
 * @param messages messages taken
 * @param events events in the merged stream
 * @param end nanoseconds, where the stream ends
 * @param evidence what makes the evidence doubtful
 * @param clock what is known of the senders' clock
 * @param fullest most messages that ever waited
 * @param recordingFailure why the recording ended early
 */
public record LiveResult(long messages, long events, long end, List<EvidenceLog.Item> evidence, Optional<ClockState> clock, int fullest,
    Optional<String> recordingFailure) {

  public LiveResult {
    evidence = List.copyOf(evidence);
  }

  /**
   * The senders' clock against this machine's.
   *
   * @param offset nanoseconds by which this machine's clock is ahead, the shortest delay included
   * @param spread nanoseconds between the greatest and the smallest difference seen
   * @param samples how many stated times it rests on
   * @param jumps how often it jumped
   */
  public record ClockState(long offset, long spread, long samples, long jumps) {}
}
