package dev.pawl.mqtt.page;

import dev.pawl.engine.Evidence;
import dev.pawl.engine.Finding;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.ValueText;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;

/**
 * The last findings in words, the newest first. What cannot be decided because a signal is unknown is said once for the
 * signal, with the rules that rest on it.
 */
final class LastFindings implements FindingListener {

  private static final int MOST = 30;

  /**
   * One of them.
   *
   * @param time nanoseconds
   * @param subject the rule, zone or signal
   * @param title what the subject is, where it says more than its name
   * @param values those that decided it, or the rules that cannot be decided
   * @param verdict what it makes of its rule; empty where it is of no rule
   */
  record Entry(long time, String subject, String title, String what, String values, Optional<Verdict> verdict) {}

  private final RuleBook book;
  private final ArrayDeque<Entry> last = new ArrayDeque<>();

  LastFindings(RuleBook book) {
    this.book = book;
  }

  @Override
  public void finding(Finding finding) {
    Rule rule = book.rules().get(finding.rule());
    List<String> unknown = new ArrayList<>();
    if (finding.kind() == Finding.Kind.UNKNOWN || finding.kind() == Finding.Kind.UNKNOWN_TRIGGER) {
      finding.evidence().stream().filter(evidence -> ValueText.isUnknown(evidence.value()))
          .forEach(evidence -> unknown.add(book.signals().get(evidence.signal()).name()));
    }
    unknown.forEach(signal -> unknown(signal, rule.id(), finding.time()));
    if (unknown.isEmpty()) {
      add(new Entry(finding.time(), rule.id(), rule.title(), FindingWords.kind(finding.kind()),
          values(finding.evidence()), Optional.of(finding.kind().breaks()
          ? Verdict.BROKEN : Verdict.UNDECIDED)));
    }
  }

  private void unknown(String signal, String rule, long time) {
    Optional<Entry> earlier = last.stream().filter(entry -> entry.subject().equals(signal)).findFirst();
    TreeSet<String> rules = new TreeSet<>(List.of(rule));
    earlier.ifPresent(entry -> {
      rules.addAll(List.of(entry.values().split(", ")));
      last.remove(entry);
    });
    add(new Entry(time, signal, "", "unknown when rules needed it", String.join(", ", rules),
        Optional.of(Verdict.UNDECIDED)));
  }

  @Override
  public void tracking(TrackingFinding finding) {
    add(new Entry(finding.time(), "zone " + book.zones().get(finding.zone()).name(), "the count cannot be right",
        FindingWords.tracking(finding.kind()), values(finding.evidence()), Optional.empty()));
  }

  @Override
  public void lateResponse(int rule, long trigger, long deadline, long time) {
    Rule late = book.rules().get(rule);
    add(new Entry(time, late.id(), late.title(), "the missing response came", "",
        Optional.of(Verdict.BROKEN)));
  }

  private void add(Entry entry) {
    last.addFirst(entry);
    if (last.size() > MOST) {
      last.removeLast();
    }
  }

  private String values(List<Evidence> evidence) {
    return String.join(", ", evidence.stream().map(each -> book.signals().get(each.signal()).name() + " = "
        + ValueText.of(book.signals().get(each.signal()).type(), each.value())).distinct().toList());
  }

  /** All of them. */
  List<Entry> list() {
    return List.copyOf(last);
  }
}
