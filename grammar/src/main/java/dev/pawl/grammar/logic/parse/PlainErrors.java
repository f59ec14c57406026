package dev.pawl.grammar.logic.parse;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.antlr.v4.runtime.DefaultErrorStrategy;
import org.antlr.v4.runtime.InputMismatchException;
import org.antlr.v4.runtime.NoViableAltException;
import org.antlr.v4.runtime.Parser;
import org.antlr.v4.runtime.ParserRuleContext;
import org.antlr.v4.runtime.Token;
import org.antlr.v4.runtime.misc.IntervalSet;

/** The parser's way of saying what is wrong, in the words of the language, and of going on after it. */
final class PlainErrors extends DefaultErrorStrategy {

  /** Words of which the first one expected says best what is missing, since all of them end an expression. */
  private static final int[] CLOSERS = {StructuredText.SEMICOLON, StructuredText.THEN, StructuredText.DO,
      StructuredText.OF, StructuredText.RIGHT_PAREN, StructuredText.RIGHT_BRACKET, StructuredText.END_REPEAT,
      StructuredText.RANGE, StructuredText.TO, StructuredText.COLON};

  /** Syntax errors that are told of one file one by one. */
  private static final int MOST = 3;

  private static final int LISTED = 5;

  private static final String RESERVED = " is a reserved word and cannot be a name";

  private static final Set<Integer> UNITS = Set.of(StructuredText.PROGRAM, StructuredText.FUNCTION,
      StructuredText.FUNCTION_BLOCK, StructuredText.CONFIGURATION, StructuredText.CLASS, StructuredText.INTERFACE);

  /** Words that can be names. */
  private static final Set<Integer> NAMES = Set.of(StructuredText.RESOURCE, StructuredText.ON, StructuredText.TASK,
      StructuredText.WITH);

  /** Words that join two values, or begin a call of a function of that name. */
  private static final Set<Integer> JOINING = Set.of(StructuredText.AND, StructuredText.OR, StructuredText.XOR,
      StructuredText.MOD);

  /** Words that end a statement or a unit. */
  private static final Set<Integer> ENDS = Set.of(Token.EOF, StructuredText.END_IF, StructuredText.END_CASE,
      StructuredText.END_FOR, StructuredText.END_WHILE, StructuredText.END_REPEAT, StructuredText.END_PROGRAM,
      StructuredText.END_FUNCTION, StructuredText.END_FUNCTION_BLOCK, StructuredText.END_ACTION);

  private static final Set<Integer> OPERATORS = Set.of(StructuredText.PLUS, StructuredText.MINUS,
      StructuredText.TIMES, StructuredText.DIVIDE);

  private static final Set<Integer> UNIT_ENDS = Set.of(StructuredText.END_PROGRAM, StructuredText.END_FUNCTION,
      StructuredText.END_FUNCTION_BLOCK);

  private static final List<Integer> CLOSINGS = List.of(StructuredText.END_IF, StructuredText.END_FOR,
      StructuredText.END_WHILE, StructuredText.UNTIL);

  private static final Set<Integer> SECTIONS = Set.of(StructuredText.VAR, StructuredText.VAR_INPUT,
      StructuredText.VAR_OUTPUT, StructuredText.VAR_IN_OUT, StructuredText.VAR_TEMP);

  private static final Set<Integer> STATEMENTS = Set.of(StructuredText.IDENTIFIER, StructuredText.IF,
      StructuredText.CASE, StructuredText.FOR, StructuredText.WHILE, StructuredText.REPEAT,
      StructuredText.DIRECT_VARIABLE);

  private final String file;
  private final List<Diagnostic> told = new ArrayList<>();
  private final Set<String> reserved = new HashSet<>();
  private int lastLine;
  private boolean structureBroken;
  private int passedOver = -1;

  PlainErrors(String file) {
    this.file = file;
  }

  /** The errors; where there are many in a file, the first with the lines of the others. */
  List<Diagnostic> told() {
    if (told.size() <= MOST) {
      return told;
    }
    Diagnostic first = told.get(0);
    List<String> lines = told.stream().skip(1).limit(LISTED).map(each -> String.valueOf(each.position().line()))
        .toList();
    int more = told.size() - LISTED - 1;
    String others = String.join(", ", lines) + (more > 0 ? " and " + more + " more" : "");
    return List.of(new Diagnostic(first.severity(), first.position(), first.message() + "; lines " + others
        + " are not understood either", first.hint()));
  }

  @Override
  protected void reportNoViableAlternative(Parser parser, NoViableAltException problem) {
    report(parser, problem.getOffendingToken(), problem.getExpectedTokens());
  }

  @Override
  protected void reportInputMismatch(Parser parser, InputMismatchException problem) {
    report(parser, problem.getOffendingToken(), problem.getExpectedTokens());
  }

  @Override
  protected void reportUnwantedToken(Parser parser) {
    if (!inErrorRecoveryMode(parser)) {
      beginErrorCondition(parser);
      report(parser, parser.getCurrentToken(), getExpectedTokens(parser));
    }
  }

  @Override
  protected void reportMissingToken(Parser parser) {
    if (!inErrorRecoveryMode(parser)) {
      beginErrorCondition(parser);
      report(parser, parser.getCurrentToken(), getExpectedTokens(parser));
    }
  }

  /** Tells what is wrong; only once in a line, since what follows in it is mostly a consequence. */
  private void report(Parser parser, Token found, IntervalSet expected) {
    if (found.getLine() == lastLine) {
      return;
    }
    lastLine = found.getLine();
    if (reserved.contains(found.getText().toUpperCase(Locale.ROOT))) {
      return;
    }
    if (structureBroken || found.getTokenIndex() <= passedOver) {
      return;
    }
    passedOver = choiceEnd(parser, found);
    if (structure(parser, found, expected)) {
      structureBroken = true;
      return;
    }
    Token before = found.getTokenIndex() > 0 ? previous(parser, found) : null;
    Optional<Token> end = statement(expected) ? pathEnd(parser, found) : Optional.empty();
    if (end.isPresent()) {
      Token last = previous(parser, end.get());
      boolean next = end.get().getLine() > last.getLine();
      told.add(Diagnostic.error(next ? Places.after(file, last) : Places.of(file, end.get()),
          "expected ':=', '(' or ';' after '" + last.getText() + "'" + (next ? "" : ", found " + shown(end.get())), next
          ? "a statement assigns with := or calls with brackets, and ends with ;"
          : "a statement assigns with :=, as in n := n + 1;, or calls with brackets"));
      return;
    }
    String wanted = wanted(expected);
    if (before != null && expected.contains(StructuredText.SEMICOLON) && before.getLine() < found.getLine()
        && before.getType() != StructuredText.SEMICOLON) {
      told.add(Diagnostic.error(Places.after(file, before), "expected ';' after '" + before.getText() + "'",
          "every statement and declaration ends with ';', END_IF and the like included"));
      return;
    }
    Position position = Places.of(file, found);
    boolean begun = before != null && JOINING.contains(before.getType())
        && expected.toList().equals(List.of(StructuredText.LEFT_PAREN));
    Token behind = found.getType() == Token.EOF ? found : next(parser, found);
    boolean combined = OPERATORS.contains(found.getType()) && behind.getType() == StructuredText.EQUAL
        && behind.getStartIndex() == found.getStopIndex() + 1;
    String hint = combined ? "assignments are written with := only, as in n := n + 1" : hint(found, before, expected);
    if (hint.endsWith(RESERVED)) {
      reserved.add(found.getText().toUpperCase(Locale.ROOT));
      structureBroken = expected.contains(StructuredText.END_VAR);
    }
    told.add(begun ? Diagnostic.error(Places.of(file, before), "nothing stands before "
        + before.getText().toUpperCase(Locale.ROOT), "it joins two values: write a first one before it")
        : Diagnostic.error(position, "expected " + wanted + ", found " + shown(found), !hint.isEmpty() ? hint
        : "write " + wanted + (found.getType() == Token.EOF ? " at the end" : " before it, or take it out")));
  }

  /** Whether a statement could have begun, or the END of those around it. */
  private static boolean statement(IntervalSet expected) {
    return expected.toList().stream().anyMatch(type -> CLOSINGS.contains(type) || type == StructuredText.END_CASE
        || UNIT_ENDS.contains(type));
  }

  /** The word behind the name, with its parts and indices, that stands where a statement begins; none if it is one. */
  private static Optional<Token> pathEnd(Parser parser, Token first) {
    if (first.getType() != StructuredText.IDENTIFIER) {
      return Optional.empty();
    }
    Token at = next(parser, first);
    int open = 0;
    boolean part = true;
    while (part && at.getType() != Token.EOF) {
      int type = at.getType();
      open += type == StructuredText.LEFT_BRACKET ? 1 : type == StructuredText.RIGHT_BRACKET ? -1 : 0;
      part = open > 0 || type == StructuredText.RIGHT_BRACKET || type == StructuredText.DOT
          || previous(parser, at).getType() == StructuredText.DOT;
      at = part ? next(parser, at) : at;
    }
    boolean goesOn = Set.of(StructuredText.ASSIGN, StructuredText.LEFT_PAREN, StructuredText.SEMICOLON,
        StructuredText.COLON, StructuredText.EQUAL, StructuredText.ASSIGN_ATTEMPT, Token.EOF).contains(at.getType());
    return goesOn ? Optional.empty() : Optional.of(at);
  }

  /** The last word of the outermost CASE around a place, which cannot be read on within; -1 where there is none. */
  private static int choiceEnd(Parser parser, Token found) {
    int open = 0;
    for (ParserRuleContext context = parser.getContext(); context != null; context = context.getParent()) {
      open += context instanceof StructuredText.CaseStatementContext ? 1 : 0;
    }
    int i = found.getTokenIndex();
    while (open > 0 && parser.getTokenStream().get(i).getType() != Token.EOF) {
      int type = parser.getTokenStream().get(i).getType();
      open += type == StructuredText.CASE ? 1 : type == StructuredText.END_CASE ? -1 : 0;
      i++;
    }
    return i == found.getTokenIndex() ? -1 : i;
  }

  /**
   * Words of other languages, and statements and units that stand where none can: told by what they are, and what
   * follows in the file is passed over, since it is a consequence mostly.
   */
  private boolean structure(Parser parser, Token found, IntervalSet expected) {
    Token before = found.getTokenIndex() > 0 ? previous(parser, found) : null;
    Token foreign = ForeignConstructs.hint(found).isPresent() ? found : before;
    boolean declared = foreign == found && expected.contains(StructuredText.END_VAR)
        && Set.of(StructuredText.COLON, StructuredText.COMMA).contains(next(parser, found).getType());
    Optional<String> hint = foreign == null || declared ? Optional.empty() : ForeignConstructs.hint(foreign)
        .filter(unused -> !ForeignConstructs.latching(foreign) || next(parser, foreign).getType()
        == StructuredText.EQUAL);
    if (hint.isPresent()) {
      told.add(Diagnostic.error(Places.of(file, foreign), foreign.getText().toUpperCase(Locale.ROOT)
          + " is not supported", hint.get()));
      return true;
    }
    Optional<ParserRuleContext> open = unclosed(parser, found, expected);
    if (open.isPresent()) {
      Token start = open.get().getStart();
      String word = start.getText().toUpperCase(Locale.ROOT);
      told.add(Diagnostic.error(Places.of(file, found), "the " + word + " of line " + start.getLine()
          + " is not closed before " + shown(found), "write END_" + word + "; where it ends"));
      return true;
    }
    ParserRuleContext unit = parser.getContext();
    boolean wholeFile = true;
    while (unit != null && !(unit instanceof StructuredText.DeclarationContext)) {
      wholeFile = unit instanceof StructuredText.CompilationUnitContext;
      unit = unit.getParent();
    }
    if (unit != null && unit.getStart() != found && UNITS.contains(found.getType())
        && UNITS.contains(unit.getStart().getType())) {
      String word = unit.getStart().getText().toUpperCase(Locale.ROOT);
      told.add(Diagnostic.error(Places.of(file, found), "a " + found.getText().toUpperCase(Locale.ROOT)
          + " begins inside the " + word + " of line " + unit.getStart().getLine(), "write END_" + word
          + " before it"));
      return true;
    }
    boolean outside = wholeFile && (unit == null || unit.getStart() == found) && found.getType() != Token.EOF
        && (STATEMENTS.contains(found.getType()));
    Token next = outside ? next(parser, found) : found;
    if (outside && SECTIONS.contains(next.getType())) {
      told.add(Diagnostic.error(Places.of(file, found), "a name stands alone before its variables",
          "write FUNCTION_BLOCK or PROGRAM before it, and END_FUNCTION_BLOCK or END_PROGRAM behind the last"
              + " statement"));
    } else if (outside) {
      told.add(Diagnostic.error(Places.of(file, found),
          "a statement stands outside of any PROGRAM, FUNCTION or FUNCTION_BLOCK",
          "write PROGRAM name and its variables before it, and END_PROGRAM behind the last"));
    }
    return outside;
  }

  /** The innermost statement that is still open where something stands that can only belong outside of it. */
  private static Optional<ParserRuleContext> unclosed(Parser parser, Token found, IntervalSet expected) {
    Token before = previous(parser, found);
    boolean unfinished = before != null && expected.contains(StructuredText.SEMICOLON)
        && before.getType() != StructuredText.SEMICOLON && !ENDS.contains(before.getType());
    ParserRuleContext context = unfinished ? null : parser.getContext();
    while (context != null && !(context instanceof StructuredText.DeclarationContext)) {
      boolean choice = context instanceof StructuredText.CaseStatementContext;
      boolean open = choice || context instanceof StructuredText.IfStatementContext
          || context instanceof StructuredText.ForStatementContext
          || context instanceof StructuredText.WhileStatementContext
          || context instanceof StructuredText.RepeatStatementContext;
      if (open) {
        boolean label = found.getType() == StructuredText.INTEGER && !choice
            && CLOSINGS.stream().anyMatch(expected::contains);
        boolean end = ENDS.contains(found.getType()) && !("END_" + context.getStart().getText())
            .equalsIgnoreCase(found.getText());
        return label || end ? Optional.of(context) : Optional.empty();
      }
      context = context.getParent();
    }
    return Optional.empty();
  }

  private static String shown(Token found) {
    return found.getType() == Token.EOF ? "the end of the file" : "'" + found.getText() + "'";
  }

  private static Token previous(Parser parser, Token found) {
    for (int i = found.getTokenIndex() - 1; i >= 0; i--) {
      Token token = parser.getTokenStream().get(i);
      if (token.getChannel() == Token.DEFAULT_CHANNEL) {
        return token;
      }
    }
    return null;
  }

  private static Token next(Parser parser, Token found) {
    int i = found.getTokenIndex() + 1;
    while (parser.getTokenStream().get(i).getChannel() != Token.DEFAULT_CHANNEL) {
      i++;
    }
    return parser.getTokenStream().get(i);
  }

  private static String wanted(IntervalSet expected) {
    for (int closer : CLOSERS) {
      if (expected.contains(closer) && !expected.contains(StructuredText.IF)
          && !expected.contains(StructuredText.INTEGER)) {
        return word(closer);
      }
    }
    boolean statement = expected.contains(StructuredText.IF) && expected.contains(StructuredText.IDENTIFIER);
    if (statement) {
      String end = end(expected);
      return end.isEmpty() ? "a statement" : "a statement or " + end;
    }
    if (expected.contains(StructuredText.IDENTIFIER) && expected.contains(StructuredText.INTEGER)) {
      return "an expression";
    }
    if (expected.contains(StructuredText.IDENTIFIER) && expected.contains(StructuredText.ARRAY)) {
      return "a type";
    }
    if (expected.contains(StructuredText.IDENTIFIER) && expected.contains(StructuredText.END_VAR)) {
      return "a variable or END_VAR";
    }
    if (expected.contains(StructuredText.PROGRAM)) {
      return "PROGRAM, FUNCTION, FUNCTION_BLOCK, TYPE or VAR_GLOBAL";
    }
    return listed(expected);
  }

  private static String end(IntervalSet expected) {
    for (int type : expected.toList()) {
      if (type > 0 && StructuredText.VOCABULARY.getSymbolicName(type).startsWith("END_")
          || type == StructuredText.UNTIL) {
        return word(type);
      }
    }
    return "";
  }

  private static String listed(IntervalSet expected) {
    List<String> words = new ArrayList<>();
    expected.toList().stream().filter(type -> type != Token.EOF || expected.size() == 1)
        .filter(type -> !NAMES.contains(type) || !expected.contains(StructuredText.IDENTIFIER))
        .forEach(type -> words.add(word(type)));
    if (words.size() > 5) {
      words.subList(5, words.size()).clear();
    }
    String last = words.remove(words.size() - 1);
    return words.isEmpty() ? last : String.join(", ", words) + " or " + last;
  }

  private static String word(int type) {
    return switch (type) {
      case Token.EOF -> "the end of the file";
      case StructuredText.IDENTIFIER -> "a name";
      case StructuredText.DIRECT_VARIABLE -> "an address such as %IX0.1";
      case StructuredText.INTEGER -> "a whole number";
      default -> {
        String literal = StructuredText.VOCABULARY.getLiteralName(type);
        String name = literal == null ? StructuredText.VOCABULARY.getSymbolicName(type) : literal.replace("'", "");
        yield Character.isLetter(name.charAt(0)) ? name : "'" + name + "'";
      }
    };
  }

  private static String hint(Token found, Token before, IntervalSet expected) {
    String text = found.getText();
    boolean word = !text.isEmpty() && Character.isLetter(text.charAt(0));
    boolean joined = before != null && before.getStopIndex() + 1 == found.getStartIndex();
    boolean number = joined && before.getType() == StructuredText.INTEGER;
    if (found.getType() == StructuredText.IDENTIFIER && text.matches("[eE]\\d*")) {
      return "a number with an exponent has a point, such as 1.0" + (text.length() > 1 ? text : "E-3");
    }
    if (number && text.matches("(?i)d|h|m|s|ms|us|ns")) {
      return "a duration is written T#" + before.getText() + text;
    }
    if (joined && found.getType() == StructuredText.EQUAL && before.getType() == StructuredText.EQUAL) {
      return "= by itself compares, and := assigns";
    }
    if (joined && found.getType() == StructuredText.AMPERSAND) {
      return "write AND";
    }
    if (text.equalsIgnoreCase("DOWNTO")) {
      return "a loop that counts down is written FOR n := 5 TO 1 BY -1 DO";
    }
    if (found.getType() == StructuredText.IDENTIFIER) {
      List<String> words = new ArrayList<>();
      expected.toList().stream().filter(type -> type > 0).forEach(type -> words.add(word(type)));
      return NearName.hint(text.toUpperCase(Locale.ROOT), words).orElse("");
    }
    if (word && found.getType() != Token.EOF && expected.contains(StructuredText.IDENTIFIER)
        && !Set.of(StructuredText.TYPED_NAME, StructuredText.DURATION).contains(found.getType())
        && !expected.contains(StructuredText.INTEGER)) {
      return text.toUpperCase(Locale.ROOT) + RESERVED;
    }
    return "";
  }
}
