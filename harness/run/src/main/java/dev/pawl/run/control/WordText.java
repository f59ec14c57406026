package dev.pawl.run.control;

import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.ValueText;

/** A value of a program in its own words. */
final class WordText {

  private static final int HEXADECIMAL = 16;

  private WordText() {}

  /** The text of a word of an elementary type, an enumeration or a subrange. */
  static String of(LogicType type, long word) {
    if (type instanceof LogicType.EnumerationType names) {
      return names.members().stream().filter(it -> it.value() == word).findFirst().map(LogicType.Member::name)
          .orElse(Long.toString(word));
    }
    Elementary stored = type.stored().orElseThrow();
    return switch (stored.kind()) {
      case BOOLEAN -> word != 0 ? "TRUE" : "FALSE";
      case BITS -> "16#" + Long.toUnsignedString(word, HEXADECIMAL).toUpperCase(java.util.Locale.ROOT);
      case SIGNED -> Long.toString(word);
      case UNSIGNED, CHARACTER -> Long.toUnsignedString(word);
      case REAL -> ValueText.number(Double.longBitsToDouble(word));
      case DURATION -> TimeText.duration(word);
      case CLOCK, DATE, DATE_TIME -> TimeText.duration(word);
    };
  }
}
