package dev.pawl.grammar.source;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class DiagnosticRendererTest {

  private static String render(String text, Position position, String hint) {
    Source source = new Source("a.rules", text);
    return new DiagnosticRenderer(List.of(source)).render(List.of(Diagnostic.error(position, "it is wrong", hint)));
  }

  @Test
  void showsLineCaretAndHint() {
    assertThat(render("one\ntwo three\n", new Position("a.rules", 2, 5, 5), "mend it")).isEqualTo("""
        a.rules:2:5: error: it is wrong
            2 | two three
              |     ^^^^^
               = mend it
        """);
  }

  @Test
  void keepsTheCaretUnderItsColumnAfterTabs() {
    assertThat(render("\tx", new Position("a.rules", 1, 2, 1), "")).endsWith("    1 | \tx\n      | \t^\n");
  }

  @Test
  void cutsLongLinesAroundTheCaret() {
    String rendered = render("a".repeat(5000) + "b" + "a".repeat(5000), new Position("a.rules", 1, 5001, 1), "");
    String[] lines = rendered.split("\n");
    assertThat(lines[1].length()).isLessThan(150);
    assertThat(lines[1].charAt(lines[2].indexOf('^'))).isEqualTo('b');
  }

  @Test
  void showsTheEndOfTheFileJustAfterTheLastCharacter() {
    assertThat(render("ab", new Position("a.rules", 1, 3, 1), "")).endsWith("    1 | ab\n      |   ^\n");
  }

  @Test
  void showsOnlyTheFileWhereThereIsNoLine() {
    Diagnostic diagnostic = Diagnostic.error(new Position("b.rules", 0, 0, 1), "cannot be read");
    assertThat(new DiagnosticRenderer(List.of()).render(diagnostic)).isEqualTo("b.rules: error: cannot be read\n");
  }

  @Test
  void neverPassesControlCharactersOn() {
    assertThat(render("a\u001b[31m", new Position("a.rules", 1, 1, 1), "")).doesNotContain("\u001b");
  }
}
