package dev.pawl.grammar.logic.parse;

import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.antlr.v4.runtime.Token;

/** Words by which programs ask for what the language read here has not, and what can be written instead. */
final class ForeignConstructs {

  /** What to do where objects are used; all of that is one cause. */
  static final String OBJECTS = "objects are not supported: write function blocks without it, and its methods as"
      + " functions or function blocks of their own";

  /** What to do where references are used; all of that is one cause too. */
  static final String REFERENCES = "references and pointers are not supported: pass the variable itself, by VAR_IN_OUT";

  private static final String HEADER = "a block has no such header: make a remark of it, in (* and *)";

  private static final Map<String, String> HINTS = Map.ofEntries(
      Map.entry("POINTER", REFERENCES),
      Map.entry("REFERENCE", REFERENCES),
      Map.entry("UNION", "use a bit string and its parts, such as w.%B0"),
      Map.entry("METHOD", OBJECTS),
      Map.entry("PROPERTY", OBJECTS),
      Map.entry("ABSTRACT", OBJECTS),
      Map.entry("FINAL", OBJECTS),
      Map.entry("PUBLIC", OBJECTS),
      Map.entry("PRIVATE", OBJECTS),
      Map.entry("PROTECTED", OBJECTS),
      Map.entry("INTERNAL", OBJECTS),
      Map.entry("THIS", OBJECTS),
      Map.entry("SUPER", OBJECTS),
      Map.entry("VAR_STAT", "declare it in VAR of a FUNCTION_BLOCK"),
      Map.entry("VAR_INST", "declare it in VAR of a FUNCTION_BLOCK"),
      Map.entry("PERSISTENT", "write RETAIN"),
      Map.entry("BEGIN", "statements follow the last END_VAR without it"),
      Map.entry("TITLE", HEADER),
      Map.entry("VERSION", HEADER),
      Map.entry("AUTHOR", HEADER),
      Map.entry("FAMILY", HEADER),
      Map.entry("KNOW_HOW_PROTECT", HEADER),
      Map.entry("ORGANIZATION_BLOCK", "write it as a PROGRAM"),
      Map.entry("DATA_BLOCK", "declare its variables in VAR_GLOBAL"),
      Map.entry("REGION", "make a remark of it, in (* and *)"),
      Map.entry("GOTO", "write the jump as IF, or as a loop with EXIT"),
      Map.entry("JMP", "write the jump as IF, or as a loop with EXIT"),
      Map.entry("S", "S= sets: write IF condition THEN variable := TRUE; END_IF;"),
      Map.entry("R", "R= resets: write IF condition THEN variable := FALSE; END_IF;"),
      Map.entry("REF", REFERENCES));

  private ForeignConstructs() {}

  /** A letter that is foreign only before =, and may be a name otherwise. */
  static boolean latching(Token token) {
    return token.getText().length() == 1;
  }

  /** What to write instead, where a word is one of them. */
  static Optional<String> hint(Token token) {
    boolean word = Set.of(StructuredText.IDENTIFIER, StructuredText.REF, StructuredText.METHOD, StructuredText.THIS,
        StructuredText.SUPER).contains(token.getType());
    return word ? Optional.ofNullable(HINTS.get(token.getText().toUpperCase(Locale.ROOT))) : Optional.empty();
  }
}
