package dev.pawl.report.html;

import dev.pawl.engine.Obligations;
import dev.pawl.engine.Tried;
import dev.pawl.report.model.Acceptance;
import dev.pawl.report.model.FileName;
import dev.pawl.report.model.Input;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.Review;
import dev.pawl.report.model.RuleOverview;
import dev.pawl.report.words.DecisionWords;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.ValueText;
import java.util.ArrayList;
import java.util.List;

/**
 * What a reader asks of any document of this kind before signing it, answered in a sentence each: by which rules, how
 * often they were tried, what persons accepted and reviewed, what changed, and whether it comes out again.
 */
final class RecordSection {

  private static final int MOST_FILES = 3;
  private static final int MOST_DECISIONS = 5;
  private static final int DIGITS = 16;

  private final Markup html;
  private final Report report;
  private final List<RuleOverview> rules;

  RecordSection(Markup html, Report report, List<RuleOverview> rules) {
    this.html = html;
    this.report = report;
    this.rules = rules;
  }

  void write() {
    html.open("section", "aria-labelledby", "record").element("h2", "On record", "id", "record");
    html.open("dl", "class", "record");
    say("By which rules", List.of(byWhich()));
    say("Tried how often", List.of(tried()));
    say("Accepted", accepted());
    say("Looked at and signed", signed());
    say("Changed since", changed());
    say("Again", List.of("The same files, options and time of making give the same bytes. manifest.sha256 states the"
        + " options and the time, inputs.sha256 every file, and 'pawl verify' says whether all is as it was."));
    html.end().end();
  }

  private void say(String what, List<String> sentences) {
    html.element("dt", what);
    sentences.forEach(sentence -> html.element("dd", sentence));
  }

  private String byWhich() {
    List<Input> files = report.inputs().stream().filter(it -> it.role() == Input.Role.RULES).toList();
    List<String> named = files.stream().limit(MOST_FILES).map(file -> FileName.of(file.path())
        + (file.sha256().isEmpty() ? "" : " (SHA-256 " + file.sha256().substring(0, DIGITS) + "\u2026)")).toList();
    return ValueText.count(rules.size(), "rule") + (files.isEmpty() ? "" : " out of " + String.join(", ", named)
        + (files.size() > MOST_FILES ? " and " + ValueText.count(files.size() - MOST_FILES, "more file") : ""))
        + ", by pawl " + report.version() + (report.build().isEmpty() ? "" : ", " + report.build()) + ". "
        + "All " + ValueText.count(report.inputs().size()) + " files that this rests on, with the whole SHA-256 of"
        + " each, stand under What this rests on.";
  }

  private String tried() {
    Obligations sum = RuleOverview.sum(rules.stream().map(RuleOverview::obligations));
    List<RuleOverview> stating = rules.stream().filter(rule -> !rule.rule().proof().trials().isEmpty()).toList();
    long times = stating.stream().flatMap(rule -> rule.tried().stream()).mapToLong(Tried::times).sum();
    long mute = rules.stream().filter(RuleOverview::isHeldUntried).count();
    return "Over all rules and traces: " + FindingWords.obligations(sum) + ". "
        + (stating.isEmpty() ? "" : "The trials that " + ValueText.count(stating.size(), "rule") + " state occurred "
            + FindingWords.times(times) + ". ")
        + (mute == 0 ? "" : ValueText.count(mute, "held rule") + (mute == 1 ? " does" : " do")
            + " not say what would try " + (mute == 1 ? "it" : "them") + ". ")
        + "Each requirement and each rule has its own counts in the tables.";
  }

  private List<String> accepted() {
    List<Acceptance> all = report.decisions().acceptances();
    List<String> lines = new ArrayList<>();
    all.stream().limit(MOST_DECISIONS).forEach(it -> lines.add(it.subject() + ": "
        + DecisionWords.sentence(it, report) + "; because " + it.reason() + "."));
    if (all.size() > MOST_DECISIONS) {
      lines.add("And " + ValueText.count(all.size() - MOST_DECISIONS) + " more under What persons decided.");
    }
    return lines.isEmpty() ? List.of("Nothing is accepted in spite of a finding.") : lines;
  }

  private List<String> changed() {
    String how = "'pawl compare EARLIER THIS', with the folders of the two, says which verdicts, margins, rules,"
        + " limits, requirements and traces changed or went";
    if (report.earlier().isEmpty()) {
      return List.of("No earlier report was given. " + how + "; 'pawl check --earlier' puts it here.");
    }
    List<String> lines = new ArrayList<>(report.earlier().get().changes());
    lines.set(0, "Since " + report.earlier().get().report() + ": " + lines.get(0));
    lines.add("Each change stands in what the comparison prints: " + how + ".");
    return lines;
  }

  private List<String> signed() {
    List<Review> all = report.decisions().reviews();
    List<String> lines = new ArrayList<>();
    all.stream().limit(MOST_DECISIONS).forEach(it -> lines.add("By " + it.by() + " on " + it.on() + ": "
        + (report.reviewsOfOthers().contains(it) ? DecisionWords.another(it, report) : DecisionWords.looked(it))
        + "."));
    lines.add((all.isEmpty() ? "By nobody that is known here. " : "") + "A signature on paper stands at the end,"
        + " under Signatures; one of the files themselves lies beside manifest.sha256, if somebody signed them.");
    return lines;
  }
}
