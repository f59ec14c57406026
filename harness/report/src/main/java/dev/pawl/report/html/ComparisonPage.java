package dev.pawl.report.html;

import dev.pawl.report.compare.FindingPair;
import dev.pawl.report.compare.MarginShift;
import dev.pawl.report.compare.ReportComparison;
import dev.pawl.report.compare.ReportDigest.MarginDigest;
import dev.pawl.report.compare.SinceEarlier;
import dev.pawl.report.model.FileName;
import dev.pawl.report.model.MarginResult;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.ValueText;
import java.io.IOException;
import java.io.Writer;
import java.util.List;
import java.util.OptionalDouble;

/**
 * Writes comparison.html: in short what changed, what is worse first; then the margins of each rule that moved and the
 * findings that are not the same any more, before and after on one axis each, above what the comparison says in words.
 * It needs no network and no script.
 */
public final class ComparisonPage {

  public static final String TITLE = "Before and after";

  /** Findings that are drawn: one of each rule, of so many rules. */
  private static final int MOST_DRAWN = 60;

  private final Markup html = new Markup();
  private final ReportComparison comparison;

  private ComparisonPage(ReportComparison comparison) {
    this.comparison = comparison;
  }

  /**
   * Writes the page; leaves {@code out} open and flushed.
   *
   * @param said what the terminal says of the comparison
   */
  public static void write(String before, String after, ReportComparison comparison, String said, Writer out)
      throws IOException {
    ComparisonPage page = new ComparisonPage(comparison);
    page.page(before, after, said);
    out.write(page.html.take());
    out.flush();
  }

  private void page(String before, String after, String said) throws IOException {
    html.own("<!DOCTYPE html>\n").open("html", "lang", "en").open("head");
    html.lone("meta", "charset", "utf-8");
    html.lone("meta", "name", "viewport", "content", "width=device-width, initial-scale=1");
    html.lone("meta", "http-equiv", "Content-Security-Policy", "content",
        "default-src 'none'; style-src 'unsafe-inline'");
    html.element("title", TITLE);
    html.open("style").own(PageLook.style()).own(HtmlReportWriter.resource("report.css")).end();
    html.end().open("body").open("header").element("p", "What a change did", "class", "kicker").element("h1", TITLE);
    html.open("dl", "class", "record").element("dt", "Before").element("dd", before).element("dt", "After")
        .element("dd", after).end();
    html.end().open("main");
    html.open("section", "aria-labelledby", "short").element("h2", "In short", "id", "short");
    html.open("ul", "class", "plain");
    SinceEarlier.sentences(comparison).forEach(sentence -> html.element("li", sentence));
    html.end().end();
    html.open("section", "aria-labelledby", "margins").element("h2", "Margins that moved", "id", "margins");
    html.element("p", comparison.shifts().isEmpty()
        ? "No rule's verdict or nearest margin moved where both have margins."
        : ValueText.count(comparison.shifts().size(), "rule") + " whose verdict or nearest margin moved. A stroke is"
            + " the smallest margin of a trace; those that reach through the axis were missed.");
    comparison.shifts().forEach(this::shift);
    html.end();
    findings();
    html.open("section", "aria-labelledby", "said").element("h2", "All that changed", "id", "said");
    html.element("pre", said, "class", "required").end();
    html.end().end().end();
  }

  private void findings() {
    List<FindingPair> all = comparison.findings();
    List<FindingPair> drawn = all.subList(0, Math.min(MOST_DRAWN, all.size()));
    html.open("section", "aria-labelledby", "findings").element("h2", "Findings that are in both", "id", "findings");
    html.element("p", all.isEmpty() ? "No finding that both reports draw came to something else."
        : ValueText.count(all.size(), "rule") + (all.size() == 1 ? " has" : " have") + " a finding in both reports that"
            + " is not the same any more" + (drawn.size() < all.size() ? ", the first " + drawn.size() + " drawn here"
                : "") + ". Of each stands the first one, counted from its trigger or, where it has none, from its"
            + " break. A signal that ran as before has one row; a row is hatched where its report draws no further.");
    drawn.forEach(this::finding);
    html.end();
  }

  private void finding(FindingPair pair) {
    MarkedInstants marks = MarkedInstants.of(pair);
    String said = String.join("; ", marks.marks().stream().map(mark -> mark.label() + (mark.time() == marks.origin()
        ? "" : " " + TimeText.duration(Math.abs(mark.time() - marks.origin())) + (mark.time() > marks.origin()
            ? " later" : " earlier"))).toList());
    html.open("figure").open("figcaption").open("span", "class", "id").text(pair.id()).close()
        .text(" " + pair.title() + ", in " + FileName.of(pair.trace()) + ": " + said).end();
    new TimingPicture(html, PicturePair.of(pair), marks, List.of()).write(pair.id() + " before and after: " + said);
    html.end();
  }

  private void shift(MarginShift shift) {
    html.open("figure").open("figcaption").open("span", "class", "id").text(shift.id()).close()
        .text(" " + shift.title() + ": " + nearest("before", shift.before()) + "; " + nearest("after", shift.after()))
        .end();
    new MarginStrip(html, List.of(row("before", shift.before()), row("after", shift.after())), OptionalDouble.empty())
        .write("The margins of " + shift.id() + " before and after, as said above.");
    html.end();
  }

  private static MarginStrip.Row row(String name, List<MarginDigest> margins) {
    return new MarginStrip.Row(name, margins.stream().map(ComparisonPage::margin).toList());
  }

  private static MarginResult margin(MarginDigest margin) {
    return new MarginResult(margin.value(), margin.unit(), 0, 0, margin.atMost());
  }

  private static String nearest(String when, List<MarginDigest> margins) {
    return when + " the nearest of " + ValueText.count(margins.size(), "trace") + " "
        + FindingWords.margin(margin(margins.get(0)));
  }
}
