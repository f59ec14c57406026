package dev.pawl.grammar.logic.parse;

import dev.pawl.grammar.logic.Allowance;
import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.source.Diagnostic;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.antlr.v4.runtime.CommonToken;
import org.antlr.v4.runtime.Token;

/**
 * A text without a unit: statements that stand by themselves, which can be taken for a PROGRAM by the name of the file,
 * and sections VAR without statements, which can be taken for VAR_GLOBAL.
 */
final class LooseText {

  private static final Set<Integer> UNITS = Set.of(StructuredTextLexer.PROGRAM, StructuredTextLexer.FUNCTION,
      StructuredTextLexer.FUNCTION_BLOCK, StructuredTextLexer.CONFIGURATION, StructuredTextLexer.CLASS,
      StructuredTextLexer.INTERFACE, StructuredTextLexer.NAMESPACE, StructuredTextLexer.METHOD);

  private static final Set<Integer> OWN = Set.of(StructuredTextLexer.VAR, StructuredTextLexer.VAR_INPUT,
      StructuredTextLexer.VAR_OUTPUT, StructuredTextLexer.VAR_IN_OUT, StructuredTextLexer.VAR_TEMP,
      StructuredTextLexer.VAR_EXTERNAL);

  private static final Set<Integer> STATEMENTS = Set.of(StructuredTextLexer.IDENTIFIER, StructuredTextLexer.IF,
      StructuredTextLexer.CASE, StructuredTextLexer.FOR, StructuredTextLexer.WHILE, StructuredTextLexer.REPEAT,
      StructuredTextLexer.DIRECT_VARIABLE);

  private final List<Token> tokens;
  private final List<Token> sections = new ArrayList<>();
  private Optional<Token> statement = Optional.empty();

  private LooseText(List<Token> tokens) {
    this.tokens = tokens;
  }

  /** The text without a unit that these words are, if they are one. */
  static Optional<LooseText> of(List<Token> tokens) {
    if (tokens.stream().anyMatch(token -> UNITS.contains(token.getType()))) {
      return Optional.empty();
    }
    LooseText text = new LooseText(tokens.stream().filter(token -> token.getChannel() == Token.DEFAULT_CHANNEL)
        .toList());
    return text.found() ? Optional.of(text) : Optional.empty();
  }

  private boolean found() {
    int i = 0;
    while (tokens.get(i).getType() != Token.EOF) {
      int type = tokens.get(i).getType();
      boolean section = OWN.contains(type) || type == StructuredTextLexer.VAR_GLOBAL;
      if (OWN.contains(type)) {
        sections.add(tokens.get(i));
      }
      if (!section && type != StructuredTextLexer.TYPE) {
        statement = Optional.of(tokens.get(i));
        return STATEMENTS.contains(type) && !OWN.contains(tokens.get(i + 1).getType());
      }
      i = behind(i, section ? StructuredTextLexer.END_VAR : StructuredTextLexer.END_TYPE);
    }
    return !sections.isEmpty() && sections.stream().allMatch(each -> each.getType() == StructuredTextLexer.VAR);
  }

  /** The place behind a word from another on, and behind the semicolon that may follow it. */
  private int behind(int from, int end) {
    int i = from;
    while (tokens.get(i).getType() != end && tokens.get(i).getType() != Token.EOF) {
      i++;
    }
    i = tokens.get(i).getType() == end ? i + 1 : i;
    return tokens.get(i).getType() == StructuredTextLexer.SEMICOLON ? i + 1 : i;
  }

  /** That it has no unit: an error, or a warning where that is allowed. */
  Diagnostic told(String file, LanguageChoices choices) {
    return statement.map(first -> Allowance.MISSING_UNITS.found(choices, Places.of(file, first),
        "a statement stands outside of any PROGRAM, FUNCTION or FUNCTION_BLOCK",
        "write PROGRAM name and its variables before it, and END_PROGRAM behind the last")).orElseGet(() ->
        Allowance.MISSING_UNITS.found(choices, Places.of(file, sections.get(0)),
        "VAR belongs inside a PROGRAM, FUNCTION or FUNCTION_BLOCK", "write VAR_GLOBAL"));
  }

  /** All words, with those that it lacks. */
  List<Token> whole(String file, List<Token> all) {
    if (statement.isEmpty()) {
      sections.stream().map(CommonToken.class::cast).forEach(section -> {
        section.setType(StructuredTextLexer.VAR_GLOBAL);
        section.setText("VAR_GLOBAL");
      });
      return all;
    }
    Token first = sections.isEmpty() ? statement.get() : sections.get(0);
    List<Token> whole = new ArrayList<>(all);
    whole.addAll(all.indexOf(first), List.of(word(first, StructuredTextLexer.PROGRAM, "PROGRAM"),
        word(first, StructuredTextLexer.IDENTIFIER, name(file))));
    Token last = all.get(all.size() - 1);
    whole.add(whole.size() - 1, word(last, StructuredTextLexer.END_PROGRAM, "END_PROGRAM"));
    return whole;
  }

  private static Token word(Token place, int type, String text) {
    CommonToken word = new CommonToken(place);
    word.setType(type);
    word.setText(text);
    word.setChannel(Token.DEFAULT_CHANNEL);
    return word;
  }

  private static String name(String file) {
    String stem = Path.of(file).getFileName().toString().replaceFirst("\\..*", "").replaceAll("[^A-Za-z0-9_]", "_");
    return stem.isEmpty() || Character.isDigit(stem.charAt(0)) ? "_" + stem : stem;
  }
}
