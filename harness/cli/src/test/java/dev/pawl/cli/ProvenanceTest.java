package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.cli.keep.Manifest;
import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a report rests on, and how it is noticed that something of it is not as it was. */
class ProvenanceTest {

  private static final Map<String, String> TIME = Map.of("SOURCE_DATE_EPOCH", "1790000000");
  private static final Path FALLOW_LOOP = Path.of("../../fixtures/fallow-loop");

  private static final String DECISIONS = """
      accept STOP-01 in "monday.csv"
        because "the contactor was on order; work order 118"
        by      "J. Smith"
        until   2026-12-31
      review
        by        "A. Reviewer"
        on        2026-09-20
        run       "0123456789ab"
        looked at "every finding, with its picture"
      """;

  @TempDir
  private Path folder;

  @BeforeEach
  void write() throws IOException {
    Stand.write(folder);
    Files.writeString(folder.resolve("site.rules"), "use \"stand.rules\"\n");
    Files.writeString(folder.resolve("site.bindings"), "signals\n  lift_run from K1\n");
    Files.createDirectory(folder.resolve("traces"));
    for (String day : List.of("monday", "tuesday")) {
      Files.writeString(folder.resolve("traces/" + day + ".csv"),
          "time_ms,signal,value\n0,estop_chain,1\n0,counter,3\n0,K1,1\n9,estop_chain,0\n900,K1,0\n");
    }
    Files.writeString(folder.resolve("site.decisions"), DECISIONS);
    Files.writeString(folder.resolve("traces/a\\b.csv"),
        "time_ms,signal,value\n0,estop_chain,1\n0,counter,3\n0,K1,1\n");
  }

  private Run run(String... words) {
    return Run.at(Path.of("../.."), TIME, new Interruption(), words);
  }

  private Path check(String out, String... more) {
    List<String> words = new ArrayList<>(List.of("check", "--quiet", "--rules", path("site.rules"), "--bindings",
        path("site.bindings"), "--decisions", path("site.decisions"), "--out", path(out), path("traces")));
    words.addAll(List.of(more));
    Run run = run(words.toArray(String[]::new));
    assertThat(run.status()).as(run.err()).isEqualTo(ExitStatus.RULE_BROKEN);
    return folder.resolve(out);
  }

  private String path(String name) {
    return folder.resolve(name).toString();
  }

  private static List<String> names(Path inside) throws IOException {
    try (Stream<Path> files = Files.list(inside)) {
      return files.map(file -> file.getFileName().toString()).sorted().toList();
    }
  }

  /** What a program of the system says, which must end well. */
  private static String said(Path in, String... words) throws Exception {
    Process process = new ProcessBuilder(words).directory(in.toFile()).redirectErrorStream(true).start();
    String said = new String(process.getInputStream().readAllBytes());
    assertThat(process.waitFor(60, TimeUnit.SECONDS) && process.exitValue() == 0).as(said).isTrue();
    return said;
  }

  @Test
  void theListsAreReadBySha256sum() throws Exception {
    Path out = check("out");
    assertThat(said(out, "sha256sum", "-c", "manifest.sha256"))
        .contains("inputs.sha256: OK", "report.html: OK", "report.json: OK", "junit.xml: OK").doesNotContain("WARNING");
    assertThat(said(out, "sha256sum", "-c", "run.sha256")).isEqualTo("manifest.sha256: OK\n");
    assertThat(said(folder, "sha256sum", "-c", path("out/inputs.sha256"))).contains("site.rules: OK", "stand.rules: OK",
        "site.bindings: OK", "monday.csv: OK", "b.csv: OK").doesNotContain("WARNING");
  }

  @Test
  void theManifestSaysBuildTimeAndEveryOption() throws IOException {
    String manifest = Files.readString(check("out", "--findings", "7").resolve(Manifest.NAME));
    assertThat(manifest).contains("# pawl 0.1.0, commit ",
        "# made 2026-09-21T14:13:20Z; with SOURCE_DATE_EPOCH=1790000000",
        "# pawl check\n", "#   --findings 7\n", "#   --lenient no (usual)\n", "#   --time-unit none (usual)\n")
        .doesNotContain("--jobs", "--out");
    assertThat(Files.readString(folder.resolve("out/run.sha256"))).contains("# Java ", "#   --jobs ",
        "#   --out " + path("out"), System.getProperty("os.name"));
  }

  @Test
  void everyProgramOptionAndTheSeedAreStated() throws IOException {
    Run run = run("replay", "--quiet", "--rules", path("stand.rules"), "--logic", path("lift.st"), "--bindings",
        path("site.bindings"), "--jitter", "2ms",
        "--seed", "42", "--out", path("out"), path("traces/monday.csv"));
    assertThat(run.status()).as(run.err()).isNotEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(Files.readString(folder.resolve("out/manifest.sha256"))).contains("# pawl replay\n",
        "#   --seed 42\n", "#   --jitter 2ms\n", "#   --scan 10ms (usual)\n", "#   --unfit-reals trap (usual)\n",
        "#   --overflow wrap (usual)\n");
  }

  @Test
  void theSameInputsGiveTheSameBytesWhereverAndOnHoweverManyThreads() throws IOException {
    Path one = check("one", "--jobs", "1");
    Path two = check("two", "--jobs", "4");
    for (String name : names(one)) {
      if (!name.equals("run.sha256")) {
        assertThat(two.resolve(name)).as(name).hasSameBinaryContentAs(one.resolve(name));
      }
    }
    assertThat(Files.readString(one.resolve("run.sha256"))).isNotEqualTo(Files.readString(two.resolve("run.sha256")));
  }

  @Test
  void aTimeThatIsNoNumberIsRefused() {
    Run run = Run.at(Path.of("../.."), Map.of("SOURCE_DATE_EPOCH", "today"), new Interruption(), "check", "--rules",
        path("stand.rules"), "--out", path("out"), path("traces/monday.csv"));
    assertThat(run.status()).isEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(run.err()).endsWith("SOURCE_DATE_EPOCH: 'today' is not a number of seconds since 1970\n");
  }

  @Test
  void aReportIsVerifiedAsItWasWritten() {
    Run run = run("verify", check("out").toString());
    assertThat(run.out()).isEqualTo("14 as stated, 0 changed, 0 missing, 0 added\n" + Manifest.WORTH + "\n");
    assertThat(run.status()).isZero();
  }

  /** Flips one bit in the middle of a file. */
  private static void flip(Path file) throws IOException {
    byte[] bytes = Files.readAllBytes(file);
    bytes[bytes.length / 2] ^= 1;
    Files.write(file, bytes);
  }

  /** One bit of each of these files, one after another: each is noticed, by its name. */
  private void eachFlippedBitIsNoticed(Path out, List<Path> files) throws IOException {
    for (Path file : files) {
      byte[] before = Files.readAllBytes(file);
      flip(file);
      Run run = run("verify", out.toString());
      assertThat(run.status()).as(file + ": " + run.out()).isEqualTo(ExitStatus.RULE_BROKEN);
      assertThat(run.out()).contains("changed  " + file + "\n", " 1 changed, 0 missing, 0 added\n");
      Files.write(file, before);
    }
    assertThat(run("verify", out.toString()).status()).isZero();
  }

  @Test
  void oneBitOfAnyInputOfACheckIsNoticed() throws IOException {
    Path out = check("out");
    eachFlippedBitIsNoticed(out, Stream.of("site.rules", "stand.rules", "site.bindings", "site.decisions",
        "traces/monday.csv",
        "traces/a\\b.csv", "out/report.html", "out/rules.html", "out/report.json", "out/junit.xml", "out/report.sarif")
        .map(folder::resolve).toList());
  }

  @Test
  void oneBitOfRideScenarioAndLogicIsNoticed() throws IOException {
    for (String name : List.of("fallow-loop.rules", "fallow-loop.ride", "logic/fallow-loop.st",
        "scenarios/refusals.scenario", "scenarios/start-up.part")) {
      Files.createDirectories(folder.resolve(name).getParent());
      Files.copy(FALLOW_LOOP.resolve(name), folder.resolve(name), StandardCopyOption.REPLACE_EXISTING);
    }
    Path rules = folder.resolve("fallow-loop.rules");
    Files.writeString(rules, Files.readString(rules).replace("../../rules/flags.rules", "flags.rules"));
    Files.copy(Path.of("../../rules/flags.rules"), folder.resolve("flags.rules"));
    Run run = run("replay", "--quiet", "--rules", path("fallow-loop.rules"), "--logic", path("logic/fallow-loop.st"),
        "--ride", path("fallow-loop.ride"), "--out", path("out"));
    assertThat(run.status()).as(run.err()).isNotEqualTo(ExitStatus.WRONG_INPUT);
    eachFlippedBitIsNoticed(folder.resolve("out"), Stream.of("fallow-loop.rules", "fallow-loop.ride",
        "logic/fallow-loop.st", "scenarios/refusals.scenario", "scenarios/start-up.part").map(folder::resolve)
        .toList());
    Files.writeString(folder.resolve("scenarios/another.scenario"), "scenario \"Another\"\n");
    assertThat(run("verify", folder.resolve("out").toString()).out())
        .startsWith("added    " + path("scenarios/another.scenario") + "\n");
  }

  @Test
  void whatIsGoneAndWhatCameIsNamed() throws IOException {
    Path out = check("out");
    Files.delete(folder.resolve("traces/monday.csv"));
    Files.delete(out.resolve("junit.xml"));
    Files.writeString(folder.resolve("traces/wednesday.csv"), "time_ms,signal,value\n");
    Files.writeString(folder.resolve("traces/notes.txt"), "no trace");
    Files.writeString(out.resolve("remarks.txt"), "mine");
    Run run = run("verify", out.toString());
    assertThat(run.status()).isEqualTo(ExitStatus.RULE_BROKEN);
    assertThat(run.out()).isEqualTo("missing  " + out.resolve("junit.xml") + "\n"
        + "missing  " + path("traces/monday.csv") + "\n"
        + "added    " + out.resolve("remarks.txt") + "\n"
        + "added    " + path("traces/wednesday.csv") + "\n"
        + "12 as stated, 0 changed, 2 missing, 2 added\n" + Manifest.WORTH + "\n");
    Run report = run("verify", "--report-only", out.toString());
    assertThat(report.out()).contains("6 as stated").doesNotContain("monday.csv", "wednesday.csv");
  }

  @Test
  void inputsAreLookedForWhereTheCommandRan() throws Exception {
    Path out = check("out");
    String list = Files.readString(out.resolve("inputs.sha256")).replace(folder + File.separator, "");
    Files.writeString(out.resolve("inputs.sha256"), list);
    Run run = run("verify", "--from", folder.toString(), out.toString());
    assertThat(run.out()).startsWith("changed  " + out.resolve("inputs.sha256")
        + "\n13 as stated, 1 changed, 0 missing");
    assertThat(said(folder, "sha256sum", "-c", "out/inputs.sha256")).contains("site.rules: OK");
  }

  /** A number of the report is edited, and the manifest is made to fit: only what was signed shows it. */
  private void editAndCoverUp(Path out) throws Exception {
    Path json = out.resolve("report.json");
    Files.writeString(json, Files.readString(json).replace("\"missed\" : 1", "\"missed\" : 0"));
    String sum = said(out, "sha256sum", "report.json").substring(0, 64);
    Path manifest = out.resolve("manifest.sha256");
    Files.writeString(manifest, Files.readString(manifest).replaceAll("[0-9a-f]{64}  report.json", sum
        + "  report.json"));
    Files.writeString(out.resolve("run.sha256"), said(out, "sha256sum", "manifest.sha256"));
  }

  @Test
  void anEditedNumberUnderAManifestThatWasMadeToFitIsFoundByTheHashThatWasKept() throws Exception {
    Path out = check("out");
    String kept = said(out, "sha256sum", "manifest.sha256").substring(0, 64);
    assertThat(run("verify", "--manifest", kept, out.toString()).status()).isZero();
    editAndCoverUp(out);
    assertThat(run("verify", out.toString()).status()).as("unsigned, intent is not found").isZero();
    Run run = run("verify", "--manifest", kept, out.toString());
    assertThat(run.status()).isEqualTo(ExitStatus.RULE_BROKEN);
    assertThat(run.out()).startsWith("changed  " + out.resolve("manifest.sha256")
        + ": it has not the SHA-256 that was kept\n").doesNotContain("Unsigned");
  }

  @Test
  void anEditedNumberUnderAManifestThatWasMadeToFitIsFoundByItsSignature() throws Exception {
    Assumptions.assumeTrue(Files.isExecutable(Path.of("/usr/bin/openssl")), "openssl signs here");
    Path out = check("out");
    said(folder, "openssl", "genrsa", "-out", "key.pem", "2048");
    said(folder, "openssl", "rsa", "-in", "key.pem", "-pubout", "-out", "public.pem");
    said(out, "openssl", "dgst", "-sha256", "-sign", path("key.pem"), "-out", "manifest.sha256.sig", "manifest.sha256");
    String[] check = {"openssl", "dgst", "-sha256", "-verify", path("public.pem"), "-signature", "manifest.sha256.sig",
        "manifest.sha256"};
    assertThat(said(out, check)).contains("Verified OK");
    Run run = run("verify", out.toString());
    assertThat(run.status()).isZero();
    assertThat(run.out()).startsWith("beside   " + out.resolve("manifest.sha256.sig") + "\n");
    editAndCoverUp(out);
    Process wrong = new ProcessBuilder(check).directory(out.toFile()).redirectErrorStream(true).start();
    assertThat(new String(wrong.getInputStream().readAllBytes())).contains("Verification failure");
    Run again = run("check", "--quiet", "--rules", path("site.rules"), "--out", out.toString(), path("traces"));
    assertThat(again.err()).as("a signed report is not replaced").contains("holds manifest.sha256.sig");
  }

  @Test
  void whatIsNoReportIsRefused() throws IOException {
    Run none = run("verify");
    assertThat(none.status()).isEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(none.err()).isEqualTo(
        "pawl: no report: name the folder of a report ('pawl verify --help' shows how)\n");
    Run other = run("verify", path("traces"));
    assertThat(other.status()).isEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(other.err()).isEqualTo("pawl: " + path("traces")
        + ": there is no manifest.sha256 in it, which a report of pawl has\n");
    Path out = check("out");
    Run hash = run("verify", "--manifest", "abc", out.toString());
    assertThat(hash.err()).isEqualTo("pawl: --manifest: 'abc' is no SHA-256, which is 64 hexadecimal digits\n");
    Files.writeString(out.resolve("manifest.sha256"), "");
    assertThat(run("verify", out.toString()).err()).isEqualTo("pawl: " + out.resolve("manifest.sha256")
        + ": states no file, so it is no whole manifest\n");
  }
}
