package dev.pawl.grammar.rules.parse;

import org.antlr.v4.runtime.BailErrorStrategy;
import org.antlr.v4.runtime.NoViableAltException;
import org.antlr.v4.runtime.Parser;
import org.antlr.v4.runtime.RecognitionException;
import org.antlr.v4.runtime.misc.IntervalSet;
import org.antlr.v4.runtime.misc.ParseCancellationException;

/**
 * Stops the parser at the first token it cannot take, and remembers everything it could have taken there: what every
 * optional part on the way would have begun with, not only what came last.
 */
final class StopAtFirst extends BailErrorStrategy {

  private final IntervalSet expected = new IntervalSet();
  private boolean remembering;
  private int index = -1;

  /** Whether to remember what could have been taken, which costs time. */
  void remember(boolean on) {
    remembering = on;
    index = -1;
    expected.clear();
  }

  @Override
  public void sync(Parser parser) {
    if (!remembering) {
      return;
    }
    if (parser.getInputStream().index() != index) {
      index = parser.getInputStream().index();
      expected.clear();
    }
    expected.addAll(parser.getExpectedTokens());
  }

  /** What could have stood at the place where the parser stopped; nothing where it had to look ahead of that place. */
  IntervalSet expected(ParseCancellationException stop) {
    RecognitionException problem = (RecognitionException) stop.getCause();
    int place = problem.getOffendingToken().getTokenIndex();
    IntervalSet all = new IntervalSet();
    boolean ahead = problem instanceof NoViableAltException choice && choice.getStartToken().getTokenIndex() != place;
    if (!ahead && problem.getExpectedTokens() != null) {
      all.addAll(problem.getExpectedTokens());
    }
    if (index == place) {
      all.addAll(expected);
    }
    return all;
  }
}
