package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The commands that work on rule files alone: {@code explain}, {@code format} and {@code examples}. */
class RuleFileCommandsTest {

  private static final String UNTIDY = """
      ride "Test stand"
      input   a:bool -- a flag
      rule A-01 "A stays off"
       severity minor
       basis practice
         never a
      """;

  @TempDir
  Path folder;

  @Test
  void rulesAreCheckedAgainstNoTrace() throws IOException {
    Path file = write("a.rules", UNTIDY);
    Run right = Run.of("check", "--alone", file.toString());
    assertThat(right.out()).isEqualTo("1 file, 1 rule, 0 errors, 0 warnings\n");
    assertThat(right.status()).isZero();
    write("a.rules", UNTIDY.replace("never a", "never b"));
    Run wrong = Run.of("check", "--alone", "--rules", folder.toString());
    assertThat(wrong.out()).isEqualTo(file + """
        :6:10: error: `b` is not declared
            6 |    never b
              |          ^
        1 file, 1 error, 0 warnings
        """);
    assertThat(wrong.status()).isEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(wrong.err()).isEmpty();
    Run json = Run.of("check", "--alone", "--format", "json", "--rules", folder.toString());
    assertThat(json.out()).contains("\"format\" : \"pawl-diagnostics\"", "\"line\" : 6", "\"column\" : 10",
        "\"message\" : \"`b` is not declared\"");
    assertThat(json.status()).isEqualTo(ExitStatus.WRONG_INPUT);
  }

  @ParameterizedTest
  @ValueSource(strings = {"check --alone a.rules day.csv | --alone: rules are checked against no trace; leave day.csv out",
      "check --alone a.rules --out d | --out: with --alone nothing is judged; leave it out",
      "check a.rules | no trace: name at least one after the options ('pawl check --help' shows how)"})
  void aloneMeansAlone(String said) {
    String[] parts = said.split(" \\| ");
    Run run = Run.of(parts[0].split(" "));
    assertThat(run.err()).isEqualTo("pawl: " + parts[1] + "\n");
    assertThat(run.status()).isEqualTo(ExitStatus.WRONG_INPUT);
  }

  @Test
  void formatPrintsTheLayoutAndChangesNothing() throws IOException {
    Path file = write("a.rules", UNTIDY);
    Run run = Run.of("format", file.toString());
    assertThat(run.status()).isZero();
    assertThat(run.out()).contains("input a : bool").contains("-- a flag");
    assertThat(Files.readString(file)).isEqualTo(UNTIDY);
  }

  @Test
  void formatChecksAndWrites() throws IOException {
    Path file = write("a.rules", UNTIDY);
    Run before = Run.of("format", "--check", folder.toString());
    assertThat(before.out()).isEqualTo(file + "\n");
    assertThat(before.status()).isEqualTo(1);
    assertThat(Run.of("format", "--write", file.toString()).out()).isEqualTo("laid out anew: " + file + "\n");
    Run after = Run.of("format", "--check", file.toString());
    assertThat(after.out()).isEmpty();
    assertThat(after.status()).isZero();
  }

  @Test
  void formatLeavesAFileWithAnErrorAsItIs() throws IOException {
    Path file = write("a.rules", UNTIDY + "rule ???\n");
    Run run = Run.of("format", "--write", file.toString());
    assertThat(run.status()).isEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(run.err()).contains(file + ":7:");
    assertThat(Files.readString(file)).isEqualTo(UNTIDY + "rule ???\n");
  }

  @Test
  void formatKeepsThePermissionsOfAFileAndLeavesNothingBeside() throws IOException {
    Path file = write("a.rules", UNTIDY);
    Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-r-----"));
    assertThat(Run.of("format", "--write", folder.toString()).status()).isZero();
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file))).isEqualTo("rw-r-----");
    assertThat(folder).isDirectoryContaining(path -> path.equals(file))
        .isDirectoryNotContaining(path -> !path.equals(file));
  }

  @Test
  void formatWritesNeitherThroughALinkNorOverWhatLiesBeside() throws IOException {
    Path file = write("a.rules", UNTIDY);
    Path link = Files.createSymbolicLink(folder.resolve("b.rules"), file);
    Run run = Run.of("format", "--write", link.toString());
    assertThat(run.status()).isEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(run.err()).isEqualTo("pawl: " + link + ": is a link and stays as it is; name the file itself\n");
    assertThat(file).hasContent(UNTIDY);
    Path beside = write("a.rules.unfinished", "somebody's own");
    assertThat(Run.of("format", "--write", file.toString()).err())
        .isEqualTo("pawl: " + beside + ": something else of this name is in the way\n");
    assertThat(beside).hasContent("somebody's own");
    assertThat(file).hasContent(UNTIDY);
  }

  @Test
  void formatOptionsThatExcludeEachOtherAreRefused() throws IOException {
    Path file = write("a.rules", UNTIDY);
    assertThat(Run.of("format", "--write", "--check", file.toString()).err())
        .isEqualTo("pawl: --write and --check exclude each other; give one\n");
  }

  @Test
  void examplesThatAreNotAsStatedAreNamed() throws IOException {
    String example = "example \"%s\" for A-01 gives %s\n  at 0 s a = false\n  at 1 s a = true\n";
    Path right = write("right.rules", UNTIDY + example.formatted("it goes on", "broken"));
    Run good = Run.of("examples", "--rules", right.toString());
    assertThat(good.err()).isEmpty();
    assertThat(good.out()).startsWith("1 example, all as stated\n");
    assertThat(good.status()).isZero();
    Path wrong = write("wrong.rules", UNTIDY + example.formatted("it goes on", "held"));
    Run bad = Run.of("examples", wrong.toString());
    assertThat(bad.out()).contains("A-01 \"it goes on\": gives broken, not held")
        .contains("1 example, 1 not as stated");
    assertThat(bad.status()).isEqualTo(1);
  }

  @Test
  void filesWithoutExamplesProveNothing() throws IOException {
    assertThat(Run.of("examples", write("a.rules", UNTIDY).toString()).err())
        .isEqualTo("pawl: these rule files hold no example\n");
    assertThat(Run.of("examples").err())
        .isEqualTo("pawl: no rules: name a rule file or folder ('pawl examples --help' shows how)\n");
  }

  @Test
  void explainSaysARuleInWordsAndWhetherATraceExercisesIt() throws IOException {
    String rules = write("a.rules", UNTIDY).toString();
    Path trace = write("t.csv", "time_s,signal,value\n0,a,0\n1,a,0.0\n2,a,1\n");
    Run run = Run.of("explain", rules);
    assertThat(run.err()).isEmpty();
    assertThat(run.out()).startsWith("A-01  A stays off\n").contains("written     never a\n", "in words", "formula",
        "signals     a\n");
    assertThat(Run.of("explain", rules, trace.toString()).out())
        .contains(trace + ": not read: 1 problem: 1 x wrong value (first in line 3)");
    assertThat(Run.of("explain", "--lenient", rules, trace.toString()).out())
        .contains(trace + ": broken (1 missed, 1 unknown); 1 problem in reading it\n");
    Path sound = write("sound.csv", "time,signal,value\n0,a,0\n2,a,1\n");
    assertThat(Run.of("explain", "--time-unit", "s", rules, sound.toString()).out())
        .contains(sound + ": broken (1 missed)\n");
  }

  @Test
  void explainKnowsWhichRulesThereAre() throws IOException {
    String rules = write("a.rules", UNTIDY).toString();
    assertThat(Run.of("explain", "--rule", "A-01", rules).status()).isZero();
    assertThat(Run.of("explain", "--rule", "A-02", rules).err())
        .isEqualTo("pawl: --rule: there is no rule 'A-02'; did you mean 'A-01'?\n");
    assertThat(Run.of("explain").err())
        .isEqualTo("pawl: no rules: give a rule file or folder with --rules ('pawl explain --help' shows how)\n");
  }

  /** A rule file of somebody else shows no line of a file that lies elsewhere, neither by its path nor over a link. */
  @ParameterizedTest
  @ValueSource(strings = {"../secret.txt", "link.rules", "inner/../../secret.txt"})
  void aFileOutsideTheFolderIsNotUsed(String used) throws IOException {
    write("secret.txt", "the password is 1234");
    Path ride = Files.createDirectories(folder.resolve("ride/inner")).getParent();
    Files.createSymbolicLink(ride.resolve("link.rules"), folder.resolve("secret.txt"));
    Path rules = Files.writeString(ride.resolve("a.rules"), "use \"" + used + "\"\n" + UNTIDY);

    Run run = Run.of("explain", rules.toString());
    assertThat(run.status()).isEqualTo(ExitStatus.WRONG_INPUT);
    assertThat(run.err()).contains(rules + ":1:5").doesNotContain("password").contains("`" + used
        + "` cannot be read: it lies outside the folder of the rule file; allow its folder with --use-from");
    assertThat(Run.of("explain", "--use-from", folder.toString(), rules.toString()).err())
        .doesNotContain("lies outside");
  }

  @Test
  void aFileOfTheFolderOrAnAllowedOneIsUsed() throws IOException {
    Path ride = Files.createDirectories(folder.resolve("ride/inner")).getParent();
    Files.writeString(ride.resolve("inner/b.rules"), "input b : bool\n");
    write("c.rules", "input c : bool\n");
    Path rules = Files.writeString(ride.resolve("a.rules"), "use \"inner/b.rules\"\nuse \"../c.rules\"\n" + UNTIDY);

    assertThat(Run.of("explain", rules.toString()).err()).contains("`../c.rules`").doesNotContain("`inner/b.rules`");
    assertThat(Run.of("explain", "--use-from", folder.toString(), rules.toString()).status()).isZero();
    assertThat(Run.of("explain", "--use-from", rules.toString(), rules.toString()).err())
        .isEqualTo("pawl: " + rules + ": no folder; --use-from takes one\n");
  }

  @Test
  void aPipeIsNotRead() throws IOException, InterruptedException {
    Path pipe = folder.resolve("pipe.rules");
    assertThat(new ProcessBuilder("mkfifo", pipe.toString()).start().waitFor()).isZero();
    Path rules = write("a.rules", "use \"pipe.rules\"\n" + UNTIDY);

    assertThat(Run.of("explain", rules.toString()).err())
        .contains("`pipe.rules` cannot be read: no regular file; a device or pipe is not read");
    assertThat(Run.of("explain", pipe.toString()).err()).contains("no regular file");
  }

  private Path write(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text);
  }
}
