package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import dev.pawl.cli.command.Commands;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a real shell offers behind some words, once it knows pawl. */
class CompletionTest {

  @TempDir
  private Path folder;

  /** What bash offers for the last of these words. */
  private List<String> bash(String... words) throws Exception {
    return said("bash", "--norc", "-c", Run.of("completion", "bash").out() + "COMP_WORDS=(" + quoted(words)
        + "); COMP_CWORD=" + (words.length - 1) + "; _pawl; printf '%s\\n' \"${COMPREPLY[@]}\"");
  }

  /** The same of zsh, whose own parts of completion are replaced by what prints their words. */
  private List<String> zsh(String... words) throws Exception {
    assumeTrue(Stream.of("/bin/zsh", "/usr/bin/zsh").anyMatch(shell -> Files.exists(Path.of(shell))), "zsh is not here");
    return said("zsh", "-f", "-c", "compdef() { : }; _files() { print files }; compadd() { shift; print -l -- $@ }\n"
        + Run.of("completion", "zsh").out() + "words=(" + quoted(words) + "); CURRENT=" + words.length + "; _pawl");
  }

  private static String quoted(String... words) {
    return "'" + String.join("' '", words) + "'";
  }

  private List<String> said(String... command) throws Exception {
    Process shell = new ProcessBuilder(command).directory(folder.toFile()).redirectErrorStream(true).start();
    String said = new String(shell.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(shell.waitFor()).as(said).isZero();
    return said.lines().filter(line -> !line.isEmpty()).toList();
  }

  @Test
  void bashOffersCommandsOptionsAndElseFiles() throws Exception {
    assertThat(bash("pawl", "")).containsAll(Stream.of(Commands.values()).map(Commands::word).toList()).contains("help");
    assertThat(bash("pawl", "comp")).containsExactly("compare", "completion");
    assertThat(bash("pawl", "check", "--re")).containsExactly("--require-proof");
    assertThat(bash("pawl", "help", "rep")).containsExactly("replay");
    assertThat(bash("pawl", "check", "day")).as("bash itself then offers files").isEmpty();
    assertThat(said("bash", "--norc", "-c", Run.of("completion", "bash").out() + "complete -p pawl"))
        .containsExactly("complete -o default -F _pawl pawl");
  }

  @Test
  void zshOffersCommandsOptionsAndElseFiles() throws Exception {
    assertThat(zsh("pawl", "")).containsAll(Stream.of(Commands.values()).map(Commands::word).toList());
    assertThat(zsh("pawl", "check", "--")).contains("--rules", "--require-proof", "--help");
    assertThat(zsh("pawl", "help", "")).contains("replay");
    assertThat(zsh("pawl", "check", "day")).containsExactly("files");
  }
}
