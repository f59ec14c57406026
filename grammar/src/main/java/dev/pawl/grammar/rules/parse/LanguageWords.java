package dev.pawl.grammar.rules.parse;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.antlr.v4.runtime.Token;
import org.antlr.v4.runtime.Vocabulary;

/** The words and signs of the language by token type, in the groups that messages and recovery speak of. */
final class LanguageWords {

  private static final Map<String, Integer> TYPES = typesByText();

  /** Words that begin a declaration. */
  static final Set<Integer> STARTERS = types("language", "ride", "resolution", "use", "constant", "define", "type",
      "input", "output", "internal", "needs", "zone", "group", "rule", "requirement", "example", "for each");

  /** Starters that also occur inside declarations: for recovery they count only in the first column. */
  static final Set<Integer> INNER_STARTERS = types("resolution", "zone", "group", "rule");

  /** Starters behind which the declared names stand. */
  static final Set<Integer> NAMING = types("input", "output", "internal", "define", "constant", "type", "zone",
      "group");

  static final Set<Integer> OPERATORS = types("*", "/", "+", "-", "=", "!=", "<", "<=", ">", ">=", "for", "in", "since",
      "and", "or", "implies");

  /**
   * Words that begin what shows that a rule could have been broken: it goes without saying that it may follow a rule.
   */
  static final Set<Integer> PROOFS = types("stay", "tried", "untried");

  static final Set<Integer> PREFIXES = types("not", "-");

  /** Words that may be names where their place allows it. */
  static final Set<Integer> SOFT = types("enter", "leave", "length", "holds", "starts", "with", "then", "practice",
      "so", "last", "one", "of", "gives", "margin", "signal", "signals", "zones", "by", "trigger", "given",
      "source", "hazard", "level", "language");

  static final Set<Integer> PRIMARY_STARTERS = types("(", "not", "-", "true", "false", "start", "end", "count", "min",
      "max", "mean", "time");

  static final int OPEN = type("(");
  static final int CLOSE = type(")");
  static final int COMMA = type(",");
  static final int STAY = type("stay");
  static final int BRACE = type("{");
  static final int RULE = type("rule");
  static final int NOT = type("not");
  static final int AND = type("and");
  static final int PERCENT = type("%");
  static final int BOOL = type("bool");

  private LanguageWords() {}

  private static Map<String, Integer> typesByText() {
    Map<String, Integer> types = new HashMap<>();
    Vocabulary vocabulary = RulesParser.VOCABULARY;
    for (int type = 1; type <= vocabulary.getMaxTokenType(); type++) {
      String literal = vocabulary.getLiteralName(type);
      if (literal != null) {
        types.put(literal.substring(1, literal.length() - 1), type);
      }
    }
    types.put("for each", RulesParser.FOR_EACH);
    return types;
  }

  static int type(String text) {
    return TYPES.get(text);
  }

  private static Set<Integer> types(String... texts) {
    return Stream.of(texts).map(LanguageWords::type).collect(Collectors.toUnmodifiableSet());
  }

  /** The fixed text of a token type, or the empty string where it has none. */
  static String text(int type) {
    if (type == RulesParser.FOR_EACH) {
      return "for each";
    }
    String literal = type > 0 ? RulesParser.VOCABULARY.getLiteralName(type) : null;
    return literal == null ? "" : literal.substring(1, literal.length() - 1);
  }

  static boolean isWord(Token token) {
    String text = text(token.getType());
    return !text.isEmpty() && Character.isLetter(text.charAt(0));
  }

  /** The fixed texts of the given types that are words, not signs. */
  static List<String> words(Iterable<Integer> types) {
    List<String> words = new ArrayList<>();
    for (int type : types) {
      String text = text(type);
      if (!text.isEmpty() && Character.isLetter(text.charAt(0))) {
        words.add(text);
      }
    }
    return words;
  }
}
