package dev.pawl.grammar.logic.parse;

import dev.pawl.grammar.logic.Allowance;
import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import dev.pawl.grammar.source.Source;
import java.util.function.Consumer;
import java.util.regex.Pattern;

/**
 * Lines that are meant as remarks as a whole and are none: one from {@code (*} to a last {@code *)} whose comment ends
 * before, and one that only divides the text, such as {@code ----} or {@code === BODY ===}.
 */
final class CommentLines {

  private static final Pattern DIVIDER = Pattern.compile("\\s*(---|===|\\*\\*\\*|~~~|###).*");
  private static final Pattern LIKELY = Pattern.compile("(?m)^\\s*(\\(\\*.*\\*\\).*\\*\\)|---|===|\\*\\*\\*|~~~|###)");

  private final Source source;
  private final LanguageChoices choices;
  private final Consumer<Diagnostic> diagnostics;
  private final StringBuilder kept;
  private int depth;
  private boolean slashes;

  private CommentLines(Source source, LanguageChoices choices, Consumer<Diagnostic> diagnostics) {
    this.source = source;
    this.choices = choices;
    this.diagnostics = diagnostics;
    this.kept = new StringBuilder(source.text());
  }

  /** The source with blanks in the place of such lines; each is told. */
  static Source without(Source source, LanguageChoices choices, Consumer<Diagnostic> diagnostics) {
    return LIKELY.matcher(source.text()).find() ? new CommentLines(source, choices, diagnostics).blanked() : source;
  }

  private Source blanked() {
    String text = source.text();
    int line = 1;
    for (int start = 0; start < text.length(); line++) {
      int end = text.indexOf('\n', start);
      end = end < 0 ? text.length() : end;
      String words = text.substring(start, end).stripTrailing();
      if (depth == 0 && (DIVIDER.matcher(words).matches() || endsTooEarly(words.strip()))) {
        int indent = words.length() - words.stripLeading().length();
        diagnostics.accept(Allowance.COMMENT_LINES.found(choices, new Position(source.name(), line, indent + 1,
            words.length() - indent), "this line is no remark, though it is meant as one",
            "write // before it, or leave it out"));
        kept.replace(start, start + words.length(), " ".repeat(words.length()));
      } else {
        follow(words);
      }
      start = end + 1;
    }
    return new Source(source.name(), kept.toString());
  }

  /** Whether a line is from one sign of a comment to another, with one too many that end it. */
  private static boolean endsTooEarly(String line) {
    int open = 0;
    boolean early = false;
    for (int i = 0; line.startsWith("(*") && line.endsWith("*)") && i + 1 < line.length(); i++) {
      if (line.startsWith("(*", i)) {
        open++;
        i++;
      } else if (line.startsWith("*)", i)) {
        early |= --open < 0;
        i++;
      }
    }
    return early;
  }

  /** Follows which comments are open behind a line. */
  private void follow(String line) {
    for (int i = 0; i < line.length(); i++) {
      char c = line.charAt(i);
      if (depth == 0 && (c == '\'' || c == '"')) {
        i = behindText(line, i);
      } else if (depth == 0 && line.startsWith("//", i)) {
        return;
      } else if (line.startsWith(depth > 0 && slashes ? "*/" : "*)", i)) {
        depth = Math.max(0, depth - 1);
        i++;
      } else if (line.startsWith("(*", i) && (depth == 0 || !slashes)
          || line.startsWith("/*", i) && (depth == 0 || slashes)) {
        slashes = c == '/';
        depth++;
        i++;
      }
    }
  }

  private static int behindText(String line, int quote) {
    int i = quote + 1;
    while (i < line.length() && line.charAt(i) != line.charAt(quote)) {
      i += line.charAt(i) == '$' ? 2 : 1;
    }
    return i;
  }
}
