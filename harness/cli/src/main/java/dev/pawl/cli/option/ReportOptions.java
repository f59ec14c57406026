package dev.pawl.cli.option;

import dev.pawl.report.ReportFormat;
import java.util.EnumSet;
import java.util.Optional;
import picocli.CommandLine.ParseResult;

/**
 * What is said of what was judged, and where.
 *
 * @param out folder for the report files
 * @param json whether the report goes to standard output as JSON instead of text
 * @param findings how many findings are kept of each rule and trace, where no more than ten traces are judged
 * @param requireProof whether what is undecided or not exercised fails
 * @param quiet whether neither progress nor warnings are mentioned
 * @param decisions what persons have decided about it
 * @param earlier an earlier report, since which it says what changed
 */
public record ReportOptions(Optional<String> out, boolean json, int findings, boolean requireProof, boolean quiet,
    DecisionOptions decisions, Optional<String> earlier) {

  /** The same where nobody has decided anything and there is none earlier. */
  public ReportOptions(Optional<String> out, boolean json, int findings, boolean requireProof, boolean quiet) {
    this(out, json, findings, requireProof, quiet, DecisionOptions.NONE, Optional.empty());
  }

  static final int USUAL_FINDINGS = 20;
  private static final int MOST_FINDINGS = 10_000;

  public static final Option<Optional<String>> OUT = Option.text("DIR",
      "Write " + ReportFormat.inWords(EnumSet.allOf(ReportFormat.class)) + " into this folder, with a manifest of their"
          + " SHA-256. It is new or empty, or holds a report that pawl wrote, which is replaced as a whole. What is"
          + " judged of many recorded traces is kept in DIR.judged until then, where the same command goes on if it is"
          + " ended.", "-o", "--out");
  public static final Option<Boolean> FORMAT = Option.text("FORM",
      "What goes to standard output: text (usual) or json.", "--format")
      .as(Meaning.either("text", false, "json", true)).usually("text");
  public static final Option<Boolean> REQUIRE_PROOF = Option.flag("Exit with status 3 if nothing is broken but"
      + " something is undecided or not exercised, or a critical rule does not say what tries it. junit.xml then has"
      + " errors where it else has skipped cases.", "--require-proof");
  public static final Option<Integer> FINDINGS = Option.text("N",
      "Keep so many findings of each rule and trace; usual is " + USUAL_FINDINGS
          + ". More than ten traces share what ten have, and many rules in many traces what 1000 such pairs have. The"
          + " rest are counted.", "--findings")
      .as(Meaning.number(USUAL_FINDINGS, 0, MOST_FINDINGS));
  public static final Option<Optional<String>> EARLIER = Option.text("REPORT", "An earlier report, by the folder of its"
      + " --out or its report.json: report.html then says on its first pages what changed since, as 'pawl compare'"
      + " would. Neither a verdict nor the exit status depends on it.", "--earlier");
  public static final Option<Boolean> QUIET = Option.flag("Show no progress and no mention of warnings.", "-q",
      "--quiet");

  public static ReportOptions of(ParseResult words) {
    return new ReportOptions(OUT.of(words), FORMAT.of(words), FINDINGS.of(words), REQUIRE_PROOF.of(words),
        QUIET.of(words), DecisionOptions.of(words), EARLIER.of(words));
  }

  /** The report files in this folder, some findings of each rule, and nothing said by the way. */
  public static ReportOptions quietlyInto(String folder) {
    return new ReportOptions(Optional.of(folder), false, USUAL_FINDINGS, false, true);
  }

  /** The same with another folder for the report files. */
  ReportOptions withOut(Optional<String> folder) {
    return new ReportOptions(folder, json, findings, requireProof, quiet, decisions, earlier);
  }
}
