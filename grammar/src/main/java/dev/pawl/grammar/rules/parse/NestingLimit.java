package dev.pawl.grammar.rules.parse;

import dev.pawl.grammar.rules.units.UnitTable;
import dev.pawl.grammar.source.Diagnostic;
import java.util.Optional;
import org.antlr.v4.runtime.CommonTokenStream;
import org.antlr.v4.runtime.Token;

/** The guard before the parser: recursion in it and in every later stage is bounded by what is let through here. */
final class NestingLimit {

  static final int DEEPEST = 100;
  static final int MOST_OPERATORS = 250;

  private final CommonTokenStream tokens;
  private final Places places;

  NestingLimit(CommonTokenStream tokens, Places places) {
    this.tokens = tokens;
    this.places = places;
  }

  /**
   * The first place at which parentheses, signs in a row, the symbols of a unit, or the operators of one declaration
   * are too many.
   */
  Optional<Diagnostic> check() {
    int depth = 0;
    int prefixes = 0;
    int operators = 0;
    for (Token token : tokens.getTokens()) {
      if (token.getChannel() != Token.DEFAULT_CHANNEL) {
        continue;
      }
      int type = token.getType();
      if (RuleReader.beginsDeclaration(tokens, token)) {
        depth = 0;
        operators = 0;
      }
      depth = type == LanguageWords.OPEN ? depth + 1 : type == LanguageWords.CLOSE ? Math.max(0, depth - 1) : depth;
      prefixes = LanguageWords.PREFIXES.contains(type) ? prefixes + 1 : 0;
      operators += LanguageWords.OPERATORS.contains(type) ? 1 : 0;
      if (depth > DEEPEST || prefixes > DEEPEST) {
        return Optional.of(Diagnostic.error(places.of(token), "this is nested more than " + DEEPEST + " deep",
            "give parts of it a name with define"));
      }
      if (type == RulesLexer.UNIT && UnitTable.isTooLong(token.getText())) {
        return Optional.of(Diagnostic.error(places.of(token), "this unit joins more than " + UnitTable.MOST_SYMBOLS
            + " symbols", "write the unit that they come to, such as m/s2"));
      }
      if (operators > MOST_OPERATORS) {
        return Optional.of(Diagnostic.error(places.of(token), "this declaration has more than " + MOST_OPERATORS
            + " operators", "give parts of it a name with define"));
      }
    }
    return Optional.empty();
  }
}
