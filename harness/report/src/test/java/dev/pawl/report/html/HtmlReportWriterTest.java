package dev.pawl.report.html;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Evidence;
import dev.pawl.engine.Finding;
import dev.pawl.engine.Obligations;
import dev.pawl.grammar.rules.model.Proof;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.report.SampleRide;
import dev.pawl.report.model.EvidenceResult;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.Input;
import dev.pawl.report.model.Picture;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.Seen;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.model.ZoneResult;
import dev.pawl.report.picture.PictureRecorder;
import dev.pawl.report.words.Cautions;
import java.io.IOException;
import java.io.StringReader;
import java.io.StringWriter;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.xml.sax.InputSource;

class HtmlReportWriterTest {

  private static final String HOSTILE = "</script><script>alert(1)</script><img src=x onerror=alert(1)>\"'&]]>\u0000";

  @Test
  void thePagesNeedNothingButEachOther() throws IOException {
    String report = page(drawn());
    String rules = rules(drawn());
    for (String page : new String[] {report, rules}) {
      assertThat(page).doesNotContain("url(").doesNotContain("@import").doesNotContain(" src=")
          .doesNotContain("<link");
      Matcher references = Pattern.compile("href=\"([^\"]*)\"").matcher(page);
      assertThat(references.results().map(result -> result.group(1)).toList()).isNotEmpty().allSatisfy(reference -> {
        String[] parts = reference.split("#", 2);
        String there = parts[0].isEmpty() ? page : parts[0].equals("rules.html") ? rules : report;
        assertThat(parts[0]).isIn("", "rules.html", "report.html");
        assertThat(parts.length == 1 || there.contains("id=\"" + parts[1] + "\"")).as(reference).isTrue();
      });
    }
  }

  @Test
  void aRuleSaysHowOftenItsObligationsCameNear() throws IOException {
    assertThat(rules(drawn())).contains("Left of what is allowed, obligation by obligation: nothing in 3, less"
        + " than a tenth in 1, less than a quarter in 2, less than half in 3, half or more in 5.",
        "obligation by obligation: less than half in 2, half or more in 4.");
  }

  @Test
  void theFirstPageSaysWhatAManagerAsks() throws IOException {
    String page = page(drawn());
    assertThat(page).contains("<h1>Rule check of Sample</h1>").doesNotContain("Pawl: 1").contains("1 rule broken")
        .contains("Asked: do 5 rules, 2 of them critical, out of 1 file, hold in 1 trace of 15 min together; "
            + "1 trace not read?").contains("at worst by 250 ms");
    String glance = page.substring(page.indexOf("id=\"glance\""), page.indexOf("id=\"requirements\""));
    assertThat(glance.indexOf("What broke")).isBetween(0, glance.indexOf("What is not proven"));
    assertThat(glance.indexOf("What is not proven")).isLessThan(glance.indexOf("How near the nearest came"));
    assertThat(Cautions.ALL).allSatisfy(caution -> assertThat(glance).contains(caution.replace("'", "&#39;")));
    assertThat(glance).contains("1.25 s left of 3 s (42 %)").doesNotContain("NaN");
  }

  @Test
  void theReportSaysWhatItRestsOnAndAsksForASignature() throws IOException {
    assertThat(page(drawn())).contains("0123456789abcdef".repeat(4)).contains("rows out of order").contains("Signature")
        .contains("A logged time may be off by 10 ms: all rules.").contains("starts with 0, as the rules state, does not count in 1 trace").contains("run ");
  }

  @Test
  void aRuleSaysWhatItAsksWhyAndWhatWasFound() throws IOException {
    String page = rules(drawn());
    assertThat(page).contains("it came at 724.200 s, 250 ms late").contains("day.csv:1102").contains("-250 ms")
        .contains("Basis: common practice, no source").contains("Each time that estop_chain becomes false")
        .contains("1 more of the 3 are counted, but not shown here").contains("pawl check --rules rules/sample.rules")
        .contains("What changed next: 250 ms later lift_run became false; 2.05 s later estop_chain became true")
        .contains("a train left while none was counted in");
  }

  @Test
  void severalTracesAreSummedAndWhatNoneExercisedIsSaid() throws IOException {
    String page = page(drawn());
    assertThat(page).contains("5 rules. 1 was never exercised: the traces together do not put it to the test.");
    String overview = page.substring(page.indexOf("id=\"rules\""), page.indexOf("id=\"symptoms\""));
    assertThat(overview).contains("broken in 1").contains("href=\"rules.html#t1\"").contains("11 met, 3 missed")
        .contains("-250 ms");
  }

  @Test
  void symptomsStandInTheOrderInWhichTheyHappened() throws IOException {
    String page = page(drawn());
    String symptoms = page.substring(page.indexOf("id=\"symptoms\""), page.indexOf("id=\"traces\""));
    assertThat(symptoms.indexOf("300.000 s")).isBetween(0, symptoms.indexOf("723.950 s"));
    assertThat(symptoms.indexOf("723.950 s")).isLessThan(symptoms.indexOf("783.950 s"));
  }

  @Test
  void everyVerdictIsAWordBesideItsMark() throws IOException {
    Matcher marks = Pattern.compile("<span class=\"verdict ([a-z-]+)\"><svg.*?</svg>([a-z ]+)</span>")
        .matcher(page(drawn()));
    assertThat(marks.results().map(result -> result.group(2)).toList()).isNotEmpty()
        .contains("broken", "undecided", "not exercised", "held");
  }

  @Test
  void theBodyIsWellFormed() throws Exception {
    assertThat(document(page(drawn())).getElementsByTagName("svg").getLength()).isGreaterThan(5);
    assertThat(document(rules(drawn())).getElementsByTagName("svg").getLength()).isGreaterThan(5);
  }

  /**
   * Well-formedness makes the test strict: whatever broke out of its place would be an element, and none of these may
   * exist.
   */
  @Test
  void hostileTextCannotGetOutOfItsPlace() throws Exception {
    for (String page : new String[] {page(hostile()), rules(hostile())}) {
      Document document = document(page);
      assertThat(document.getElementsByTagName("script").getLength()).isZero();
      assertThat(document.getElementsByTagName("img").getLength()).isZero();
      assertThat(document.getElementsByTagName("main").item(0).getTextContent())
          .contains("</script><script>alert(1)</script><img");
      assertThat(page.substring(page.indexOf("@page { @top-left"), page.indexOf("</style>")))
          .doesNotContain("<").contains("\\3c ");
    }
  }

  @Test
  void onlyThePagesOwnScriptMayRun() throws IOException {
    for (String page : new String[] {page(drawn()), rules(drawn())}) {
      assertThat(page).contains("script-src &#39;sha256-").doesNotContain("script-src &#39;unsafe-inline");
    }
  }

  private static Report drawn() {
    PictureRecorder recorder = new PictureRecorder(SampleRide.book(), SampleRide.trace(), 2);
    SampleRide.play(recorder);
    return SampleRide.report(recorder.result(),
        TraceResult.unreadable("traces/gone.csv", new Reading(List.of(), List.of(), 1, "line 3: no time")));
  }

  private static Report hostile() {
    Rule rule = new Rule(0, HOSTILE, HOSTILE, Rule.Severity.MINOR, new Rule.Basis(HOSTILE, false),
        SampleRide.book().rules().get(0).duty(), Proof.NONE, 0, HOSTILE, SampleRide.book().rules().get(0).position());
    EvidenceResult evidence = new EvidenceResult(Evidence.Moment.BREAK, 5, HOSTILE, HOSTILE, HOSTILE, 3);
    Picture picture = new Picture(0, 10, List.of(
        new Picture.Track(HOSTILE, Picture.Shape.NAMES, HOSTILE, List.of(HOSTILE), new long[] {0}, new double[] {0},
        new double[0], true),
        new Picture.Track(HOSTILE, Picture.Shape.NUMBER, HOSTILE, List.of(), new long[] {0}, new double[] {1},
            new double[] {2},
        false)));
    FindingResult finding = new FindingResult(Finding.Kind.NO_RESPONSE, 1, 5, false, OptionalLong.of(5),
        OptionalLong.empty(), List.of(evidence), Optional.of(picture));
    RuleResult result = new RuleResult(rule, new Obligations(0, 1, 0, 0, 0, 0, 0), Optional.empty(),
        new Seen(OptionalLong.empty(), List.of(), List.of(), List.of(), 0, List.of()), List.of(finding), List.of());
    ZoneResult zone = new ZoneResult(HOSTILE, 1, 0, 0, 0, 0, Optional.empty(), 0, List.of());
    TraceResult trace = new TraceResult(HOSTILE, TimeBase.START, 0, 10, 1, 1, 0, true,
        new Reading(List.of(new Reading.Counter(HOSTILE, 1)), List.of(new Reading.Problem(1, HOSTILE)), 1, HOSTILE),
        List.of(result),
        List.of(zone));
    return new Report("1", HOSTILE, true, HOSTILE, List.of(new Input(Input.Role.TRACE, HOSTILE, 1, "")),
        List.of(trace), List.of(), SampleRide.book());
  }

  private static String page(Report report) throws IOException {
    StringWriter out = new StringWriter();
    HtmlReportWriter.write(report, out);
    return out.toString();
  }

  private static String rules(Report report) throws IOException {
    StringWriter out = new StringWriter();
    HtmlRulesWriter.write(report, out);
    return out.toString();
  }

  /** The page read as XML, but for its own style sheet and scripts and the three elements that HTML leaves open. */
  private static Document document(String page) throws Exception {
    String xml = page.replaceFirst("<!DOCTYPE html>", "").replaceFirst("(?s)<style>.*?</style>", "<style/>")
        .replaceAll("(?s)<script>(\"use strict\"|/\\*! https).*?</script>", "");
    return DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(new InputSource(new StringReader(xml)));
  }
}
