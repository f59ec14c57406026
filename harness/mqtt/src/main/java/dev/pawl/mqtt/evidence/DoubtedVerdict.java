package dev.pawl.mqtt.evidence;

import dev.pawl.engine.RuleOutcome;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import java.util.List;
import java.util.Set;

/** The verdict on a rule, no better than what a live feed's times allow. What was told as broken stays so. */
public final class DoubtedVerdict {

  private DoubtedVerdict() {}

  /** Undecided instead of better where times of the rule's signals were wrong. */
  public static Verdict of(RuleOutcome outcome, RuleBook book, List<EvidenceLog.Item> evidence) {
    Verdict verdict = outcome.verdict();
    if (verdict == Verdict.BROKEN || evidence.stream().noneMatch(item -> item.anomaly().misplacesTimes())) {
      return verdict;
    }
    Set<Integer> signals = RuleParts.signals(book.rules().get(outcome.rule()), book);
    boolean doubted = evidence.stream().anyMatch(item -> item.anomaly().misplacesTimes()
        && item.signals().stream().anyMatch(signals::contains));
    return doubted ? Verdict.UNDECIDED : verdict;
  }
}
