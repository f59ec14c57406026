package dev.pawl.grammar.rules.parse;

import dev.pawl.grammar.rules.tree.Comment;
import dev.pawl.grammar.rules.tree.Declaration;
import dev.pawl.grammar.rules.tree.Name;
import dev.pawl.grammar.rules.tree.RuleFile;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import dev.pawl.grammar.source.Source;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.antlr.v4.runtime.CharStreams;
import org.antlr.v4.runtime.CommonTokenStream;
import org.antlr.v4.runtime.RecognitionException;
import org.antlr.v4.runtime.Token;
import org.antlr.v4.runtime.atn.PredictionMode;
import org.antlr.v4.runtime.misc.ParseCancellationException;

/**
 * The way from text to syntax tree. Declarations are read one by one: what is wrong with one is told once, and reading
 * goes on with the next. Each is first tried with the parser's fast prediction; only where that fails is it read again
 * with the exact one.
 */
public final class RuleReader {

  /** Longest text that is read, in characters. */
  public static final int MOST_CHARACTERS = 2_000_000;

  /** Diagnostics after which the rest of a file is not looked at. */
  public static final int MOST_DIAGNOSTICS = 100;

  private final Source source;
  private final Places places;
  private final CommonTokenStream tokens;
  private final RulesParser parser;
  private final SyntaxMessages messages;
  private final StopAtFirst errors = new StopAtFirst();
  private final List<Diagnostic> diagnostics = new ArrayList<>();
  private final List<Declaration> declarations = new ArrayList<>();
  private final List<Name> unread = new ArrayList<>();

  private RuleReader(Source source) {
    this.source = source;
    this.places = new Places(source);
    RulesLexer lexer = new RulesLexer(CharStreams.fromString(source.text(), source.name()));
    lexer.removeErrorListeners();
    this.tokens = new CommonTokenStream(lexer);
    this.parser = new RulesParser(tokens);
    parser.removeErrorListeners();
    parser.setErrorHandler(errors);
    this.messages = new SyntaxMessages(tokens, places);
  }

  /** Reads a whole file; never throws for what the text holds. */
  public static ParsedFile read(Source source) {
    if (source.text().length() > MOST_CHARACTERS) {
      String message = String.format("the file has %,d characters; a rule file may have at most %,d", source.text()
          .length(), MOST_CHARACTERS);
      Diagnostic tooLong = Diagnostic.error(new Position(source.name(), 1, 1, 1), message,
          "split it and join the parts with use");
      return new ParsedFile(new RuleFile(source, List.of(), List.of(), List.of()), List.of(tooLong));
    }
    return new RuleReader(source).read();
  }

  private ParsedFile read() {
    tokens.fill();
    Optional<Diagnostic> tooDeep = new NestingLimit(tokens, places).check();
    if (tooDeep.isPresent()) {
      diagnostics.add(tooDeep.get());
    } else {
      readDeclarations();
    }
    return new ParsedFile(new RuleFile(source, declarations, unread, comments()), diagnostics);
  }

  private void readDeclarations() {
    DeclarationBuilder builder = new DeclarationBuilder(places, diagnostics);
    while (tokens.LA(1) != Token.EOF) {
      if (diagnostics.size() >= MOST_DIAGNOSTICS) {
        diagnostics.add(Diagnostic.error(places.of(tokens.LT(1)),
            "too many errors; the rest of this file was not read"));
        return;
      }
      Token first = tokens.LT(1);
      if (!LanguageWords.STARTERS.contains(first.getType())) {
        diagnostics.add(messages.notADeclaration(first));
        skip(tokens.index());
        continue;
      }
      readDeclaration(builder);
      if (LanguageVersion.isNewer(declarations)) {
        return;
      }
    }
  }

  private void readDeclaration(DeclarationBuilder builder) {
    int start = tokens.index();
    RulesParser.DeclarationContext context = attempt(start, PredictionMode.SLL);
    boolean complete = context != null && endsHere();
    if (!complete) {
      context = attempt(start, PredictionMode.LL);
      complete = context != null && endsHere();
    }
    if (complete) {
      Declaration declaration = builder.build(context);
      if (declaration instanceof Declaration.Language stated) {
        LanguageVersion.problem(stated, declarations).ifPresent(diagnostics::add);
      }
      declarations.add(declaration);
      return;
    }
    diagnostics.add(problem(start));
    rememberNames(start);
    skip(start);
  }

  /** Keeps the names that a declaration with an error would have declared. */
  private void rememberNames(int start) {
    tokens.seek(start);
    if (LanguageWords.NAMING.contains(tokens.LA(1))) {
      int ahead = 2;
      while (tokens.LA(ahead) == RulesParser.NAME) {
        unread.add(new Name(tokens.LT(ahead).getText(), places.of(tokens.LT(ahead))));
        ahead += tokens.LA(ahead + 1) == LanguageWords.COMMA ? 2 : 1;
      }
    }
  }

  private boolean endsHere() {
    return tokens.LA(1) == Token.EOF || LanguageWords.STARTERS.contains(tokens.LA(1));
  }

  private RulesParser.DeclarationContext attempt(int start, PredictionMode mode) {
    parser.getInterpreter().setPredictionMode(mode);
    tokens.seek(start);
    try {
      return parser.declaration();
    } catch (ParseCancellationException problem) {
      return null;
    }
  }

  /**
   * Reads the declaration as if it were the last of its file, so that what could have followed is known, and says what
   * is wrong.
   */
  private Diagnostic problem(int start) {
    parser.getInterpreter().setPredictionMode(PredictionMode.LL);
    tokens.seek(start);
    errors.remember(true);
    try {
      parser.lastDeclaration();
    } catch (ParseCancellationException stop) {
      return messages.of((RecognitionException) stop.getCause(), errors.expected(stop));
    } finally {
      errors.remember(false);
    }
    return messages.notADeclaration(tokens.LT(1));
  }

  /** Goes on behind {@code start} with the next token that begins a declaration. */
  private void skip(int start) {
    tokens.seek(start);
    boolean ruleToCome = tokens.LA(1) == RulesParser.FOR_EACH;
    tokens.consume();
    while (tokens.LA(1) != Token.EOF && (ruleToCome || !beginsDeclaration(tokens, tokens.LT(1)))) {
      ruleToCome &= tokens.LA(1) != LanguageWords.RULE;
      tokens.consume();
    }
  }

  /** Whether a token probably begins a declaration: it is a word that can, and the first on its line. */
  static boolean beginsDeclaration(CommonTokenStream tokens, Token token) {
    if (!LanguageWords.STARTERS.contains(token.getType())) {
      return false;
    }
    if (token.getCharPositionInLine() == 0) {
      return true;
    }
    Token before = token.getTokenIndex() > 0 ? tokens.get(token.getTokenIndex() - 1) : null;
    boolean firstOnLine = before == null || before.getLine() < token.getLine();
    return firstOnLine && !LanguageWords.INNER_STARTERS.contains(token.getType());
  }

  private List<Comment> comments() {
    List<Comment> comments = new ArrayList<>();
    int lastLine = 0;
    for (Token token : tokens.getTokens()) {
      if (token.getType() == RulesParser.COMMENT) {
        comments.add(new Comment(token.getText().stripTrailing(), token.getLine() > lastLine, places.of(token)));
      }
      lastLine = token.getLine();
    }
    return comments;
  }
}
