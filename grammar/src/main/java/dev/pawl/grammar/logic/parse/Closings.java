package dev.pawl.grammar.logic.parse;

import dev.pawl.grammar.logic.Allowance;
import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import java.util.Locale;
import java.util.function.Consumer;
import org.antlr.v4.runtime.ParserRuleContext;
import org.antlr.v4.runtime.Token;

/** What ends statements and units, and may be missing where that is allowed. */
final class Closings {

  private final String file;
  private final LanguageChoices choices;
  private final Consumer<Diagnostic> diagnostics;

  Closings(String file, LanguageChoices choices, Consumer<Diagnostic> diagnostics) {
    this.file = file;
    this.choices = choices;
    this.diagnostics = diagnostics;
  }

  /** Tells of a semicolon that is not there. */
  void check(StructuredText.ClosingContext closing) {
    if (closing.SEMICOLON() == null) {
      Token word = ((ParserRuleContext) closing.getParent()).getStop();
      diagnostics.accept(Allowance.MISSING_SEMICOLONS.found(choices, Places.after(file, word),
          "expected ';' at this end", "every statement and declaration ends with ';', END_IF and the like included"));
    }
  }

  /** Where a unit ends; tells of an END_ word that is not there. */
  Position end(ParserRuleContext end) {
    if (end.getStart().getType() != Token.EOF) {
      return Places.of(file, end.getStart());
    }
    ParserRuleContext unit = end.getParent();
    Token start = unit.getStart();
    diagnostics.accept(Allowance.MISSING_ENDS.found(choices, Places.of(file, start), "the file ends without END_"
        + start.getText().toUpperCase(Locale.ROOT) + " for what begins here", "write it at the end"));
    return Places.of(file, start);
  }
}
