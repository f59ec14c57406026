package dev.pawl.grammar.logic.parse;

import dev.pawl.grammar.logic.tree.CompilationUnit;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.Statement;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import dev.pawl.grammar.source.Source;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.StringJoiner;
import java.util.function.BiFunction;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.antlr.v4.runtime.CharStreams;
import org.antlr.v4.runtime.CommonTokenStream;
import org.antlr.v4.runtime.ParserRuleContext;
import org.antlr.v4.runtime.Token;
import org.antlr.v4.runtime.atn.PredictionMode;

/** The parser of Structured Text: characters to words, words to a parse tree, parse tree to syntax tree. */
public final class SourceParser {

  /**
   * Characters of the longest source that is read; longer than any hand-written program, short enough to parse in
   * seconds.
   */
  public static final int LONGEST_SOURCE = 4_000_000;

  private static final Pattern PLAIN_NAME = Pattern.compile("[A-Za-z_][A-Za-z0-9_]*");

  private static final Set<String> WORDS = IntStream.rangeClosed(0, StructuredTextLexer.VOCABULARY.getMaxTokenType())
      .mapToObj(StructuredTextLexer.VOCABULARY::getSymbolicName).filter(Objects::nonNull)
      .collect(Collectors.toUnmodifiableSet());

  private SourceParser() {}

  /**
   * Parses one source.
   *
   * @param diagnostics is told of everything wrong with the text
   * @return the syntax tree; without declarations where the words do not form a program
   */
  public static CompilationUnit parse(Source source, Consumer<Diagnostic> diagnostics) {
    CompilationUnit nothing = new CompilationUnit(source.name(), List.of());
    if (source.text().length() > LONGEST_SOURCE) {
      diagnostics.accept(Diagnostic.error(new Position(source.name(), 1, 1, 1),
          "the source has " + source.text().length() + " characters; at most " + LONGEST_SOURCE + " are read",
          "split the program into several files"));
      return nothing;
    }
    return parse(source.name(), lexer(source), StructuredText::compilationUnit,
        (tree, report) -> new TreeBuilder(source.name(), report).build(tree), diagnostics).orElse(nothing);
  }

  /** Parses an expression that stands by itself; nothing after a message. */
  public static Optional<Expression> expression(Fragment fragment, Consumer<Diagnostic> diagnostics) {
    String text = fragment.text().strip();
    String file = fragment.start().file();
    if (PLAIN_NAME.matcher(text).matches() && !WORDS.contains(text.toUpperCase(Locale.ROOT))) {
      return Optional.of(new Expression.NameReference(new Name(text, new Position(file, fragment.start().line(),
          fragment.start().column(), text.length()))));
    }
    return parse(file, lexer(fragment), StructuredText::expressionAlone,
        (tree, report) -> new ExpressionBuilder(file, report).visit(tree.expression()), diagnostics);
  }

  /** Parses statements that stand by themselves; nothing after a message. */
  public static Optional<List<Statement>> statements(Fragment fragment, Consumer<Diagnostic> diagnostics) {
    String file = fragment.start().file();
    return parse(file, lexer(fragment), StructuredText::statementsAlone,
        (tree, report) -> new StatementBuilder(file, report, new ExpressionBuilder(file, report))
            .list(tree.statementList()), diagnostics);
  }

  /** Characters to words, words to a parse tree, parse tree to what is made of it; nothing after a message. */
  private static <C extends ParserRuleContext, T> Optional<T> parse(String file, StructuredTextLexer lexer,
      Function<StructuredText, C> rule, BiFunction<C, Consumer<Diagnostic>, T> build,
      Consumer<Diagnostic> diagnostics) {
    CommonTokenStream tokens = new CommonTokenStream(lexer);
    tokens.fill();
    List<Diagnostic> problems = new ArrayList<>(WordChecks.check(file, tokens.getTokens()));
    if (lexer._mode != 0) {
      problems.add(unterminatedComment(file, tokens.getTokens()));
    }
    T built = null;
    if (problems.isEmpty()) {
      StructuredText parser = new StructuredText(tokens);
      parser.removeErrorListeners();
      parser.setErrorHandler(new PlainErrors(file, problems::add));
      parser.getInterpreter().setPredictionMode(PredictionMode.SLL);
      C tree = rule.apply(parser);
      if (problems.isEmpty()) {
        built = build.apply(tree, problems::add);
      }
    }
    problems.forEach(diagnostics);
    return Optional.ofNullable(built);
  }

  private static StructuredTextLexer lexer(Fragment fragment) {
    StructuredTextLexer lexer = lexer(new Source(fragment.start().file(), fragment.text()));
    lexer.setLine(fragment.start().line());
    lexer.setCharPositionInLine(fragment.start().column() - 1);
    return lexer;
  }

  private static StructuredTextLexer lexer(Source source) {
    StructuredTextLexer lexer = new StructuredTextLexer(CharStreams.fromString(source.text(), source.name()));
    lexer.removeErrorListeners();
    return lexer;
  }

  /** The words of each line, with a blank between them; comments are none. */
  public static List<String> words(Source source) {
    List<StringJoiner> lines = source.text().lines().map(line -> new StringJoiner(" ")).toList();
    for (Token token : lexer(source).getAllTokens()) {
      if (token.getChannel() == Token.DEFAULT_CHANNEL) {
        lines.get(token.getLine() - 1).add(token.getText());
      }
    }
    return lines.stream().map(StringJoiner::toString).toList();
  }

  private static Diagnostic unterminatedComment(String file, List<Token> tokens) {
    Token start = tokens.get(0);
    for (Token token : tokens) {
      if (token.getType() == StructuredTextLexer.COMMENT_START
          || token.getType() == StructuredTextLexer.SLASH_COMMENT_START) {
        start = token;
      }
    }
    String end = start.getType() == StructuredTextLexer.COMMENT_START ? "*)" : "*/";
    return Diagnostic.error(Places.of(file, start), "the comment that starts here is not closed",
        "close it with '" + end + "'; comments nest, so every start needs its own end");
  }
}
