package dev.pawl.grammar.rules.parse;

import dev.pawl.grammar.source.Position;
import dev.pawl.grammar.source.Source;
import org.antlr.v4.runtime.ParserRuleContext;
import org.antlr.v4.runtime.Token;

/**
 * Positions of tokens and of what the parser made of them, in one source. ANTLR counts code points; positions count
 * UTF-16 units, which differ behind the rare character beyond the first plane.
 */
final class Places {

  private final Source source;

  /** UTF-16 index of each code point, and of the end; null where both counts are the same. */
  private final int[] offsets;

  Places(Source source) {
    this.source = source;
    String text = source.text();
    int points = text.codePointCount(0, text.length());
    this.offsets = points == text.length() ? null : offsets(text, points);
  }

  private static int[] offsets(String text, int points) {
    int[] offsets = new int[points + 1];
    int offset = 0;
    for (int point = 0; point < points; point++) {
      offsets[point] = offset;
      offset += Character.charCount(text.codePointAt(offset));
    }
    offsets[points] = offset;
    return offsets;
  }

  Position of(Token token) {
    return at(token, start(token), Math.max(1, end(token) - start(token)));
  }

  /** The place just behind a token. */
  Position behind(Token token) {
    return at(token, end(token), 1);
  }

  Position of(ParserRuleContext context) {
    return between(context.getStart(), context.getStop());
  }

  /** From one token to another, as far as the first line goes. */
  Position between(Token first, Token last) {
    Token stop = last == null || last.getStopIndex() < first.getStartIndex() ? first : last;
    int start = start(first);
    return at(first, start, Math.max(1, endOfLine(end(first), end(stop)) - start));
  }

  /** UTF-16 index of a token's first character. */
  private int start(Token token) {
    return offset(token.getStartIndex());
  }

  /** UTF-16 index just behind a token. */
  private int end(Token token) {
    return offset(Math.max(token.getStartIndex(), token.getStopIndex() + 1));
  }

  private int offset(int point) {
    return offsets == null ? point : offsets[Math.min(point, offsets.length - 1)];
  }

  private Position at(Token token, int index, int length) {
    int column = offsets == null ? token.getCharPositionInLine() + index - start(token)
        : index - source.text().lastIndexOf('\n', start(token) - 1) - 1;
    return new Position(source.name(), token.getLine(), column + 1, length);
  }

  /** The end of what stands before {@code stop} on the line that goes on at {@code from}, without blanks. */
  private int endOfLine(int from, int stop) {
    String text = source.text();
    int lineBreak = text.indexOf('\n', from);
    int end = lineBreak < 0 || lineBreak > stop ? stop : lineBreak;
    while (end > from && Character.isWhitespace(text.charAt(end - 1))) {
      end--;
    }
    return end;
  }
}
