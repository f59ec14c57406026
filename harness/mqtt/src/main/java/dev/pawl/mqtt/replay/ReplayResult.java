package dev.pawl.mqtt.replay;

import dev.pawl.mqtt.evidence.EvidenceLog;
import java.util.List;
import java.util.Optional;

/**
 * What a replay came to.
 *
 * @param pace how well it kept its pace
 * @param messages messages taken from the broker
 * @param events events in the merged stream
 * @param end nanoseconds, where the stream ends
 * @param replaced output events of the trace that the bench's own took the place of
 * @param unsaid inputs whose value cannot be said on their topic, unknown ones among them
 * @param repeated messages sent again after a lost connection
 * @param evidence what makes the evidence doubtful
 * @param stopped why it ended before the trace did
 * @param recordingFailure why the recording ended early
 */
public record ReplayResult(PaceQuality pace, long messages, long events, long end, long replaced, long unsaid,
    long repeated,
    List<EvidenceLog.Item> evidence, Optional<String> stopped, Optional<String> recordingFailure) {

  public ReplayResult {
    evidence = List.copyOf(evidence);
  }
}
