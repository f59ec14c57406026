package dev.pawl.report.html;

import dev.pawl.engine.Caution;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.model.Proof;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleExample;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.Handbook;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.words.Cautions;
import dev.pawl.report.words.FindingWords;
import java.io.IOException;
import java.io.Writer;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * Writes the pages of a handbook: one for each rule, one that leads to them and shows what they cover, and a list of
 * what to try, to be ticked off.
 */
public final class HandbookWriter {

  /** The name of the page that leads to the others. */
  public static final String INDEX = "index.html";
  /** The name of the page of what to try. */
  public static final String CHECKLIST = "checklist.html";

  private final Markup html = new Markup();
  private final Handbook handbook;

  private HandbookWriter(Handbook handbook) {
    this.handbook = handbook;
  }

  /** Writes the page of one rule; leaves {@code out} open and flushed. */
  public static void writeRule(Handbook handbook, Handbook.Entry entry, Writer out) throws IOException {
    HandbookWriter writer = new HandbookWriter(handbook);
    writer.rule(entry);
    writer.flush(out);
  }

  /** Writes the page that leads to the others; leaves {@code out} open and flushed. */
  public static void writeIndex(Handbook handbook, Writer out) throws IOException {
    HandbookWriter writer = new HandbookWriter(handbook);
    writer.index();
    writer.flush(out);
  }

  /** Writes the list of what to try; leaves {@code out} open and flushed. */
  public static void writeChecklist(Handbook handbook, Writer out) throws IOException {
    HandbookWriter writer = new HandbookWriter(handbook);
    writer.checklist();
    writer.flush(out);
  }

  private void flush(Writer out) throws IOException {
    out.write(html.take());
    out.flush();
  }

  private void begin(String title) throws IOException {
    html.own("<!DOCTYPE html>\n").open("html", "lang", "en").open("head");
    html.lone("meta", "charset", "utf-8");
    html.lone("meta", "name", "viewport", "content", "width=device-width, initial-scale=1");
    html.lone("meta", "http-equiv", "Content-Security-Policy", "content",
        "default-src 'none'; style-src 'unsafe-inline'");
    html.element("title", title);
    html.open("style").own(PageLook.style()).own(HtmlReportWriter.resource("report.css")).end();
    html.end().open("body");
  }

  private void end() {
    html.open("footer");
    html.open("ul", "class", "cautions");
    Cautions.ALL.forEach(caution -> html.element("li", caution));
    html.end();
    html.element("p", "Written by pawl " + handbook.version() + ".");
    html.end().end().end();
  }

  private String ride() {
    return handbook.ride().isEmpty() ? "Unnamed ride" : handbook.ride();
  }

  private void rule(Handbook.Entry entry) throws IOException {
    Rule rule = entry.rule();
    begin(rule.id() + ": " + rule.title());
    html.open("header");
    html.open("p", "class", "kicker").element("a", ride() + ", all rules", "href", INDEX).end();
    html.open("h1").open("span", "class", "id").text(rule.id()).close().text(" " + rule.title()).end();
    html.element("p", severity(rule) + ". Basis: " + basis(rule) + ".", "class", "lead");
    html.element("p", rule.position().file() + ":" + rule.position().line(), "class", "code place");
    html.end();
    heading("What it asks");
    html.element("pre", rule.text(), "class", "required");
    entry.explanation().words().forEach(sentence -> html.element("p", sentence));
    html.element("p", entry.explanation().formula(), "class", "code");
    html.element("p", entry.explanation().decision());
    heading("What tries it");
    tried(rule);
    entry.explanation().exercise().forEach(sentence -> html.element("p", sentence));
    html.element("p", "It reads " + String.join(", ", entry.explanation().signals()) + ".");
    heading("Examples");
    Optional<Handbook.Entry> other = handbook.exampled(entry);
    if (other.isPresent()) {
      html.open("p").text("The same rule has its examples at ");
      link(other.get());
      html.text(".").end();
    } else if (entry.examples().isEmpty()) {
      html.element("p", "The rule files hold no example for this rule.", "class", "notice");
    }
    entry.examples().forEach(example -> example(rule, example));
    end();
  }

  private void heading(String text) {
    html.element("h2", text);
  }

  private static String severity(Rule rule) {
    String word = rule.severity().name().toLowerCase(Locale.ROOT);
    return Character.toUpperCase(word.charAt(0)) + word.substring(1);
  }

  static String basis(Rule rule) {
    String text = rule.basis().text();
    return rule.basis().isPractice() ? "common practice, no source" + (text.isBlank() ? "" : " (" + text + ")")
        : text.isBlank() ? "not stated" : text;
  }

  private void tried(Rule rule) {
    if (!rule.proof().untried().isBlank()) {
      html.element("p", "Nothing that a trace could show: " + rule.proof().untried() + ".");
    }
    if (!rule.proof().trials().isEmpty()) {
      html.open("ul");
      rule.proof().trials().stream().map(Proof.Trial::text).forEach(trial -> html.element("li", trial, "class",
          "code"));
      html.end();
    }
  }

  private void example(Rule rule, Handbook.Example example) {
    RuleExample.Expected expected = example.example().expected();
    html.open("section", "class", "finding");
    html.open("h3");
    VerdictMark.write(html, Verdict.valueOf(expected.name()));
    html.text(": " + example.example().title()).end();
    html.open("figure");
    new TimingPicture(html, example.picture(), marked(rule, example), List.of()).write(rule.id() + ", "
        + expected.label() + ": " + example.example().title());
    html.end();
    example.finding().ifPresent(finding -> html.element("p", sentence(rule, finding)));
    html.open("details").element("summary", "The values").element("pre", String.join("\n", example.steps()), "class",
        "required").end();
    html.end();
  }

  private static String sentence(Rule rule, FindingResult finding) {
    String sentence = FindingWords.sentence(rule, finding, TimeBase.START);
    return Character.toUpperCase(sentence.charAt(0)) + sentence.substring(1) + ".";
  }

  private static MarkedInstants marked(Rule rule, Handbook.Example example) {
    return example.finding().map(finding -> MarkedInstants.of(rule, finding)).map(marks -> new MarkedInstants(0,
        marks.marks(), OptionalLong.empty())).orElse(new MarkedInstants(0, List.of(), OptionalLong.empty()));
  }

  private void index() throws IOException {
    begin(ride() + ": handbook of its rules");
    html.open("header");
    html.element("p", "Handbook", "class", "kicker");
    html.element("h1", ride());
    html.element("p", handbook.entries().size() + (handbook.entries().size() == 1 ? " rule" : " rules")
        + ", each on a page of its own.", "class", "lead");
    html.open("p").element("a", "What to try, to be ticked off", "href", CHECKLIST).end();
    html.end();
    heading("The rules");
    table("Rule", "Severity", "Basis", "What tries it", "Examples");
    for (Handbook.Entry entry : handbook.entries()) {
      html.open("tr").open("td");
      link(entry);
      html.text(" " + entry.rule().title()).close();
      html.element("td", entry.rule().severity().name().toLowerCase(Locale.ROOT));
      html.element("td", basis(entry.rule()));
      html.element("td", trials(entry.rule()));
      html.element("td", examples(entry)).end();
    }
    html.close().close().end();
    coverage();
    end();
  }

  /** What each rule wants asked, the most severe first: a walk in the morning, or after a change. */
  private void checklist() throws IOException {
    begin(ride() + ": what to try");
    html.open("header");
    html.open("p", "class", "kicker").element("a", ride() + ", all rules", "href", INDEX).end();
    html.element("h1", "What to try");
    html.element("p",
        "A pass shows something only where somebody has asked for what the rule forbids. A log of all this,"
        + " checked by these rules, leaves none of them not exercised.", "class", "lead");
    html.element("p", Caution.PROTECTION.text(), "class", "notice");
    html.end();
    table("Done", "Rule", "Severity", "What it wants to see");
    handbook.entries().stream().filter(entry -> entry.rule().canBeTried())
        .sorted(Comparator.comparing((Handbook.Entry entry) -> entry.rule().severity()).reversed())
        .forEach(this::task);
    html.close().close().end();
    end();
  }

  private void task(Handbook.Entry entry) {
    html.open("tr").element("td", "\u2610").open("td");
    link(entry);
    html.text(" " + entry.rule().title()).close();
    html.element("td", entry.rule().severity().name().toLowerCase(Locale.ROOT)).open("td");
    entry.explanation().exercise().forEach(sentence -> html.element("p", sentence));
    html.close().end();
  }

  private void table(String... columns) {
    html.open("div", "class", "wide", "tabindex", "0").open("table").open("thead").open("tr");
    for (String column : columns) {
      html.element("th", column, "scope", "col");
    }
    html.close().end().open("tbody");
  }

  private void link(Handbook.Entry entry) {
    html.open("a", "href", entry.page(), "class", "id").text(entry.rule().id()).close();
  }

  private static String trials(Rule rule) {
    if (!rule.proof().untried().isBlank()) {
      return "nothing: " + rule.proof().untried();
    }
    return rule.proof().trials().isEmpty() ? rule.canBeTried() ? "each time that it has to answer" : "not stated"
        : String.join("; ", rule.proof().trials().stream().map(Proof.Trial::text).toList());
  }

  private String examples(Handbook.Entry entry) {
    return handbook.exampled(entry).map(other -> "as " + other.rule().id())
        .orElse(entry.examples().isEmpty() ? "none" : Integer.toString(entry.examples().size()));
  }

  /** Which published requirement is asked for by which rules; what no rule names is not known here. */
  private void coverage() {
    heading("What they cover");
    html.element("p",
        "Each published requirement that a rule states as its basis, with all rules that do. What a source"
        + " asks for beyond them, this table does not know. Where a rule says \"from memory\", nobody has read the"
        + " source for it.");
    table("Requirement", "Rules", "Of them not to be tried");
    for (Map.Entry<String, List<Handbook.Entry>> source : handbook.bySource().entrySet()) {
      html.open("tr").open("th", "scope", "row").text(source.getKey()).close().open("td");
      for (Handbook.Entry entry : source.getValue()) {
        link(entry);
        html.text(" ");
      }
      html.close();
      long untried = source.getValue().stream().filter(entry -> !entry.rule().canBeTried()).count();
      html.element("td", untried == 0 ? "none" : Long.toString(untried)).end();
    }
    html.close().close().end();
    long practice = handbook.entries().stream().filter(entry -> entry.sources().isEmpty()).count();
    html.element("p", practice + (practice == 1 ? " rule rests" : " rules rest") + " on common practice alone.");
  }
}
