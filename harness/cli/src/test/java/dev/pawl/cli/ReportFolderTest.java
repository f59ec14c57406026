package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.cli.keep.Manifest;
import dev.pawl.cli.keep.ReportFolder;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What {@code --out} replaces, what it leaves alone, and what a killed run leaves to the next. */
class ReportFolderTest {

  @TempDir
  private Path folder;
  private Path out;

  @BeforeEach
  void write() throws IOException {
    out = folder.resolve("out");
    Stand.write(folder);
    Files.writeString(folder.resolve("held.csv"),
        "time_ms,signal,value\n0,estop_chain,1\n0,lift_run,0\n9,estop_chain,0\n900,lift_run,0\n");
    Files.writeString(folder.resolve("broken.csv"),
        "time_ms,signal,value\n0,estop_chain,1\n0,lift_run,1\n9,estop_chain,0\n900,lift_run,0\n");
  }

  private Run check(String trace) {
    return Run.of("check", "--quiet", "--rules", folder.resolve("stand.rules").toString(), "--out", out.toString(),
        folder.resolve(trace).toString());
  }

  private List<String> names(Path inside) throws IOException {
    try (Stream<Path> files = Files.list(inside)) {
      return files.map(file -> file.getFileName().toString()).sorted().toList();
    }
  }

  private void refused(String why) throws IOException {
    List<String> before = names(folder);
    Run run = check("broken.csv");
    assertThat(run.status()).isEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(run.err()).isEqualTo("pawl: --out: " + out + ": " + why + "\n");
    assertThat(names(folder)).isEqualTo(before);
  }

  @Test
  void aReportIsReplacedAsAWholeAndItsManifestIsReadByOthers() throws Exception {
    assertThat(check("held.csv").status()).isZero();
    assertThat(check("broken.csv").status()).isEqualTo(ExitStatus.RULE_BROKEN);
    assertThat(names(folder)).containsExactly("broken.csv", "held.csv", "lift.st", "out", "stand.rules");
    assertThat(names(out)).containsExactly("junit.xml", "manifest.sha256", "report.html", "report.json",
        "rules.html");
    assertThat(Files.readString(out.resolve("report.html"))).contains("broken.csv").doesNotContain("held.csv");
    Process sums = new ProcessBuilder("sha256sum", "-c", "manifest.sha256").directory(out.toFile())
        .redirectErrorStream(true).start();
    String said = new String(sums.getInputStream().readAllBytes());
    assertThat(sums.waitFor(20, TimeUnit.SECONDS) && sums.exitValue() == 0).as(said).isTrue();
  }

  @Test
  void anEmptyFolderMayBeThereAndALinkToAFolderStaysOne() throws IOException {
    Files.createDirectory(folder.resolve("elsewhere"));
    Files.createSymbolicLink(out, folder.resolve("elsewhere"));
    assertThat(check("held.csv").status()).isZero();
    assertThat(check("held.csv").status()).isZero();
    assertThat(out).isSymbolicLink();
    assertThat(names(folder.resolve("elsewhere"))).hasSize(5);
  }

  @Test
  void aFolderWithAnythingElseInItStays() throws IOException {
    assertThat(check("held.csv").status()).isZero();
    Path own = Files.writeString(out.resolve("remarks.txt"), "mine");
    refused("holds remarks.txt, which is no file of a report, and stays; name another folder");
    Files.delete(own);
    Files.createDirectory(folder.resolve("out.unfinished"));
    own = Files.writeString(folder.resolve("out.unfinished/remarks.txt"), "mine");
    Run run = check("held.csv");
    assertThat(run.err()).isEqualTo("pawl: --out: " + folder.resolve("out.unfinished")
        + ": holds remarks.txt, which is no file of a report, and stays; name another folder\n");
    assertThat(own).hasContent("mine");
  }

  @ParameterizedTest
  @ValueSource(strings = {"report.html", "rules.html", "report.json", "junit.xml"})
  void aReportThatIsNotAsItsManifestHasItIsNeitherReplacedNorCompared(String changed) throws IOException {
    assertThat(check("held.csv").status()).isZero();
    Files.writeString(out.resolve(changed), " ", StandardOpenOption.APPEND);
    refused("is not replaced, because it is incomplete or changed: " + changed
        + " is not as manifest.sha256 has it; move it away or name" + " another folder");
    Path copy = Files.copy(out.resolve("report.json"), folder.resolve("copy.json"));
    for (Path named : List.of(out, out.resolve("report.json"))) {
      Run compared = Run.of("compare", named.toString(), copy.toString());
      assertThat(compared.status()).isEqualTo(ExitStatus.WRONG_INPUT);
      assertThat(compared.err()).isEqualTo("pawl: " + out.resolve("report.json")
          + ": its folder is no whole report: it is incomplete or changed: " + changed
          + " is not as manifest.sha256 has it\n");
    }
  }

  @Test
  void wholeReportsAreComparedByTheirFolders() {
    assertThat(check("held.csv").status()).isZero();
    assertThat(Run.of("compare", out.toString(), out.toString()).out())
        .startsWith("0 rules changed, 0 newly broken, 2 unchanged\n");
  }

  @Test
  void filesWithoutAManifestAreNotTakenForAReport() throws IOException {
    assertThat(check("held.csv").status()).isZero();
    Files.delete(out.resolve("manifest.sha256"));
    refused("is not replaced, because it has no manifest.sha256, which a report of pawl has; move it away or name "
        + "another folder");
  }

  @Test
  void aSecondRunOnOneFolderSaysSoAtOnce() throws IOException {
    try (ReportFolder first = ReportFolder.claim(out.toString())) {
      assertThat(first).isNotNull();
      refused("another pawl is writing this report");
    }
    assertThat(names(folder)).doesNotContain("out", "out.unfinished");
    assertThat(check("held.csv").status()).isZero();
  }

  @Test
  void whatAKilledRunLeftIsTakenUp() throws IOException {
    assertThat(check("held.csv").status()).isZero();
    Files.move(out, folder.resolve("out.replaced"));
    Files.createDirectory(folder.resolve("out.unfinished"));
    Files.writeString(folder.resolve("out.unfinished/report.json"), "{");
    ReportFolder.claim(out.toString()).close();
    assertThat(Manifest.flaw(out)).isEmpty();
    assertThat(names(folder)).containsExactly("broken.csv", "held.csv", "lift.st", "out", "stand.rules");
  }

  @Test
  void theFolderThatTheRunWorksInIsNotReplaced() {
    Run run = Run.of("check", "--quiet", "--rules", folder.resolve("stand.rules").toString(), "--out", ".",
        folder.resolve("held.csv").toString());
    assertThat(run.err()).contains("is where this run works, so it cannot be replaced as a whole; name a folder in it");
  }

  @Test
  void rulesThatAreWrongLeaveNoFolder() throws IOException {
    Files.writeString(folder.resolve("stand.rules"), "rule");
    assertThat(check("held.csv").status()).isEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(names(folder)).containsExactly("broken.csv", "held.csv", "lift.st", "stand.rules");
  }
}
