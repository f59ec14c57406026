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
 * @param clocks what is known of the senders' clocks
 * @param recordingFailure why the recording ended early
 */
public record LiveResult(long messages, long events, long end, List<EvidenceLog.Item> evidence, List<ClockState> clocks,
    Optional<String> recordingFailure) {

  public LiveResult {
    evidence = List.copyOf(evidence);
    clocks = List.copyOf(clocks);
  }

  /**
   * A sender's clock against this machine's.
   *
   * @param signals whose times it states
   * @param offset nanoseconds by which this machine's clock is ahead, the shortest delay included
   * @param spread nanoseconds between the greatest and the smallest difference seen
   * @param samples how many stated times it rests on
   * @param corrections how often it was found to be off its estimate
   */
  public record ClockState(List<Integer> signals, long offset, long spread, long samples, long corrections) {
    public ClockState {
      signals = List.copyOf(signals);
    }
  }
}
