package dev.pawl.grammar.logic.parse;

import dev.pawl.grammar.logic.Allowance;
import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.source.Diagnostic;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;
import org.antlr.v4.runtime.Token;

/** Actions behind the end of their unit, where some exports have them, which are read as if they stood before it. */
final class LateActions {

  private static final Set<Integer> ENDS = Set.of(StructuredTextLexer.END_PROGRAM,
      StructuredTextLexer.END_FUNCTION_BLOCK);

  private LateActions() {}

  /** The same words, with the end of each unit behind the actions that follow it, which is told. */
  static List<Token> moved(String file, List<Token> tokens, LanguageChoices choices,
      Consumer<Diagnostic> diagnostics) {
    List<Token> moved = new ArrayList<>();
    int i = 0;
    while (i < tokens.size()) {
      Token token = tokens.get(i);
      int begin = ENDS.contains(token.getType()) ? visible(tokens, i + 1) : 0;
      begin = begin > 0 && tokens.get(begin).getType() == StructuredTextLexer.SEMICOLON ? visible(tokens, begin + 1)
          : begin;
      int behind = begin > 0 ? behind(tokens, begin) : begin;
      if (behind > begin) {
        diagnostics.accept(Allowance.ACTIONS_BEHIND.found(choices, Places.of(file, tokens.get(begin)),
            "an ACTION stands behind the end of its unit", "write it before " + token.getText()));
        moved.addAll(tokens.subList(begin, behind));
        moved.add(token);
        i = behind;
      } else {
        moved.add(token);
        i++;
      }
    }
    return moved;
  }

  /** The place behind the last action of those that begin here; the same place where none does. */
  private static int behind(List<Token> tokens, int begin) {
    int i = begin;
    while (i < tokens.size() && tokens.get(i).getType() == StructuredTextLexer.ACTION) {
      int end = i;
      while (end < tokens.size() && tokens.get(end).getType() != StructuredTextLexer.END_ACTION) {
        end++;
      }
      if (end == tokens.size()) {
        return begin;
      }
      i = visible(tokens, end + 1);
      i = tokens.get(i).getType() == StructuredTextLexer.SEMICOLON ? visible(tokens, i + 1) : i;
    }
    return i;
  }

  private static int visible(List<Token> tokens, int from) {
    int i = from;
    while (tokens.get(i).getType() != Token.EOF && tokens.get(i).getChannel() != Token.DEFAULT_CHANNEL) {
      i++;
    }
    return i;
  }
}
