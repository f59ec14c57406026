package dev.pawl.report.html;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import dev.pawl.report.SampleRide;
import dev.pawl.report.browser.Chromium;
import dev.pawl.report.compare.ReportComparison;
import dev.pawl.report.compare.ReportDigest;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.text.ComparisonText;
import dev.pawl.report.text.Style;
import java.io.IOException;
import java.io.InputStream;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The pages in a real browser, headless Chromium, which {@code .ci/run} installs; without it these tests are shown as
 * skipped. Whatever a test does, nothing may be fetched and no script may complain.
 */
class BrowserTest {

  private static final String HOSTILE =
      "x</td></script><script>document.title='taken'</script><img src=x onerror=\"document.title='taken'\">\\22 }";

  @TempDir
  Path folder;
  private Chromium browser;

  @BeforeEach
  void start() throws IOException {
    assumeTrue(Chromium.isInstalled(), "Chromium is not installed");
    browser = Chromium.start(folder);
  }

  @AfterEach
  void nothingWasFetchedAndNobodyComplained() {
    if (browser != null) {
      browser.evaluate("1");
      List<String> complaints = browser.complaints();
      List<String> requests = browser.requests();
      browser.close();
      assertThat(complaints).isEmpty();
      assertThat(requests).isEmpty();
    }
  }

  private static final List<String> PAGES = List.of("report.html", "rules.html", "comparison.html");

  private void open(Report report, String page) throws IOException {
    try (Writer out = Files.newBufferedWriter(folder.resolve("report.html"))) {
      HtmlReportWriter.write(report, out);
    }
    try (Writer out = Files.newBufferedWriter(folder.resolve("rules.html"))) {
      HtmlRulesWriter.write(report, out);
    }
    ReportComparison comparison = ReportComparison.of(ReportDigest.of("before", report), ReportDigest.of("after",
        SampleRide.drawn(724_600)));
    try (Writer out = Files.newBufferedWriter(folder.resolve("comparison.html"))) {
      ComparisonPage.write("before", "after", comparison, ComparisonText.of(comparison, Style.PLAIN), out);
    }
    browser.open(folder.resolve(page));
  }

  @Test
  void theTableOfRulesIsFilteredByVerdictAndByWord() throws IOException {
    open(SampleRide.drawn(), "report.html");
    String shown = "[...document.querySelectorAll('table[data-filter] tbody tr')].filter(r => !r.hidden).length";
    assertThat(browser.evaluate(shown)).isEqualTo("5");
    browser.run("document.querySelector('.filter input[value=held]').click()");
    assertThat(browser.evaluate(shown)).isEqualTo("3");
    browser.run("var s = document.querySelector('.filter input[type=search]'); s.value = 'stop-01';"
        + "s.dispatchEvent(new Event('input', {bubbles: true}))");
    assertThat(browser.evaluate(shown)).isEqualTo("1");
  }

  @Test
  void aRuleInTheTableLeadsToItsEvidence() throws IOException {
    open(SampleRide.drawn(), "report.html");
    browser.run("document.querySelector('table[data-filter] a.id').click()");
    Awaitility.await().atMost(Duration.ofSeconds(30)).until(() -> browser.evaluate(
        "document.readyState + location.pathname.split('/').pop() + location.hash"), "completerules.html#r1"::equals);
    assertThat(browser.evaluate("document.querySelector(location.hash).querySelectorAll('svg.timing').length"))
        .isEqualTo("2");
  }

  @Test
  void aPictureOpensAsATimelineThatIsWiderThanItAndCanBeZoomedByKeys() throws IOException {
    open(SampleRide.drawn(), "rules.html");
    String opener = "document.querySelectorAll('figure .tools button')[1]";
    browser.run(opener + ".focus();" + opener + ".click()");
    assertThat(browser.evaluate("document.querySelector('.zoom canvas') !== null")).isEqualTo("true");
    assertThat(browser.evaluate(opener + ".getAttribute('aria-expanded')")).isEqualTo("true");
    String span = "(s => s.max - s.min)(document.querySelector('.zoom').pawlChart.scales.x)";
    Awaitility.await().atMost(Duration.ofSeconds(10)).until(() -> Double.parseDouble(browser.evaluate(span)) > 50);
    double whole = Double.parseDouble(browser.evaluate(span));
    browser.run("document.querySelector('.zoom .tools button').click()");
    Awaitility.await().atMost(Duration.ofSeconds(10)).until(() -> Math.abs(Double.parseDouble(browser.evaluate(span))
        - whole / 2) < 0.01);
    browser.run(opener + ".click()");
    assertThat(browser.evaluate("document.querySelector('.zoom') === null")).isEqualTo("true");
  }

  @Test
  void aPictureCanBeSavedWithItsLook() throws IOException {
    open(SampleRide.drawn(), "rules.html");
    browser.run("URL.createObjectURL = function (blob) { window.saved = blob; return '#saved'; };"
        + "document.querySelector('figure .tools button').click()");
    assertThat(browser.evaluate("window.saved.text()")).contains("xmlns=\"http://www.w3.org/2000/svg\"").contains("estop_chain")
        .contains(".timing .course");
  }

  @Test
  void hostileNamesStayNames() throws IOException {
    TraceResult trace = SampleRide.trace();
    TraceResult named = new TraceResult(HOSTILE, trace.timeBase(), 0, trace.end(), 1, 1, 0, false, trace.reading(),
        trace.rules(), trace.zones());
    Report report = new Report("1", "", false, HOSTILE, List.of(), List.of(named), List.of(HOSTILE),
        SampleRide.book());
    for (String page : new String[] {"report.html", "rules.html"}) {
      open(report, page);
      assertThat(browser.evaluate("document.title")).startsWith("Rule check of x</td></script><script>");
      assertThat(browser.evaluate("document.images.length")).isEqualTo("0");
      assertThat(browser.evaluate("getComputedStyle(document.body).maxWidth")).isNotEqualTo("none");
    }
  }

  @Test
  void thePagesFitAPhone() throws IOException {
    browser.size(360, 740);
    for (String page : PAGES) {
      open(SampleRide.drawn(), page);
      assertThat(browser.evaluate("(d => d.scrollWidth > d.clientWidth)(document.documentElement) + ' by ' + [...document.querySelectorAll("
          + "'body *')].filter(e => e.getBoundingClientRect().right > 361 && !e.closest('.wide, figure, .signatures'))"
          + ".map(e => e.tagName + '.' + e.className)")).as(page).isEqualTo("false by ");
    }
  }

  @Test
  void wordsOfADrawingLieWithinItAndNotOnOneAnother() throws IOException {
    open(SampleRide.drawn(), "rules.html");
    assertThat(browser.evaluate("document.querySelectorAll('.drawn svg').length")).isEqualTo("3");
    assertThat(browser.evaluate("[...document.querySelectorAll('.drawn svg')].flatMap(svg => { const words = [...svg"
        + ".querySelectorAll('text')].map(t => [t.textContent, t.getBBox()]); const view = svg.viewBox.baseVal;"
        + "return words.flatMap(([one, a], i) => [...(a.x < 0 || a.y < 0 || a.x + a.width > view.width"
        + " || a.y + a.height > view.height ? [one + ' is outside'] : []), ...words.slice(i + 1)"
        + ".filter(([, b]) => a.x < b.x + b.width - 1 && b.x < a.x + a.width - 1 && a.y < b.y + b.height - 2"
        + " && b.y < a.y + a.height - 2).map(([other]) => one + ' on ' + other)]); }).join('; ')")).isEmpty();
  }

  @Test
  void aCheckerOfAccessiblePagesFindsNothing() throws IOException {
    String checker;
    try (InputStream in = BrowserTest.class.getResourceAsStream("/axe.min.js")) {
      checker = new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
    for (String page : PAGES) {
      open(SampleRide.drawn(), page);
      browser.run(checker);
      assertThat(browser.evaluate("axe.run().then(r => r.violations.map(v => v.id + ': ' + v.nodes.map("
          + "n => n.target + ' ' + n.failureSummary).slice(0, 3).join(' | ')).join('\\n'))")).as(page).isEmpty();
    }
  }

  @Test
  void theReportPrintsAsADocumentOnA4AndLetter() throws Exception {
    open(SampleRide.drawn(), "report.html");
    for (double[] paper : new double[][] {{8.27, 11.69}, {8.5, 11}}) {
      Path pdf = folder.resolve("report.pdf");
      Files.write(pdf, browser.print(paper[0], paper[1]));
      String text = text(pdf);
      String[] sheets = text.split("\f");
      assertThat(sheets.length).isBetween(2, 6);
      assertThat(sheets[0]).contains("What broke").contains("What to do next")
          .contains("Local codes, the manufacturer's instructions");
      for (int i = 0; i < sheets.length; i++) {
        assertThat(sheets[i]).contains("Rule check of Sample").containsPattern("run [0-9a-f]{12}")
            .contains("page " + (i + 1) + " of " + sheets.length);
      }
      assertThat(sheets[sheets.length - 1]).contains("approved by");
    }
  }

  private String text(Path pdf) throws IOException, InterruptedException {
    assumeTrue(Files.isExecutable(Path.of("/usr/bin/pdftotext")), "pdftotext is not installed");
    Path text = folder.resolve("report.txt");
    Process process = new ProcessBuilder("/usr/bin/pdftotext", "-layout", pdf.toString(), text.toString()).inheritIO()
        .start();
    assertThat(process.waitFor()).isZero();
    return Files.readString(text);
  }
}
