package dev.pawl.grammar.rules.parse;

import java.util.List;
import java.util.stream.IntStream;

/** All words of the language, for those who complete or colour it. */
public final class RuleWords {

  public static final List<String> ALL = IntStream.rangeClosed(1, RulesParser.VOCABULARY.getMaxTokenType())
      .mapToObj(LanguageWords::text).filter(text -> !text.isEmpty() && Character.isLetter(text.charAt(0))).sorted()
      .toList();

  private RuleWords() {}
}
