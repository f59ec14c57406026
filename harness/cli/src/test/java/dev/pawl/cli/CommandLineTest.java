package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.cli.command.Commands;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What the command line gets wrong, with the exact message, and what every command must be able to do. */
class CommandLineTest {

  @ParameterizedTest
  @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
      chek | pawl: unknown command 'chek'; did you mean 'check'? ('pawl --help' lists the commands)
      cehck | pawl: unknown command 'cehck'; did you mean 'check'? ('pawl --help' lists the commands)
      compar | pawl: unknown command 'compar'; did you mean 'compare'? ('pawl --help' lists the commands)
      frobnicate | pawl: unknown command 'frobnicate' ('pawl --help' lists the commands)
      --rules x.rules | pawl: unknown option '--rules' ('pawl --help' lists the commands)
      help compar | pawl: unknown command 'compar'; did you mean 'compare'? ('pawl --help' lists the commands)
      compare | pawl: two reports are compared, and none is named; name BEFORE.json and AFTER.json ('pawl compare --help' shows how)
      compare a.json | pawl: two reports are compared, and 1 is named; name BEFORE.json and AFTER.json ('pawl compare --help' shows how)
      compare --loud a b | pawl: unknown option: '--loud' ('pawl compare --help' shows how)
      check --rule x.rules a.csv | pawl: unknown option: '--rule'; did you mean '--rules'? ('pawl check --help' shows how)
      check --time-units=ms x.rules a.csv | pawl: unknown option: '--time-units'; did you mean '--time-unit'? ('pawl check --help' shows how)
      compare a.json b.json --out d | pawl: a.json: no such file or folder
      compare a.json b.json -q --format json | pawl: --quiet: two reports are compared as they are; this belongs to a comparison of logic, with --logic
      compare a b c | pawl: two reports are compared, and 3 are named; name BEFORE.json and AFTER.json ('pawl compare --help' shows how)
      serve | pawl: no rules: give a rule file or folder with --rules ('pawl serve --help' shows how)
      watch x.rules day.csv | pawl: day.csv: pawl watch takes rule files (*.rules) and no traces; a folder of rules goes with --rules
      record x.rules | pawl: no file: say with --keep where to record to
      record x.rules --out d | pawl: unknown option: '--out' ('pawl record --help' shows how)
      replay x.rules day.csv --broker embedded | pawl: --broker: say with --keep FILE where the recording goes; it is what is judged
      completion | pawl: name the shell, bash or zsh ('pawl completion --help' shows how)
      support | pawl: name the one file to be made, such as support.zip ('pawl support --help' shows how)
      completion fish | pawl: name the shell, bash or zsh ('pawl completion --help' shows how)
      compare gone.json gone.json | pawl: gone.json: no such file or folder
      """)
  void aWrongCommandGetsOneExactLineAndStatusTwo(String words, String message) {
    Run run = Run.of(words.split(" "));
    assertThat(run.err()).isEqualTo(message + "\n");
    assertThat(run.out()).isEmpty();
    assertThat(run.status()).isEqualTo(ExitStatus.WRONG_INPUT);
  }

  @Test
  void noCommandShowsTheOverviewAndIsAnError() {
    Run run = Run.of();
    assertThat(run.err()).startsWith("pawl: rule by rule").contains("pawl check --rules PATH... TRACE...");
    assertThat(run.status()).isEqualTo(ExitStatus.WRONG_INPUT);
  }

  @Test
  void helpAndVersionGoToStandardOutput() {
    assertThat(Run.of("--version").out()).matches("""
        pawl \\d+\\.\\d+\\.\\d+
        build      (commit [0-9a-f]{40}( with changes that are in no commit)?|built where its commit was not known)
        language   version 1 of the rule language
        reports    report.json version \\d+, reads versions 1 to \\d+; comparisons version \\d+
        """);
    assertThat(Run.of("--help").out()).isEqualTo(Overview.TEXT);
    for (Commands command : Commands.values()) {
      String name = command.word();
      Run run = Run.of("help", name);
      assertThat(run.out()).startsWith("Usage: pawl " + name).doesNotContainPattern("(--?[a-z-]+), \\1\\b");
      assertThat(run.status()).isEqualTo(ExitStatus.NOTHING_BROKEN);
    }
  }

  /** The parser of the command line warns, on the error output of the process, of a help that it cannot format. */
  @Test
  void aHelpWithAPercentSignIsShownWithoutAWarning(@TempDir Path folder) throws Exception {
    try (PawlProcess help = PawlProcess.start(folder, "help", "replay")) {
      assertThat(help.end()).isEqualTo(ExitStatus.NOTHING_BROKEN);
      assertThat(help.out()).contains("%QW4");
      assertThat(help.err()).isEmpty();
    }
  }

  @Test
  void theOverviewNamesEveryCommand() {
    for (Commands command : Commands.values()) {
      assertThat(Overview.TEXT).contains("\n  pawl " + command.word() + " ");
    }
  }
}
