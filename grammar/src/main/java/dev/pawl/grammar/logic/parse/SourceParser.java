package dev.pawl.grammar.logic.parse;

import dev.pawl.grammar.logic.Allowance;
import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.tree.CompilationUnit;
import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.Statement;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import dev.pawl.grammar.source.Source;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.StringJoiner;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.antlr.v4.runtime.CharStreams;
import org.antlr.v4.runtime.CommonTokenStream;
import org.antlr.v4.runtime.ListTokenSource;
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

  private static final Pattern SPACED_NAME = Pattern.compile("[A-Za-z_][A-Za-z0-9_]*( +[A-Za-z0-9_]+)+");

  private static final String NAME = "write _ for the blank; a name has letters, digits and _ only";

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
  public static CompilationUnit parse(Source source, LanguageChoices choices, Consumer<Diagnostic> diagnostics) {
    List<Diagnostic> problems = new ArrayList<>();
    CompilationUnit unit = parsed(source, choices, problems);
    problems.forEach(diagnostics);
    return unit;
  }

  /** What is one cause however often it is found, also in several files. */
  public static String cause(Diagnostic found) {
    return found.hint().equals(ForeignConstructs.OBJECTS) || found.hint().equals(ForeignConstructs.REFERENCES)
        ? found.hint()
        : found.severity() + found.message() + found.hint();
  }

  /** The same in what is drawn, where each place has its own message, but for names that are none. */
  public static String drawnCause(Diagnostic found) {
    return found.hint().equals(NAME) ? found.hint() : found.toString();
  }

  /** The first of those that say the same, with the number of the others. */
  private static List<Diagnostic> oncePerCause(List<Diagnostic> problems) {
    Map<String, List<Diagnostic>> causes = new LinkedHashMap<>();
    problems.forEach(each -> causes.computeIfAbsent(each.severity() + each.message() + each.hint(),
        unused -> new ArrayList<>()).add(each));
    return causes.values().stream().map(same -> {
      Diagnostic first = same.get(0);
      return same.size() == 1 ? first : new Diagnostic(first.severity(), first.position(), first.message()
          + Diagnostic.others(same.size() - 1), first.hint());
    }).toList();
  }

  private static CompilationUnit parsed(Source source, LanguageChoices choices, List<Diagnostic> problems) {
    CompilationUnit nothing = new CompilationUnit(source.name(), List.of());
    if (source.text().length() > LONGEST_SOURCE) {
      problems.add(Diagnostic.error(new Position(source.name(), 1, 1, 1),
          "the source has " + source.text().length() + " characters; at most " + LONGEST_SOURCE + " are read",
          "split the program into several files"));
      return nothing;
    }
    Source remarked = CommentLines.without(source, choices, problems::add);
    return parse(source.name(), lexer(remarked), choices, StructuredText::compilationUnit,
        tree -> new TreeBuilder(source.name(), choices, problems::add).build(tree), problems, true).orElse(nothing);
  }

  /** Parses an expression that stands by itself; nothing after a message. */
  public static Optional<Expression> expression(Fragment fragment, LanguageChoices choices,
      Consumer<Diagnostic> diagnostics) {
    String text = fragment.text().strip();
    String file = fragment.start().file();
    if (PLAIN_NAME.matcher(text).matches() && !WORDS.contains(text.toUpperCase(Locale.ROOT))) {
      return Optional.of(new Expression.NameReference(new Name(text, new Position(file, fragment.start().line(),
          fragment.start().column(), text.length()))));
    }
    if (SPACED_NAME.matcher(text).matches() && Arrays.stream(text.split(" +")).noneMatch(word ->
        WORDS.contains(word.toUpperCase(Locale.ROOT)))) {
      diagnostics.accept(Diagnostic.error(fragment.start(), "'" + text + "' is no name, since there is a blank in it",
          NAME));
      return Optional.empty();
    }
    List<Diagnostic> problems = new ArrayList<>();
    Optional<Expression> expression = parse(file, lexer(fragment), choices, StructuredText::expressionAlone,
        tree -> new ExpressionBuilder(file, choices, problems::add).visit(tree.expression()), problems, false);
    problems.forEach(diagnostics);
    return expression;
  }

  /** Parses the declaration of a unit that stands by itself, with or without its END word; nothing after a message. */
  public static Optional<Declaration.Unit> unit(Fragment fragment, Declaration.Kind kind, LanguageChoices choices,
      Consumer<Diagnostic> diagnostics) {
    String file = fragment.start().file();
    String end = "END_" + kind;
    String text = fragment.text().strip().toUpperCase(Locale.ROOT).endsWith(end) ? fragment.text()
        : fragment.text() + "\n" + end;
    List<Diagnostic> problems = new ArrayList<>();
    Optional<CompilationUnit> unit = parse(file, lexer(new Fragment(text, fragment.start())), choices,
        StructuredText::compilationUnit, tree -> new TreeBuilder(file, choices, problems::add).build(tree), problems,
        false);
    oncePerCause(problems).forEach(diagnostics);
    return unit.stream().flatMap(it -> it.declarations().stream()).filter(Declaration.Unit.class::isInstance)
        .map(Declaration.Unit.class::cast).findFirst();
  }

  /** Parses statements that stand by themselves; nothing after a message. */
  public static Optional<List<Statement>> statements(Fragment fragment, LanguageChoices choices,
      Consumer<Diagnostic> diagnostics) {
    String file = fragment.start().file();
    List<Diagnostic> problems = new ArrayList<>();
    Optional<List<Statement>> statements = parse(file, lexer(fragment), choices, StructuredText::statementsAlone,
        tree -> new StatementBuilder(file, choices, problems::add, new ExpressionBuilder(file, choices,
            problems::add), new Closings(file, choices, problems::add)).list(tree.statementList()), problems, false);
    oncePerCause(problems).forEach(diagnostics);
    return statements;
  }

  /** Characters to words, words to a parse tree, parse tree to what is made of it; nothing after an error. */
  private static <C extends ParserRuleContext, T> Optional<T> parse(String file, StructuredTextLexer lexer,
      LanguageChoices choices, Function<StructuredText, C> rule, Function<C, T> build, List<Diagnostic> problems,
      boolean whole) {
    CommonTokenStream tokens = new CommonTokenStream(lexer);
    tokens.fill();

    ForeignWords foreign = new ForeignWords(file, choices, problems::add);
    if (!foreign.read(tokens.getTokens())) {
      return Optional.empty();
    }
    problems.addAll(WordChecks.check(file, tokens.getTokens()));
    if (lexer._mode != 0) {
      problems.add(unterminatedComment(file, tokens.getTokens()));
    }
    Optional<LooseText> loose = sound(problems) && whole ? LooseText.of(tokens.getTokens()) : Optional.empty();
    loose.ifPresent(text -> problems.add(text.told(file, choices)));
    if (sound(problems)) {
      List<Token> words = loose.map(text -> text.whole(file, tokens.getTokens())).orElse(tokens.getTokens());
      words = LateActions.moved(file, words, choices, problems::add);
      CommonTokenStream stream = new CommonTokenStream(new ListTokenSource(words, file));
      stream.fill();
      StructuredText parser = new StructuredText(stream);
      parser.removeErrorListeners();
      PlainErrors errors = new PlainErrors(file);
      parser.setErrorHandler(errors);
      parser.getInterpreter().setPredictionMode(PredictionMode.SLL);
      C tree = rule.apply(parser);
      boolean allowed = problems.stream().noneMatch(Diagnostic::isError);
      errors.told().stream().filter(each -> allowed || !each.isError() || Allowance.allows(each))
          .forEach(problems::add);
      if (sound(problems) && sound(errors.told())) {
        return Optional.of(build.apply(tree));
      }
    }
    return Optional.empty();
  }

  private static StructuredTextLexer lexer(Fragment fragment) {
    StructuredTextLexer lexer = lexer(new Source(fragment.start().file(), fragment.text()));
    lexer.setLine(fragment.start().line());
    lexer.setCharPositionInLine(fragment.start().column() - 1);
    return lexer;
  }

  /** Whether there is no error but what could be allowed: such words are read on, so that all of these are told. */
  private static boolean sound(List<Diagnostic> problems) {
    return problems.stream().noneMatch(each -> each.isError() && !Allowance.allows(each));
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

  /** The same of a piece of text: those of each of its lines that has any, by line. */
  public static SortedMap<Integer, String> words(Fragment fragment) {
    SortedMap<Integer, String> lines = new TreeMap<>();
    for (Token token : lexer(fragment).getAllTokens()) {
      if (token.getChannel() == Token.DEFAULT_CHANNEL) {
        lines.merge(token.getLine(), token.getText(), (before, next) -> before + " " + next);
      }
    }
    return lines;
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
