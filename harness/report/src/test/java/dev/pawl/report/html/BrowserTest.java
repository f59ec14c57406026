package dev.pawl.report.html;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import dev.pawl.report.SampleRide;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.TraceResult;
import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The page in a real browser, headless Chromium, which {@code .ci/run} installs; without it these tests are shown as
 * skipped.
 */
class BrowserTest {

  private static final List<Path> PLACES = List.of(Path.of("/usr/bin/chromium"), Path.of("/usr/bin/chromium-browser"));

  @TempDir
  Path folder;

  @Test
  void thePagesOwnScriptRunsUnderItsOwnPolicy() throws Exception {
    assertThat(opened(SampleRide.report())).contains("<form class=\"filter\">").contains("type=\"search\"");
  }

  @Test
  void aHostileNameRunsNoScript() throws Exception {
    String hostile =
        "x</td></script><script>document.title='taken'</script><img src=x onerror=\"document.title='taken'\">";
    TraceResult trace = SampleRide.trace();
    TraceResult named = new TraceResult(hostile, trace.timeBase(), 0, trace.end(), 1, 1, 0, false, trace.reading(),
        trace.rules(), trace.zones());
    String page = opened(new Report("1", "", false, hostile, List.of(), List.of(named)));
    assertThat(page).doesNotContain("<title>taken</title>").doesNotContain("<img").contains("<form class=\"filter\">");
  }

  /** The document as the browser holds it once the page has loaded. */
  private String opened(Report report) throws IOException, InterruptedException {
    Path browser = PLACES.stream().filter(Files::isExecutable).findFirst().orElse(null);
    assumeTrue(browser != null, "Chromium is not installed");
    Path page = folder.resolve("report.html");
    try (Writer out = Files.newBufferedWriter(page)) {
      HtmlReportWriter.write(report, out);
    }
    Path dump = folder.resolve("dump.html");
    Process process = new ProcessBuilder(browser.toString(), "--headless", "--no-sandbox", "--disable-gpu",
        "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update",
        "--disable-sync", "--user-data-dir=" + folder.resolve("profile"), "--dump-dom", page.toUri().toString())
        .redirectOutput(dump.toFile()).redirectError(ProcessBuilder.Redirect.DISCARD).start();
    if (!process.waitFor(60, TimeUnit.SECONDS)) {
      process.destroyForcibly();
      throw new AssertionError("the browser did not end within 60 s");
    }
    return Files.readString(dump, StandardCharsets.UTF_8);
  }
}
