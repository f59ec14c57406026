package dev.pawl.grammar.rules.parse;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.antlr.v4.runtime.CommonTokenStream;
import org.antlr.v4.runtime.RecognitionException;
import org.antlr.v4.runtime.Token;
import org.antlr.v4.runtime.misc.IntervalSet;

/** Says in the words of the language what the parser stumbled over, what it expected, and what was probably meant. */
final class SyntaxMessages {

  private static final int MOST_EXPECTATIONS = 8;

  private static final Map<String, String> FOREIGN = Map.ofEntries(
      Map.entry("==", "equality is written ="), Map.entry("<>", "inequality is written !="),
          Map.entry("&&", "write and"),
      Map.entry("||", "write or"), Map.entry("//", "a comment starts with --"),
          Map.entry("/*", "a comment starts with --"),
      Map.entry(":=", "write ="), Map.entry("=>", "at least is written >=; a consequence is written implies"),
      Map.entry("->", "write implies"), Map.entry("!", "write not"), Map.entry("&", "write and"),
          Map.entry("|", "write or"),
      Map.entry("#", "a comment starts with --"), Map.entry(";", "declarations need no sign between them"),
      Map.entry("'", "texts stand between double quotes"), Map.entry("\u2264", "write <="),
          Map.entry("\u2265", "write >="),
      Map.entry("\u2260", "write !="), Map.entry("\u201c", "texts stand between plain double quotes"),
      Map.entry("\u201d", "texts stand between plain double quotes"),
      Map.entry("\u00b0", "write deg, or degC for a temperature"));

  /** What to say of words that stand behind the place where they belong. */
  private static final Map<String, String> MISPLACED = Map.of(
      "after", "the order is: after 1 s within 3 s", "while", "it belongs before must", "unless",
          "it belongs before must",
      "basis", "it belongs before when, always or never", "severity", "it belongs before when, always or never",
      "tolerance", "it belongs before when, always or never", "tried", "it comes last, behind what the rule requires",
          "stay", "a comma stands before it: , and stay so ...",
      "must", "must follows when ...; always and never stand alone");

  private final CommonTokenStream tokens;
  private final Places places;

  SyntaxMessages(CommonTokenStream tokens, Places places) {
    this.tokens = tokens;
    this.places = places;
  }

  /** The diagnostic for a place at which the parser could not go on, and what it could have gone on with. */
  Diagnostic of(RecognitionException problem, IntervalSet expected) {
    Token found = problem.getOffendingToken();
    Diagnostic unreadable = unreadable(found);
    if (unreadable != null) {
      return unreadable;
    }
    return unexpected(found, expected);
  }

  /** The diagnostic for a token with which no declaration can begin. */
  Diagnostic notADeclaration(Token found) {
    Diagnostic unreadable = unreadable(found);
    if (unreadable != null) {
      return unreadable;
    }
    String hint = found.getType() == RulesParser.NAME
        ? NearName.hint(found.getText(), LanguageWords.words(LanguageWords.STARTERS)).orElse(DECLARATIONS)
            : DECLARATIONS;
    return Diagnostic.error(places.of(found), "a declaration was expected, but found " + describe(found), hint);
  }

  private static final String DECLARATIONS =
      "declarations begin with language, ride, resolution, use, type, input, output, internal, needs, zone, group, "
          + "constant, define, rule,"
          + " for each or example";

  private Diagnostic unreadable(Token token) {
    String text = token.getText();
    return switch (token.getType()) {
      case RulesParser.UNCLOSED_STRING -> Diagnostic.error(places.of(token),
          "the text that begins here has no closing quote", "a text ends with \" on the same line");
      case RulesParser.FOREIGN_SIGN, RulesParser.UNREADABLE -> Diagnostic.error(places.of(token),
          "`" + text + "` is not part of the language", FOREIGN.getOrDefault(text, ""));
      default -> null;
    };
  }

  private Diagnostic unexpected(Token found, IntervalSet expected) {
    Position position = found.getType() == Token.EOF ? endOfFile(found) : places.of(found);
    Set<Integer> types = new TreeSet<>(expected.toSet());
    boolean nameOnly = types.contains(RulesParser.NAME) && !types.contains(RulesParser.NUMBER)
        && !types.contains(LanguageWords.PERCENT);
    if (nameOnly && LanguageWords.isWord(found)) {
      return Diagnostic.error(position, "`" + found.getText() + "` is a word of the language and cannot be a name here",
          "choose another name, such as " + found.getText() + "_1");
    }
    String hint = hint(found, types);
    String message = types.isEmpty() ? describe(found) + " does not fit here"
        : "expected " + expectations(types) + ", but found " + describe(found);
    return Diagnostic.error(position, message, hint);
  }

  private String hint(Token found, Set<Integer> expected) {
    if (found.getType() == RulesParser.NAME) {
      return NearName.hint(found.getText(), LanguageWords.words(expected)).orElse("");
    }
    boolean couldEnd = expected.contains(Token.EOF);
    boolean stay = found.getType() == LanguageWords.AND && tokens.LA(2) == LanguageWords.STAY;
    String key = stay ? "stay" : found.getText();
    return couldEnd ? MISPLACED.getOrDefault(key, "") : "";
  }

  private Position endOfFile(Token end) {
    int index = end.getTokenIndex() - 1;
    while (index >= 0 && tokens.get(index).getChannel() != Token.DEFAULT_CHANNEL) {
      index--;
    }
    return index < 0 ? places.of(end) : places.behind(tokens.get(index));
  }

  private static String describe(Token token) {
    return switch (token.getType()) {
      case Token.EOF -> "the end of the file";
      case RulesParser.STRING -> "the text " + shortened(token.getText());
      case RulesParser.NUMBER -> "the number " + shortened(token.getText());
      default -> "`" + shortened(token.getText()) + "`";
    };
  }

  private static String shortened(String text) {
    return text.length() <= 40 ? text : text.substring(0, 37) + "...";
  }

  private static String expectations(Set<Integer> types) {
    if (types.contains(LanguageWords.BRACE) && types.contains(RulesParser.STRING)) {
      return "the rule's title in quotes";
    }
    List<String> words = new ArrayList<>();
    boolean operators = types.contains(LanguageWords.type("and")) && types.contains(LanguageWords.type("or"));
    if (types.contains(RulesParser.NAME)) {
      words.add(nameLike(types));
      types.removeAll(LanguageWords.SOFT);
      types.remove(RulesParser.NAME);
    }
    if (operators) {
      types.removeAll(LanguageWords.OPERATORS);
    }
    types.remove(RulesParser.UNIT);
    types.remove(RulesParser.NUMBER);
    if (types.remove(RulesParser.STRING)) {
      words.add("a text in quotes");
    }
    boolean end = types.remove(Token.EOF);
    boolean stay = end && types.remove(LanguageWords.COMMA);
    if (end) {
      types.removeAll(LanguageWords.PROOFS);
    }
    types.forEach(type -> words.add("`" + LanguageWords.text(type) + "`"));
    if (stay) {
      words.add("`, and stay so`");
    }
    if (operators) {
      words.add("an operator");
    }
    if (end) {
      words.add("the next declaration");
    }
    return list(words);
  }

  /** What a name is expected as; removes from {@code types} what goes without saying beside it. */
  private static String nameLike(Set<Integer> types) {
    if (types.contains(LanguageWords.NOT) && types.contains(LanguageWords.OPEN)) {
      types.removeAll(LanguageWords.PRIMARY_STARTERS);
      return "a condition or a value";
    }
    if (types.contains(RulesParser.NUMBER) && types.contains(LanguageWords.OPEN)) {
      types.removeAll(LanguageWords.PRIMARY_STARTERS);
      return "a number with its unit";
    }
    if (types.remove(LanguageWords.BRACE)) {
      return "an identifier such as LIFT-01";
    }
    if (types.contains(LanguageWords.PERCENT)) {
      types.removeAll(Set.of(LanguageWords.PERCENT, LanguageWords.type("in"), LanguageWords.type("min")));
      boolean type = types.removeAll(Set.of(LanguageWords.BOOL, LanguageWords.type("number"),
          LanguageWords.type("one")));
      return type ? "a type (bool, number, a unit, or one of (...))" : "a unit";
    }
    return "a name";
  }

  private static String list(List<String> words) {
    if (words.size() > MOST_EXPECTATIONS) {
      return String.join(", ", words.subList(0, MOST_EXPECTATIONS)) + " and others";
    }
    int last = words.size() - 1;
    return last < 1 ? String.join("", words) : String.join(", ", words.subList(0, last)) + " or " + words.get(last);
  }
}
