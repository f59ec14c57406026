package dev.pawl.grammar.logic;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;

/**
 * What is not of the standard, is found in programs all the same, and does no harm: read with a warning where it is
 * allowed, and refused by one message otherwise.
 */
public enum Allowance {
  /** {@code END_IF}, {@code END_STRUCT} and the like without {@code ;}. */
  MISSING_SEMICOLONS("missing-semicolons"),
  /** A file that ends without {@code END_PROGRAM} and the like. */
  MISSING_ENDS("missing-ends"),
  /** Variables written {@code "name"} or {@code #name}. */
  QUOTED_NAMES("quoted-names"),
  /** A text that is not UTF-8, read as Windows-1252. */
  CODE_PAGES("code-pages"),
  /** TITLE, VERSION and the like above the variables of a unit, and BEGIN below them. */
  BLOCK_HEADERS("block-headers"),
  /** REGION and END_REGION, which only fold the text. */
  REGIONS("regions"),
  /** A PROGRAM that is called by its name, which then runs by that alone, and its variables named behind it. */
  PROGRAM_NAMES("program-names"),
  /** The integer type of an enumeration behind its members. */
  BASE_TYPES_BEHIND("base-types-behind"),
  /** Enumerations beside integers, which count as their values. */
  ENUMERATION_NUMBERS("enumeration-numbers"),
  /** Types, variables, units and resources that an export holds in additional data, in the form of the format. */
  ADDITIONAL_DATA("additional-data");

  private final String word;

  Allowance(String word) {
    this.word = word;
  }

  /** How the command line calls it. */
  public String word() {
    return word;
  }

  /** A warning where it is allowed, else an error that names the way to allow it. */
  public Diagnostic found(LanguageChoices choices, Position position, String message, String remedy) {
    boolean allowed = choices.allowed().contains(this);
    String hint = allowed ? remedy : remedy + ", or read it all the same with --allow " + word;
    return allowed ? Diagnostic.warning(position, message, hint) : Diagnostic.error(position, message, hint);
  }
}
