package dev.pawl.grammar.logic.parse;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.NearName;
import java.util.ArrayList;
import java.util.List;
import org.antlr.v4.runtime.Token;

/**
 * What is checked of the words before they are parsed: that each belongs to the language, and that nothing nests so
 * deeply that parsing it would exhaust the stack.
 */
final class WordChecks {

  /** Levels of brackets, of statements within statements, and of signs or NOTs in a row. */
  static final int DEEPEST = 100;

  /** Operators, indices and members at one level of one expression. */
  static final int LONGEST_EXPRESSION = 400;

  /** Characters of a name. */
  static final int LONGEST_NAME = 128;

  private static final int MOST_STRAYS = 20;

  private static final List<String> ENDS = List.of("END_IF", "END_CASE", "END_FOR", "END_WHILE", "END_REPEAT",
      "END_VAR", "END_TYPE", "END_STRUCT", "END_PROGRAM", "END_FUNCTION", "END_FUNCTION_BLOCK");

  private final String file;
  private final List<Diagnostic> problems = new ArrayList<>();
  private final int[] operators = new int[DEEPEST + 1];
  private int brackets;
  private int blocks;
  private int signs;
  private int strays;

  private WordChecks(String file) {
    this.file = file;
  }

  static List<Diagnostic> check(String file, List<Token> tokens) {
    WordChecks checks = new WordChecks(file);
    for (Token token : tokens) {
      checks.stray(token);
      checks.misspeltEnd(token);
      checks.misspelt(token);
      checks.length(token);
      if (!checks.nesting(token)) {
        break;
      }
    }
    return checks.problems;
  }

  private void length(Token token) {
    boolean word = token.getType() == StructuredTextLexer.IDENTIFIER
        || token.getType() == StructuredTextLexer.TYPED_NAME;
    if (word && token.getText().length() > LONGEST_NAME) {
      problems.add(Diagnostic.error(Places.of(file, token), "the name that starts here has more than " + LONGEST_NAME
          + " characters"));
    }
  }

  /** ENDIF and the like: left alone, it would pass for a name, and the error would show at the end of the file. */
  private void misspeltEnd(Token token) {
    if (token.getType() == StructuredTextLexer.IDENTIFIER && token.getText().regionMatches(true, 0, "END", 0, 3)) {
      String near = NearName.of(token.getText(), ENDS).orElse("");
      if (near.replace("_", "").equalsIgnoreCase(token.getText().replace("_", ""))) {
        problems.add(Diagnostic.error(Places.of(file, token), token.getText() + " is no word of the language",
            "did you mean " + near + "?"));
      }
    }
  }

  private void misspelt(Token token) {
    if (token.getType() == StructuredTextLexer.IDENTIFIER && token.getText().equalsIgnoreCase("ELSEIF")) {
      problems.add(Diagnostic.error(Places.of(file, token), "ELSEIF is no word of the language", "write ELSIF"));
    }
  }

  private void stray(Token token) {
    if (token.getType() != StructuredTextLexer.STRAY || ++strays > MOST_STRAYS) {
      return;
    }
    String text = token.getText();
    String message = switch (text) {
      case "'" -> "the string that starts here is not closed on its line";
      case "\"" -> "the wide string that starts here is not closed on its line";
      case "{" -> "the pragma that starts here is not closed";
      default -> (quote(text) ? "a typographic quote" : dash(text) ? "a dash that is no minus sign" : "the character "
          + shown(text)) + " does not belong to the language";
    };
    String hint = switch (text) {
      case "'" -> "close it with '; a quote inside a string is written $'";
      case "\"" -> "close it with \"; a quote inside a wide string is written $\"";
      case "{" -> "close it with }";
      case "!" -> "write NOT, and <> where two values must differ";
      case "|" -> "write OR";
      case "~" -> "write NOT";
      case "?" -> "write SEL(condition, value if FALSE, value if TRUE), or IF";
      case "#" -> "typed literals are written without spaces, such as INT#5, T#2s or 16#FF";
      default -> quote(text) ? "write ' instead" : dash(text) ? "write - instead"
          : "take it out, or make a remark of it";
    };
    problems.add(Diagnostic.error(Places.of(file, token), message, hint));
  }

  private static boolean quote(String text) {
    return "\u2018\u2019\u201A\u201C\u201D\u201E\u00AB\u00BB\u00B4".contains(text);
  }

  private static boolean dash(String text) {
    return text.charAt(0) > 127 && (Character.getType(text.codePointAt(0)) == Character.DASH_PUNCTUATION
        || text.equals("\u2212"));
  }

  private static String shown(String text) {
    int code = text.codePointAt(0);
    return code > 32 && code < 127 ? "'" + text + "'" : String.format("U+%04X", code);
  }

  /** Follows the nesting; false once it is too deep. */
  private boolean nesting(Token token) {
    switch (token.getType()) {
      case StructuredTextLexer.LEFT_PAREN, StructuredTextLexer.LEFT_BRACKET -> open();
      case StructuredTextLexer.RIGHT_PAREN, StructuredTextLexer.RIGHT_BRACKET -> brackets = Math.max(0, brackets - 1);
      case StructuredTextLexer.SEMICOLON, StructuredTextLexer.THEN, StructuredTextLexer.DO -> endExpression();
      case StructuredTextLexer.COMMA, StructuredTextLexer.COLON, StructuredTextLexer.OUTPUT_TO ->
          operators[brackets] = 0;
      case StructuredTextLexer.IF, StructuredTextLexer.CASE, StructuredTextLexer.FOR, StructuredTextLexer.WHILE,
          StructuredTextLexer.REPEAT, StructuredTextLexer.STRUCT -> blocks++;
      case StructuredTextLexer.END_IF, StructuredTextLexer.END_CASE, StructuredTextLexer.END_FOR,
          StructuredTextLexer.END_WHILE, StructuredTextLexer.END_REPEAT, StructuredTextLexer.END_STRUCT ->
          blocks = Math.max(0, blocks - 1);
      case StructuredTextLexer.POWER, StructuredTextLexer.TIMES, StructuredTextLexer.DIVIDE, StructuredTextLexer.MOD,
          StructuredTextLexer.PLUS, StructuredTextLexer.MINUS, StructuredTextLexer.NOT, StructuredTextLexer.LESS,
          StructuredTextLexer.GREATER, StructuredTextLexer.AT_MOST, StructuredTextLexer.AT_LEAST,
              StructuredTextLexer.EQUAL,
          StructuredTextLexer.NOT_EQUAL, StructuredTextLexer.AND, StructuredTextLexer.AMPERSAND, StructuredTextLexer.OR,
          StructuredTextLexer.AND_THEN, StructuredTextLexer.OR_ELSE,
          StructuredTextLexer.XOR, StructuredTextLexer.DOT, StructuredTextLexer.ARRAY, StructuredTextLexer.REF_TO,
          StructuredTextLexer.DEREFERENCE -> operators[brackets]++;
      default -> { }
    }
    boolean sign = token.getType() == StructuredTextLexer.NOT || token.getType() == StructuredTextLexer.PLUS
        || token.getType() == StructuredTextLexer.MINUS;
    signs = sign ? signs + 1 : 0;
    return withinLimits(token);
  }

  private void open() {
    operators[brackets]++;
    if (brackets < DEEPEST) {
      operators[++brackets] = 0;
    } else {
      brackets = DEEPEST + 1;
    }
  }

  private void endExpression() {
    brackets = 0;
    operators[0] = 0;
  }

  private boolean withinLimits(Token token) {
    if (brackets > DEEPEST || blocks > DEEPEST || signs > DEEPEST) {
      String what = brackets > DEEPEST ? "brackets" : blocks > DEEPEST ? "statements" : "signs";
      problems.add(Diagnostic.error(Places.of(file, token), what + " nest more than " + DEEPEST + " levels deep here",
          "use intermediate variables, or functions of their own"));
      return false;
    }
    if (operators[brackets] > LONGEST_EXPRESSION) {
      problems.add(Diagnostic.error(Places.of(file, token),
          "the expression has more than " + LONGEST_EXPRESSION + " operators", "use intermediate variables"));
      return false;
    }
    return true;
  }
}
