package dev.pawl.grammar.rules.parse;

import dev.pawl.grammar.source.Position;
import dev.pawl.grammar.source.Source;
import org.antlr.v4.runtime.ParserRuleContext;
import org.antlr.v4.runtime.Token;

/** Positions of tokens and of what the parser made of them, in one source. */
final class Places {

  private final Source source;

  Places(Source source) {
    this.source = source;
  }

  Position of(Token token) {
    int length = Math.max(1, token.getStopIndex() - token.getStartIndex() + 1);
    return new Position(source.name(), token.getLine(), token.getCharPositionInLine() + 1, length);
  }

  /** The place just behind a token. */
  Position behind(Token token) {
    int column = token.getCharPositionInLine() + 1 + token.getStopIndex() - token.getStartIndex() + 1;
    return new Position(source.name(), token.getLine(), column, 1);
  }

  Position of(ParserRuleContext context) {
    return between(context.getStart(), context.getStop());
  }

  /** From one token to another, as far as the first line goes. */
  Position between(Token first, Token last) {
    Token stop = last == null || last.getStopIndex() < first.getStartIndex() ? first : last;
    int lineEnd = endOfLine(first.getStopIndex(), stop.getStopIndex());
    return new Position(source.name(), first.getLine(), first.getCharPositionInLine() + 1,
        Math.max(1, lineEnd - first.getStartIndex() + 1));
  }

  /** Index of the last character that is neither blank nor behind {@code stop} on the line of {@code from}. */
  private int endOfLine(int from, int stop) {
    String text = source.text();
    int lineBreak = text.indexOf('\n', Math.min(from, text.length()));
    int end = lineBreak < 0 || lineBreak > stop ? stop : lineBreak - 1;
    while (end > from && end < text.length() && Character.isWhitespace(text.charAt(end))) {
      end--;
    }
    return end;
  }
}
