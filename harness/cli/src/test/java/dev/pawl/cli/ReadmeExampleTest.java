package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The README's first rule and trace, taken from the README, do what it says of them. */
class ReadmeExampleTest {

  @TempDir
  Path folder;

  @Test
  void theFirstRulesGiveTheVerdictsThatTheReadmeStates() throws IOException {
    String readme = Files.readString(Path.of("../../README.md"));
    Path rules = Files.writeString(folder.resolve("my.rules"), block(readme, "ride \"My ride\""));
    Path trace = Files.writeString(folder.resolve("my.csv"), block(readme, "time_ms,signal,value"));

    Run run = Run.of("check", "--rules", rules.toString(), trace.toString());

    assertThat(run.err()).as("a first rule file without warnings").isEmpty();
    assertThat(run.status()).isEqualTo(1);
    assertThat(run.out()).contains("1 broken, 0 undecided, 0 not exercised, 1 held").contains("BROKEN  MY-02")
        .contains("150 ms late").contains("my.csv:9").contains("my.csv:6");
  }

  @Test
  void theFirstRulesStandInTheCanonicalLayout() throws IOException {
    Path rules = Files.writeString(folder.resolve("my.rules"),
        block(Files.readString(Path.of("../../README.md")), "ride \"My ride\""));
    assertThat(Run.of("format", "--check", rules.toString()).status()).isZero();
  }

  /** The fenced block that begins with a text. */
  private static String block(String page, String beginning) {
    int start = page.indexOf("```\n" + beginning) + 4;
    return page.substring(start, page.indexOf("```", start));
  }
}
