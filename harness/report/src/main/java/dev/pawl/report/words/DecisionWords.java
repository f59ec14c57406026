package dev.pawl.report.words;

import dev.pawl.report.model.Acceptance;
import dev.pawl.report.model.Decisions;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.Review;
import dev.pawl.report.model.TraceResult;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/** What persons have decided, as sentences. */
public final class DecisionWords {

  private DecisionWords() {}

  /** {@code accepted until 2027-03-31 by J. Smith}; where several accept together, until the first of them ends. */
  public static String accepted(List<Acceptance> acceptances) {
    LocalDate until = acceptances.stream().map(Acceptance::until).min(LocalDate::compareTo).orElseThrow();
    return "accepted until " + until + " by " + String.join(" and ", acceptances.stream().map(Acceptance::by)
        .distinct().toList());
  }

  /** What has become of an acceptance, in one or two words. */
  public static String state(Acceptance.State state) {
    return switch (state) {
      case IN_FORCE -> "accepted";
      case EXPIRED -> "expired";
      case UNMATCHED -> "about nothing";
    };
  }

  /** What an acceptance comes to, or why it is a finding itself; one sentence without a full stop. */
  public static String sentence(Acceptance acceptance, Report report) {
    String remark = remark(acceptance, report);
    boolean inForce = report.decisions().state(acceptance, report.traces()) == Acceptance.State.IN_FORCE;
    return inForce ? accepted(List.of(acceptance)) + (remark.isEmpty() ? "" : ", but " + remark) : remark;
  }

  /** What is to be said of an acceptance beside its state; empty where there is nothing. */
  public static String remark(Acceptance acceptance, Report report) {
    List<TraceResult> traces = report.traces();
    return switch (report.decisions().state(acceptance, traces)) {
      case IN_FORCE -> isPart(acceptance, report) ? "it does not cover all that the rule has its verdict for" : "";
      case EXPIRED -> "its last day was " + acceptance.until() + "; what it accepted counts again";
      case UNMATCHED -> unmatched(acceptance, traces);
    };
  }

  private static boolean isPart(Acceptance acceptance, Report report) {
    Decisions decisions = report.decisions();
    return decisions.matches(acceptance, report.traces())
        .anyMatch(match -> decisions.accepting(match.trace(), match.rule()).isEmpty());
  }

  private static String unmatched(Acceptance acceptance, List<TraceResult> traces) {
    if (traces.stream().flatMap(trace -> trace.rules().stream())
        .noneMatch(rule -> rule.rule().id().equals(acceptance.rule()))) {
      return "no rule of that name was judged";
    }
    boolean known = acceptance.trace().isEmpty() || traces.stream().anyMatch(trace -> trace.path()
        .endsWith(acceptance.trace().get()));
    return !known ? "no trace of that name was judged" : outside(acceptance, traces)
        .orElse("nothing of that rule is broken or undecided there; take the entry away");
  }

  /** The first finding that an acceptance would be about if its times were others. */
  private static Optional<String> outside(Acceptance acceptance, List<TraceResult> traces) {
    return traces.stream().filter(acceptance::isOf).flatMap(trace -> trace.rules().stream()
        .filter(rule -> rule.rule().id().equals(acceptance.rule()))
        .flatMap(rule -> Decisions.behind(rule).stream().map(finding -> "no finding of that rule lies wholly in these"
            + " times; the first there is from " + TimeText.at(trace.timeBase(), finding.begin(rule.rule())) + " to "
            + TimeText.at(trace.timeBase(), finding.time())))).findFirst();
  }

  /** What a person looked at, and what there is to say of it. */
  public static String looked(Review review) {
    return String.join("; ", review.looked()) + (review.note().isEmpty() ? "" : ". " + review.note());
  }

  /** Why a review says nothing of a report. */
  public static String another(Review review, Report report) {
    return "it looked at run " + review.run() + ", and this is run " + report.identity()
        + ": look again, and write a review of this one";
  }
}
