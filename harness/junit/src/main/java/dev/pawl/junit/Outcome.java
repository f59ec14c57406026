package dev.pawl.junit;

import dev.pawl.report.model.Acceptance;
import dev.pawl.report.model.EvidenceResult;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.words.DecisionWords;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.TimeText;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.extension.BeforeEachCallback;
import org.junit.jupiter.api.extension.Extension;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.jupiter.api.extension.TestTemplateInvocationContext;
import org.opentest4j.AssertionFailedError;
import org.opentest4j.TestAbortedException;

/**
 * How one test ends.
 *
 * @param name what it is called
 * @param failure why it fails; empty if it does not
 * @param skipped why it is skipped; empty if it is not
 */
record Outcome(String name, Optional<String> failure, Optional<String> skipped)
    implements TestTemplateInvocationContext {

  static Outcome failed(String name, String why) {
    return new Outcome(name, Optional.of(why), Optional.empty());
  }

  static Outcome of(Report report, TraceResult trace, RuleResult rule, RuleTest asked) {
    String name = rule.rule().id() + " " + rule.rule().title() + " (" + trace.path() + ")";
    List<Acceptance> accepting = report.decisions().accepting(trace, rule);
    String accepted = accepting.isEmpty() ? "" : DecisionWords.accepted(accepting) + ": ";
    return switch (rule.verdict()) {
      case HELD -> new Outcome(name, Optional.empty(), Optional.empty());
      case BROKEN -> asked.acceptedPass() && !accepting.isEmpty() ? skipped(name, accepted + evidence(trace, rule))
          : failed(name, accepted + evidence(trace, rule));
      case UNDECIDED -> unproven(name, accepted + "undecided: " + FindingWords.undecidedReason(rule),
          asked.requireProof() && !(asked.acceptedPass() && !accepting.isEmpty()));
      case NOT_EXERCISED -> unproven(name, "not exercised: " + reason(rule), asked.requireProof());
    };
  }

  private static Outcome skipped(String name, String why) {
    return new Outcome(name, Optional.empty(), Optional.of(why));
  }

  private static Outcome unproven(String name, String why, boolean fails) {
    return fails ? failed(name, why) : skipped(name, why);
  }

  private static String reason(RuleResult rule) {
    String reason = FindingWords.notExercisedReason(rule);
    return reason.isEmpty() ? "no obligation arose in this trace, so it shows nothing about the rule" : reason;
  }

  /** What happened first, how often in all, and the lines that show it. */
  private static String evidence(TraceResult trace, RuleResult rule) {
    if (rule.broken().isEmpty()) {
      return FindingWords.obligations(rule.obligations());
    }
    FindingResult first = rule.broken().get(0);
    StringBuilder lines = new StringBuilder(FindingWords.sentence(rule.rule(), first, trace.timeBase()));
    lines.append("\n  ").append(rule.rule().text()).append("  (").append(rule.rule().position().file()).append(':')
        .append(rule.rule().position().line()).append(")\n  ").append(FindingWords.obligations(rule.obligations()));
    for (EvidenceResult event : first.evidence()) {
      lines.append("\n  ").append(event.place()).append(": ").append(event.signal()).append(event.wasLogged()
          ? " became " + event.value() + " at " + TimeText.at(trace.timeBase(), event.time())
          : " was never logged by then");
    }
    return lines.toString();
  }

  @Override
  public String getDisplayName(int invocation) {
    return name;
  }

  @Override
  public List<Extension> getAdditionalExtensions() {
    return List.of((BeforeEachCallback) this::end);
  }

  private void end(ExtensionContext context) {
    failure.ifPresent(why -> {
      throw new AssertionFailedError(why);
    });
    skipped.ifPresent(why -> {
      throw new TestAbortedException(why);
    });
  }
}
