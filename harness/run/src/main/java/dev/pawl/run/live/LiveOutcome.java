package dev.pawl.run.live;

import dev.pawl.report.exercise.Exercise;
import java.util.List;
import java.util.Optional;

/**
 * What a live session came to.
 *
 * @param messages messages taken
 * @param events events of signals in them
 * @param remarks what has not been heard and what makes the evidence doubtful, in words
 * @param recordingFailure why the recording ended early
 * @param verdicts one for each rule; none where the feed was not judged or the recording of it failed
 * @param exercises how far each rule was put to the test; none where there are no verdicts
 */
public record LiveOutcome(long messages, long events, List<String> remarks, Optional<String> recordingFailure,
    List<LiveVerdict> verdicts, List<Exercise> exercises) {

  /** Whether a rule is broken. */
  public boolean isBroken() {
    return verdicts.stream().anyMatch(LiveVerdict::broken);
  }
}
