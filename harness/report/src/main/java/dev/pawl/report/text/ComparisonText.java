package dev.pawl.report.text;

import dev.pawl.engine.Obligations;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.source.Legible;
import dev.pawl.report.compare.ReportComparison;
import dev.pawl.report.compare.ReportDigest.MarginDigest;
import dev.pawl.report.compare.ReportDigest.RuleDigest;
import dev.pawl.report.compare.RuleChange;
import dev.pawl.report.compare.StatedChange;
import dev.pawl.report.words.Cautions;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.ValueText;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * A comparison of two reports as text: first what rules ask otherwise, since a margin that grew may come from that;
 * then newly broken rules, and those that are not exercised any more.
 */
public final class ComparisonText {

  private ComparisonText() {}

  public static String of(ReportComparison comparison, Style style) {
    Page page = new Page(style);
    List<RuleChange> changes = comparison.changes();
    comparison.differences().forEach(difference -> page.labelled("careful",
        difference + "; what changed may come from that"));
    if (!comparison.differences().isEmpty()) {
      page.blank();
    }
    comparison.stated().stream().collect(Collectors.groupingBy(StatedChange::rule, LinkedHashMap::new,
        Collectors.toList())).values().stream().sorted(Comparator.comparing(ComparisonText::way))
        .forEach(stated -> stated(stated, page, style));
    page.blank();
    comparison.dropped().forEach(dropped -> page.labelled("dropped", dropped));
    changes.stream().sorted(Comparator.comparing(RuleChange::way))
        .forEach(change -> change(change, page, style));
    comparison.onlyBefore().forEach(trace -> page.labelled("only before", trace));
    comparison.onlyAfter().forEach(trace -> page.labelled("only after", trace));
    page.blank();
    page.line(style.strong(ValueText.count(comparison.changed(), "rule") + " changed, ") + comparison.newlyBroken()
        + " newly broken, " + (comparison.noLongerExercised() > 0
            ? comparison.noLongerExercised() + " no longer exercised, " : "")
        + comparison.unchanged() + " unchanged" + asked(comparison));
    Cautions.ALL.forEach(caution -> page.line(style.faint(caution)));
    return page.toString();
  }

  /** How many rules ask for less, or perhaps. */
  private static String asked(ReportComparison comparison) {
    StringBuilder words = new StringBuilder();
    for (StatedChange.Way way : List.of(StatedChange.Way.LOOSENED, StatedChange.Way.UNCLEAR)) {
      long count = comparison.stated().stream().filter(stated -> stated.way() == way).map(StatedChange::rule)
          .distinct().count();
      words.append(count == 0 ? "" : ", " + count + (way == StatedChange.Way.LOOSENED ? " loosened"
          : " changed so that a person has to say whether it asks for less"));
    }
    return words.toString();
  }

  private static StatedChange.Way way(List<StatedChange> stated) {
    return stated.stream().map(StatedChange::way).min(Comparator.naturalOrder()).orElseThrow();
  }

  private static void stated(List<StatedChange> changes, Page page, Style style) {
    page.blank();
    StatedChange first = changes.get(0);
    StatedChange.Way way = way(changes);
    page.line((way == StatedChange.Way.LOOSENED ? style.verdict(Verdict.BROKEN, "LOOSENED  ")
        : way == StatedChange.Way.UNCLEAR ? style.verdict(Verdict.UNDECIDED, "ASKS FOR LESS?  ") : "")
        + style.strong(Legible.of(first.rule())) + "  " + Legible.of(first.title()));
    changes.forEach(change -> page.labelled(change.what(), switch (change.way()) {
      case LOOSENED -> "loosened from " + change.before() + " to " + change.after();
      case TIGHTENED -> "tightened from " + change.before() + " to " + change.after();
      case UNCLEAR, EQUAL -> change.before() + " -> " + change.after();
    }));
  }

  private static void change(RuleChange change, Page page, Style style) {
    page.blank();
    RuleDigest rule = change.either();
    String lead = change.isWorse() ? style.verdict(rule.verdict(), change.way().words().toUpperCase(Locale.ROOT) + "  ")
        : "";
    page.line(lead + style.strong(Legible.of(rule.id())) + "  "
        + Legible.of(rule.title()) + style.faint("  " + Legible.of(change.trace())));
    if (change.verdictChanged()) {
      page.labelled("verdict", verdict(change.before()) + " -> " + verdict(change.after()));
    }
    if (change.obligationsChanged()) {
      page.labelled("obligations", obligations(change.before().orElseThrow().obligations(),
          change.after().orElseThrow().obligations()));
    }
    if (change.marginChanged()) {
      page.labelled("margin", margin(change.before().orElseThrow().margin()) + " -> "
          + margin(change.after().orElseThrow().margin()));
    }
  }

  private static String verdict(Optional<RuleDigest> rule) {
    return rule.isEmpty() ? "no such rule" : FindingWords.verdict(rule.get().verdict()).toLowerCase(Locale.ROOT);
  }

  private static String obligations(Obligations before, Obligations after) {
    StringBuilder line = new StringBuilder();
    add(line, "met", before.met(), after.met());
    add(line, "already so", before.alreadySo(), after.alreadySo());
    add(line, "missed", before.missed(), after.missed());
    add(line, "open", before.open(), after.open());
    add(line, "borderline", before.borderline(), after.borderline());
    add(line, "unknown", before.unknown(), after.unknown());
    add(line, "cancelled", before.cancelled(), after.cancelled());
    add(line, "unknown triggers", before.unknownTriggers(), after.unknownTriggers());
    add(line, "on a count found wrong", before.miscounted(), after.miscounted());
    return line.toString();
  }

  private static void add(StringBuilder line, String label, long before, long after) {
    if (before != after) {
      line.append(line.isEmpty() ? "" : ", ").append(ValueText.count(before)).append(" -> ")
          .append(ValueText.count(after));
      line.append(' ').append(label);
    }
  }

  private static String margin(Optional<MarginDigest> margin) {
    if (margin.isEmpty()) {
      return "none";
    }
    String size = margin.get().unit().equals("s") ? TimeText.duration(Math.round(margin.get().value() * 1e9))
        : ValueText.withUnit(margin.get().value(), margin.get().unit());
    return margin.get().atMost() ? "at most " + size : size;
  }
}
