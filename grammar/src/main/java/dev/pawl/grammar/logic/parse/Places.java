package dev.pawl.grammar.logic.parse;

import dev.pawl.grammar.source.Position;
import org.antlr.v4.runtime.ParserRuleContext;
import org.antlr.v4.runtime.Token;

/** Places of words and of constructs. */
final class Places {

  private Places() {}

  static Position of(String file, Token token) {
    int length = token.getType() == Token.EOF ? 1 : token.getStopIndex() - token.getStartIndex() + 1;
    return new Position(file, token.getLine(), token.getCharPositionInLine() + 1, Math.max(1, length));
  }

  /** The stretch of a construct, up to its end or the end of its first line. */
  static Position of(String file, ParserRuleContext context) {
    Token start = context.getStart();
    Token stop = context.getStop();
    boolean oneLine = stop != null && stop.getLine() == start.getLine() && stop.getStopIndex() >= start.getStartIndex();
    int end = oneLine ? stop.getStopIndex() : start.getStopIndex();
    return new Position(file, start.getLine(), start.getCharPositionInLine() + 1,
        Math.max(1, end - start.getStartIndex() + 1));
  }

  /** The place just after a word. */
  static Position after(String file, Token token) {
    int length = token.getStopIndex() - token.getStartIndex() + 1;
    return new Position(file, token.getLine(), token.getCharPositionInLine() + 1 + length, 1);
  }
}
