package dev.pawl.grammar.logic.parse;

import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.tree.CompilationUnit;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import dev.pawl.grammar.source.Source;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.StringJoiner;
import java.util.function.Consumer;
import org.antlr.v4.runtime.CharStreams;
import org.antlr.v4.runtime.CommonTokenStream;
import org.antlr.v4.runtime.Token;
import org.antlr.v4.runtime.atn.PredictionMode;

/** The parser of Structured Text: characters to words, words to a parse tree, parse tree to syntax tree. */
public final class SourceParser {

  /**
   * Characters of the longest source that is read; longer than any hand-written program, short enough to parse in
   * seconds.
   */
  public static final int LONGEST_SOURCE = 4_000_000;

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
    oncePerCause(problems).forEach(diagnostics);
    return unit;
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
    StructuredTextLexer lexer = lexer(source);
    CommonTokenStream tokens = new CommonTokenStream(lexer);
    tokens.fill();

    ForeignWords foreign = new ForeignWords(source.name(), choices, problems::add);
    foreign.read(tokens.getTokens());
    problems.addAll(WordChecks.check(source.name(), tokens.getTokens()));
    if (lexer._mode != 0) {
      problems.add(unterminatedComment(source.name(), tokens.getTokens()));
    }
    if (sound(problems)) {
      StructuredText parser = new StructuredText(tokens);
      parser.removeErrorListeners();
      parser.setErrorHandler(new PlainErrors(source.name(), problems::add));
      parser.getInterpreter().setPredictionMode(PredictionMode.SLL);
      StructuredText.CompilationUnitContext tree = parser.compilationUnit();
      if (sound(problems)) {
        return new TreeBuilder(source.name(), choices, problems::add).build(tree);
      }
    }
    return nothing;
  }

  private static boolean sound(List<Diagnostic> problems) {
    return problems.stream().noneMatch(Diagnostic::isError);
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
