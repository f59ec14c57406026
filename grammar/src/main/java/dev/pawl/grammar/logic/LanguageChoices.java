package dev.pawl.grammar.logic;

import dev.pawl.grammar.logic.model.Elementary;
import java.util.Set;

/**
 * What is chosen of the language before a program is checked.
 *
 * @param allowed what is read though the standard does not have it
 * @param enumerations the type that holds an enumeration declared without one; the standard leaves it open
 * @param addresses what the number in an address counts; the standard leaves it open
 */
public record LanguageChoices(Set<Allowance> allowed, Elementary enumerations, Addresses addresses) {

  /** The standard, enumerations in 32 bits, and addresses that count as the program uses them. */
  public static final LanguageChoices DEFAULT = new LanguageChoices(Set.of(), Elementary.DINT,
      Addresses.BY_USE);

  public LanguageChoices {
    allowed = Set.copyOf(allowed);
  }

  public LanguageChoices with(Set<Allowance> more) {
    return new LanguageChoices(more, enumerations, addresses);
  }

  public LanguageChoices with(Elementary base) {
    return new LanguageChoices(allowed, base, addresses);
  }

  public LanguageChoices with(Addresses counted) {
    return new LanguageChoices(allowed, enumerations, counted);
  }

  /** What the number in %QW4 counts, and so which bits it shares with %QX8.0. */
  public enum Addresses {
    /** Bytes, unless declared addresses would then share what they cannot share, as %QW0 and %QW1. */
    BY_USE,
    /** Bytes: %QW4 begins with %QX4.0. */
    BYTES,
    /** Places of the size it names: %QW4 begins with %QX8.0. */
    SIZES,
    /** Places of the size it names, which share no memory with places of another size. */
    APART
  }
}
