package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The first three sheets of the demo's report, printed: they answer what a reviewer asks before turning on. */
class FirstPagesTest {

  private static final List<Path> BROWSERS = List.of(Path.of("/usr/bin/chromium"), Path.of("/usr/bin/chromium-browser"));
  private static final Path TO_TEXT = Path.of("/usr/bin/pdftotext");

  @TempDir
  private Path folder;

  /** Each question, and what of its answer must stand there. */
  private static Map<String, List<String>> questions() {
    Map<String, List<String>> answers = new LinkedHashMap<>();
    answers.put("which rules, in which version", List.of("123 rules out of kestrel-ridge.rules \\(SHA-256 [0-9a-f]{16}",
        "by pawl \\S+, (commit|built)"));
    answers.put("which requirement", List.of("RA-01 Two trains are never in one block zone", "ZONE-02-station"));
    answers.put("which have no rule, and which rules no requirement", List.of("1 requirement without a rule: RA-10",
        "Rules without a requirement: RIDE-01"));
    answers.put("tried how often", List.of("Tried how often .*[0-9,]+ met", "state occurred [0-9,]+ times",
        "[0-9,]+ obligations, in all 10 traces"));
    answers.put("how near", List.of("0\\.2 m/s left of 2\\.5 m/s \\(8 %\\)"));
    answers.put("on which trace", List.of("in ordinary-two-hours\\.csv", "broken in 1 of 10 traces, roll- ?back\\.csv"));
    answers.put("what is weak", List.of("6 rules undecided: the traces do not tell: LIFT-06-lift"));
    answers.put("what was accepted, why, until when", List.of("Accepted Nothing is accepted in spite of a finding"));
    answers.put("what changed since", List.of("Changed since .*'pawl compare EARLIER THIS'"));
    answers.put("does it come out again", List.of("Again The same files, options and time of making give the same bytes",
        "'pawl verify' says"));
    answers.put("signed by whom", List.of("Looked at and signed By nobody that is known here"));
    answers.put("what it takes for granted", List.of("A logged time may be off by 10 ms", "station with 1"));
    answers.put("what it cannot say", List.of("it proves nothing about hardware, wiring"));
    answers.put("what to do next", List.of("What to do next .*first symptom of each trace"));
    return answers;
  }

  @Test
  void fourteenQuestionsAreAnsweredThere() throws Exception {
    Path browser = BROWSERS.stream().filter(Files::isExecutable).findFirst().orElse(folder);
    assumeTrue(Files.isRegularFile(browser) && Files.isExecutable(TO_TEXT), "no Chromium, or no pdftotext");
    assertThat(Run.at(Path.of("../.."), Map.of(), new Interruption(), "demo", "--out", folder.resolve("demo").toString())
        .status()).isZero();
    Path pdf = folder.resolve("report.pdf");
    run(browser.toString(), "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-dev-shm-usage",
        "--user-data-dir=" + folder.resolve("profile"), "--no-pdf-header-footer", "--print-to-pdf=" + pdf,
        folder.resolve("demo/report/report.html").toUri().toString());
    Path text = folder.resolve("report.txt");
    run(TO_TEXT.toString(), "-l", "3", "-layout", pdf.toString(), text.toString());
    String pages = Files.readString(text).replaceAll("\\s+", " ");
    run(TO_TEXT.toString(), "-l", "3", pdf.toString(), text.toString());
    String read = Files.readString(text).replaceAll("\\s+", " ");
    assertThat(questions()).hasSize(14).allSatisfy((question, answers) -> assertThat(answers).as(question)
        .allSatisfy(answer -> assertThat(Stream.of(pages, read)).anyMatch(it -> it.matches(".*" + answer + ".*"))));
  }

  private void run(String... words) throws IOException, InterruptedException {
    Path said = folder.resolve("said.txt");
    Process process = new ProcessBuilder(words).redirectErrorStream(true).redirectOutput(said.toFile()).start();
    assertThat(process.waitFor(4, TimeUnit.MINUTES)).as("%s came to its end", words[0]).isTrue();
    assertThat(process.exitValue()).as(Files.readString(said)).isZero();
  }
}
