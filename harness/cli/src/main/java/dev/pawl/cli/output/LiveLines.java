package dev.pawl.cli.output;

import dev.pawl.cli.Console;
import dev.pawl.engine.Finding;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.report.words.ValueText;
import dev.pawl.run.SourceJudge;
import dev.pawl.trace.time.TimeScale;
import dev.pawl.trace.time.TimeWriter;
import java.io.PrintStream;
import java.util.ArrayList;
import java.util.List;

/**
 * Findings as lines on the terminal, as they come. What several rules cannot decide at one time, because signals are
 * unknown, is one line.
 */
public final class LiveLines implements FindingListener {

  private static final long CALENDAR_FROM = 1_000_000_000L * 86_400 * 365;

  private final RuleBook book;
  private final PrintStream out;
  private final List<Finding> undecided = new ArrayList<>();

  public LiveLines(RuleBook book, Console console) {
    this.book = book;
    this.out = console.err();
  }

  @Override
  public void finding(Finding finding) {
    boolean unknown = finding.kind() == Finding.Kind.UNKNOWN || finding.kind() == Finding.Kind.UNKNOWN_TRIGGER;
    if (!unknown || !undecided.isEmpty() && (undecided.get(0).time() != finding.time()
        || undecided.get(0).kind() != finding.kind())) {
      flush();
    }
    if (unknown) {
      undecided.add(finding);
    } else {
      line(finding, book.rules().get(finding.rule()).id(), book.rules().get(finding.rule()).title());
    }
  }

  private void line(Finding finding, String subject, String remark) {
    out.println(time(finding.time()) + "  " + (finding.kind().breaks() ? "broken" : "undecided") + "  " + subject + "  "
        + finding.kind().label() + "  " + remark);
  }

  /** Nothing more comes of the last time. */
  public void flush() {
    if (undecided.isEmpty()) {
      return;
    }
    List<String> rules = undecided.stream().map(finding -> book.rules().get(finding.rule()).id()).distinct().toList();
    List<String> signals = undecided.stream().flatMap(finding -> finding.evidence().stream())
        .filter(evidence -> ValueText.isUnknown(evidence.value()))
        .map(evidence -> book.signals().get(evidence.signal()).name()).distinct().toList();
    line(undecided.get(0), SourceJudge.names(rules), rules.size() == 1 ? book.rules().get(undecided.get(0).rule())
        .title() : SourceJudge.names(signals));
    undecided.clear();
  }

  @Override
  public void tracking(TrackingFinding finding) {
    flush();
    out.println(time(finding.time()) + "  tracking  zone " + book.zones().get(finding.zone()).name() + "  "
        + finding.kind().label());
  }

  @Override
  public void lateResponse(int rule, long trigger, long deadline, long time) {
    flush();
    out.println(time(time) + "  late  " + book.rules().get(rule).id() + "  the missing response came");
  }

  private static String time(long nanoseconds) {
    return nanoseconds > CALENDAR_FROM ? TimeWriter.of(nanoseconds, TimeScale.RFC_3339)
        : TimeWriter.of(nanoseconds, TimeScale.SECONDS) + " s";
  }
}
