package dev.pawl.report.words;

import dev.pawl.report.model.Report;
import java.util.List;
import java.util.stream.Stream;

/**
 * A decision of a person that is a finding itself: an acceptance that is expired or about nothing, or a review of
 * another report.
 *
 * @param subject what it is about, such as {@code accept FL-07 in monday.csv}
 * @param state what has become of it, in two or three words
 * @param words why it is a finding; one sentence without a full stop
 * @param reason what the person wrote
 * @param file where it is written
 * @param line 1-based line of it
 */
public record LapsedDecision(String subject, String state, String words, String reason, String file, int line) {

  /** All of a report. */
  public static List<LapsedDecision> of(Report report) {
    return Stream.concat(report.decisions().stale(report.traces()).stream().map(it -> new LapsedDecision("accept "
        + it.subject(), DecisionWords.state(report.decisions().state(it, report.traces())),
        DecisionWords.sentence(it, report), it.reason(), it.file(), it.line())),
        report.reviewsOfOthers().stream().map(it -> new LapsedDecision("review by " + it.by(), "of another report",
            DecisionWords.another(it, report), DecisionWords.looked(it), it.file(), it.line()))).toList();
  }
}
