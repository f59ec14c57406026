package dev.pawl.cli.output;

import dev.pawl.cli.Console;
import dev.pawl.engine.Finding;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.trace.time.TimeScale;
import dev.pawl.trace.time.TimeWriter;
import java.io.PrintStream;

/** Findings as lines on the terminal, as they come. */
public final class LiveLines implements FindingListener {

  private static final long CALENDAR_FROM = 1_000_000_000L * 86_400 * 365;

  private final RuleBook book;
  private final PrintStream out;

  public LiveLines(RuleBook book, Console console) {
    this.book = book;
    this.out = console.err();
  }

  @Override
  public void finding(Finding finding) {
    Rule rule = book.rules().get(finding.rule());
    String verdict = finding.kind().breaks() ? "broken" : "undecided";
    out.println(time(finding.time()) + "  " + verdict + "  " + rule.id() + "  " + finding.kind().label() + "  "
        + rule.title());
  }

  @Override
  public void tracking(TrackingFinding finding) {
    out.println(time(finding.time()) + "  tracking  zone " + book.zones().get(finding.zone()).name() + "  "
        + finding.kind().label());
  }

  @Override
  public void lateResponse(int rule, long trigger, long deadline, long time) {
    out.println(time(time) + "  late  " + book.rules().get(rule).id() + "  the missing response came");
  }

  private static String time(long nanoseconds) {
    return nanoseconds > CALENDAR_FROM ? TimeWriter.of(nanoseconds, TimeScale.RFC_3339)
        : TimeWriter.of(nanoseconds, TimeScale.SECONDS) + " s";
  }
}
