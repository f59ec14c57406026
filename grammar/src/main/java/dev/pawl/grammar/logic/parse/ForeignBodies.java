package dev.pawl.grammar.logic.parse;

import dev.pawl.grammar.logic.Allowance;
import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.antlr.v4.runtime.CommonToken;
import org.antlr.v4.runtime.Token;

/**
 * Bodies of another language, in braces. Exports bring blocks with such bodies along, whether a program uses them or
 * not: those that nothing in their file uses can be left out.
 */
final class ForeignBodies {

  private static final Map<Integer, Integer> ENDS = Map.of(StructuredTextLexer.FUNCTION,
      StructuredTextLexer.END_FUNCTION, StructuredTextLexer.FUNCTION_BLOCK, StructuredTextLexer.END_FUNCTION_BLOCK);

  private final String file;
  private final LanguageChoices choices;
  private final Consumer<Diagnostic> diagnostics;

  ForeignBodies(String file, LanguageChoices choices, Consumer<Diagnostic> diagnostics) {
    this.file = file;
    this.choices = choices;
    this.diagnostics = diagnostics;
  }

  /** Passes over the blocks and functions that can be left out; false where a foreign body stays, which is told. */
  boolean passedOver(List<Token> tokens) {
    List<Token> bodies = tokens.stream().filter(ForeignBodies::foreign).toList();
    if (bodies.isEmpty()) {
      return true;
    }
    List<Block> blocks = blocks(tokens);
    Set<Block> foreign = blocks.stream().filter(block -> bodies.stream().anyMatch(block::holds))
        .collect(Collectors.toCollection(LinkedHashSet::new));
    boolean more = true;
    while (more) {
      List<Block> users = blocks.stream().filter(block -> !foreign.contains(block) && block.words().stream()
          .anyMatch(word -> foreign.stream().anyMatch(other -> other.isNamed(word)))).toList();
      more = foreign.addAll(users);
    }
    Predicate<Token> stays = token -> foreign.stream().noneMatch(block -> block.holds(token));
    boolean used = bodies.stream().anyMatch(stays) || tokens.stream().filter(stays).anyMatch(token ->
        foreign.stream().anyMatch(block -> block.isNamed(token)));
    if (used) {
      bodies.forEach(body -> diagnostics.accept(Diagnostic.error(start(body),
          "a body of another language, in braces, is not supported", "write it in Structured Text")));
      return false;
    }
    diagnostics.accept(Allowance.UNUSED_FOREIGN_BODIES.found(choices, start(bodies.get(0)),
        "a body of another language, in braces, where nothing in the file uses " + foreign.stream().map(block ->
        block.name().getText() + " (line " + block.name().getLine() + ")").collect(Collectors.joining(", ")),
        "take " + (foreign.size() == 1 ? "it" : "them") + " out"));
    tokens.stream().filter(stays.negate()).map(CommonToken.class::cast).forEach(token ->
        token.setChannel(Token.HIDDEN_CHANNEL));
    return true;
  }

  /** Braces are for remarks to a tool, which are passed over; a body in another language cannot be. */
  private static boolean foreign(Token token) {
    return token.getType() == StructuredTextLexer.PRAGMA && token.getText().indexOf(';') >= 0;
  }

  private Position start(Token body) {
    int end = body.getText().indexOf('\n');
    int length = Math.min(40, end < 0 ? body.getText().length() : Math.max(1, end));
    return new Position(file, body.getLine(), body.getCharPositionInLine() + 1, length);
  }

  private static List<Block> blocks(List<Token> tokens) {
    List<Block> blocks = new ArrayList<>();
    List<Token> words = tokens.stream().filter(token -> token.getChannel() == Token.DEFAULT_CHANNEL).toList();
    for (int i = 0; i + 1 < words.size(); i++) {
      Integer end = ENDS.get(words.get(i).getType());
      if (end != null && words.get(i + 1).getType() == StructuredTextLexer.IDENTIFIER) {
        int last = i;
        while (last < words.size() && words.get(last).getType() != end) {
          last++;
        }
        if (last < words.size()) {
          blocks.add(new Block(words.get(i + 1), words.subList(i, last + 1)));
        }
      }
    }
    return blocks;
  }

  /** A block or function, from its first word to its END. */
  private record Block(Token name, List<Token> words) {

    boolean holds(Token token) {
      return token.getTokenIndex() >= words.get(0).getTokenIndex()
          && token.getTokenIndex() <= words.get(words.size() - 1).getTokenIndex();
    }

    boolean isNamed(Token word) {
      return word.getType() == StructuredTextLexer.IDENTIFIER && word.getChannel() == Token.DEFAULT_CHANNEL
          && word.getText().toUpperCase(Locale.ROOT).equals(name.getText().toUpperCase(Locale.ROOT));
    }
  }
}
