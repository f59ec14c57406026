package dev.pawl.grammar.logic;

import dev.pawl.grammar.logic.model.Elementary;
import java.util.Set;

/**
 * What is chosen of the language before a program is checked.
 *
 * @param allowed what is read though the standard does not have it
 * @param enumerations the type that holds an enumeration declared without one; the standard leaves it open
 */
public record LanguageChoices(Set<Allowance> allowed, Elementary enumerations) {

  /** The standard, and enumerations in 32 bits. */
  public static final LanguageChoices DEFAULT = new LanguageChoices(Set.of(), Elementary.DINT);

  public LanguageChoices {
    allowed = Set.copyOf(allowed);
  }

  public LanguageChoices with(Set<Allowance> more) {
    return new LanguageChoices(more, enumerations);
  }

  public LanguageChoices with(Elementary base) {
    return new LanguageChoices(allowed, base);
  }
}
