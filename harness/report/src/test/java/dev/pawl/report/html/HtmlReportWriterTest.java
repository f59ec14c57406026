package dev.pawl.report.html;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Evidence;
import dev.pawl.engine.Finding;
import dev.pawl.engine.Obligations;
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
  void thePageStandsAlone() throws IOException {
    String page = page(drawn());
    assertThat(page).doesNotContain("http://").doesNotContain("https://").doesNotContain("url(")
        .doesNotContain("@import")
        .doesNotContain(" src=").doesNotContain("<link");
    Matcher references = Pattern.compile("href=\"([^\"]*)\"").matcher(page);
    assertThat(references.results().map(result -> result.group(1)).toList()).isNotEmpty()
        .allSatisfy(reference -> assertThat(reference).startsWith("#"))
        .allSatisfy(reference -> assertThat(page).contains("id=\"" + reference.substring(1) + "\""));
  }

  @Test
  void itSaysWhatThePersonNeeds() throws IOException {
    String page = page(drawn());
    assertThat(page).contains("broken").contains("undecided").contains("not exercised").contains("held")
        .contains("it came at 724.200 s, 250 ms late").contains("day.csv:1102").contains("-250 ms")
        .contains("0123456789abcdef".repeat(4)).contains("rows out of order").contains("1 more of the 3 are counted");
    assertThat(Cautions.ALL).allSatisfy(caution -> assertThat(page).contains(caution.replace("'", "&#39;")));
    assertThat(page.indexOf("STOP-01")).isLessThan(page.indexOf("LIFT-02"));
  }

  @Test
  void severalTracesHaveAnOverviewThatSaysWhatNoneOfThemExercised() throws IOException {
    String page = page(drawn());
    assertThat(page).contains("1 trace not read.")
        .contains("5 rules. 1 was never exercised: the traces together do not put it to the test.");
    String overview = page.substring(page.indexOf("id=\"overview\""), page.indexOf("<h2 id=\"t1-title\""));
    assertThat(overview).contains("broken in 1").contains("href=\"#t1-r0\"").contains("11 met, 3 missed")
        .contains("-250 ms");
    assertThat(page(SampleRide.report())).doesNotContain("id=\"overview\"");
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
  }

  /**
   * Well-formedness makes the test strict: whatever broke out of its place would be an element, and none of these may
   * exist.
   */
  @Test
  void hostileTextCannotGetOutOfItsPlace() throws Exception {
    Document document = document(page(hostile()));
    assertThat(document.getElementsByTagName("script").getLength()).isEqualTo(1);
    assertThat(document.getElementsByTagName("img").getLength()).isZero();
    assertThat(document.getElementsByTagName("table").item(0).getTextContent())
        .contains("</script><script>alert(1)</script><img");
  }

  @Test
  void onlyThePagesOwnScriptMayRun() throws IOException {
    assertThat(page(drawn())).contains("script-src &#39;sha256-").doesNotContain("script-src &#39;unsafe-inline");
  }

  private static Report drawn() {
    PictureRecorder recorder = new PictureRecorder(SampleRide.book(), SampleRide.trace(), 2);
    SampleRide.play(recorder);
    return SampleRide.report(recorder.result(),
        TraceResult.unreadable("traces/gone.csv", new Reading(List.of(), List.of(), 1, "line 3: no time")));
  }

  private static Report hostile() {
    Rule rule = new Rule(0, HOSTILE, HOSTILE, Rule.Severity.MINOR, HOSTILE, false, SampleRide.book().rules().get(0)
        .duty(), 0, HOSTILE, SampleRide.book().rules().get(0).position());
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
        List.of(trace));
  }

  private static String page(Report report) throws IOException {
    StringWriter out = new StringWriter();
    HtmlReportWriter.write(report, out);
    return out.toString();
  }

  /** The page read as XML, but for its own style sheet and script and the three elements that HTML leaves open. */
  private static Document document(String page) throws Exception {
    String xml = page.replaceFirst("<!DOCTYPE html>", "").replaceFirst("(?s)<style>.*?</style>", "<style/>")
        .replaceFirst("(?s)<script>\"use strict\".*?</script>", "<script/>");
    return DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(new InputSource(new StringReader(xml)));
  }
}
