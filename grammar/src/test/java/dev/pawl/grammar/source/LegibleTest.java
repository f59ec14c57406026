package dev.pawl.grammar.source;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** What of a stranger's text is shown as it is. */
class LegibleTest {

  @Test
  void lettersOfAllScriptsStay() {
    String text = "K\u00E4hlerbr\u00FCcke \u5217\u8ECA \uD83C\uDFA2 \u0633\u0644\u0627\u0645";
    assertThat(Legible.of(text)).isEqualTo(text);
  }

  @Test
  void whatTurnsLettersRoundIsReplaced() {
    assertThat(Legible.of("held\u202Edeh\u2066x\u2069\u200F\u061C"))
        .isEqualTo("held\uFFFDdeh\uFFFDx\uFFFD\uFFFD\uFFFD");
  }

  @Test
  void whatShowsNothingIsReplaced() {
    assertThat(Legible.of("a\uFEFFb\u200Bc\u00ADd\u2060e")).isEqualTo("a\uFFFDb\uFFFDc\uFFFDd\uFFFDe");
    assertThat(Legible.of("\u0645\u06CC\u200C\u062E")).as("a letter that does not join")
        .isEqualTo("\u0645\u06CC\u200C\u062E");
  }

  @Test
  void whatSteersATerminalIsReplaced() {
    assertThat(Legible.of("a\u001B[2Jb\u0085c\u2028d")).isEqualTo("a\uFFFD[2Jb\uFFFDc\uFFFDd");
  }

  @Test
  void halfOfAPairIsReplaced() {
    assertThat(Legible.of("a\uD83Cb")).isEqualTo("a\uFFFDb");
  }
}
