package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class DemoCommandTest {

  @TempDir
  Path folder;

  @Test
  void theDemoMakesItsTracesAndAReport() throws IOException {
    Run run = Run.at(Path.of("../.."), Map.of("PAWL_CALLED", "opt/pawl"), new Interruption(), "demo", "--out",
        folder.toString());
    assertThat(run.err()).isEmpty();
    assertThat(run.out()).contains("\n  opt/pawl check --rules ");
    assertThat(run.status()).isZero();
    assertThat(run.out()).contains("A logic change that lost the lift's idle timer").contains("BROKEN  LIFT-01-lift")
        .contains("All 10 traces").doesNotContain("NEVER EXERCISED")
            .contains("Open " + folder.resolve("report/report.html"));
    assertThat(Files.readString(folder.resolve("report/report.html"))).contains("Rule check of Kestrel Ridge")
        .contains("RA-10").contains("no rule");
    assertThat(Files.readString(folder.resolve("report/rules.html"))).contains("<svg class=\"timing\"");
    assertThat(Files.list(folder.resolve("traces")).count()).isEqualTo(10);
  }

  @Test
  void tracesThatAreNotOfADemoStay() throws IOException {
    Path own = Files.createDirectory(folder.resolve("traces")).resolve("ordinary-day.csv");
    Files.writeString(own, "somebody's own\n");
    Run run = Run.at(Path.of("../.."), Map.of(), new Interruption(), "demo", "--out", folder.toString());
    assertThat(run.status()).isEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(run.err()).isEqualTo("pawl: " + folder.resolve("traces")
        + ": is there already, without the report of an earlier demo beside it,"
        + " and stays; name another folder with --out\n");
    assertThat(own).hasContent("somebody's own\n");
  }

  @Test
  void withoutACheckoutItSaysWhatIsMissing() {
    Run run = Run.at(folder, Map.of(), new Interruption(), "demo", "--out", folder.toString());
    assertThat(run.err()).isEqualTo("pawl: the demo ride is not at " + folder.resolve("fixtures/kestrel-ridge")
        + "; run pawl out of a whole checkout or an unpacked archive\n");
    assertThat(run.status()).isEqualTo(ExitStatus.WRONG_INPUT);
  }
}
