package dev.pawl.grammar.logic.parse;

import dev.pawl.grammar.logic.tree.CompilationUnit;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import dev.pawl.grammar.source.Source;
import java.util.ArrayList;
import java.util.List;
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
  public static CompilationUnit parse(Source source, Consumer<Diagnostic> diagnostics) {
    CompilationUnit nothing = new CompilationUnit(source.name(), List.of());
    if (source.text().length() > LONGEST_SOURCE) {
      diagnostics.accept(Diagnostic.error(new Position(source.name(), 1, 1, 1),
          "the source has " + source.text().length() + " characters; at most " + LONGEST_SOURCE + " are read",
          "split the program into several files"));
      return nothing;
    }
    StructuredTextLexer lexer = lexer(source);
    CommonTokenStream tokens = new CommonTokenStream(lexer);
    tokens.fill();

    List<Diagnostic> problems = new ArrayList<>(WordChecks.check(source.name(), tokens.getTokens()));
    if (lexer._mode != 0) {
      problems.add(unterminatedComment(source.name(), tokens.getTokens()));
    }
    if (problems.isEmpty()) {
      StructuredText parser = new StructuredText(tokens);
      parser.removeErrorListeners();
      parser.setErrorHandler(new PlainErrors(source.name(), problems::add));
      parser.getInterpreter().setPredictionMode(PredictionMode.SLL);
      StructuredText.CompilationUnitContext tree = parser.compilationUnit();
      if (problems.isEmpty()) {
        TreeBuilder builder = new TreeBuilder(source.name(), problems::add);
        CompilationUnit unit = builder.build(tree);
        problems.forEach(diagnostics);
        return unit;
      }
    }
    problems.forEach(diagnostics);
    return nothing;
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
