package dev.pawl.grammar.rules.parse;

import dev.pawl.grammar.rules.tree.Declaration;
import dev.pawl.grammar.source.Diagnostic;
import java.util.List;
import java.util.Optional;

/** Which versions of the language can be read, and what is wrong with how a file names its own. */
public final class LanguageVersion {

  /**
   * The version that is read here. It grows when a file can be written that an earlier pawl cannot read, or when a file
   * that both can read means something else.
   */
  public static final int KNOWN = 1;

  private static final int MOST_DIGITS = 6;

  private LanguageVersion() {}

  /** Whether one of these says that its file is written in a version that is not known yet. */
  public static boolean isNewer(List<Declaration> declarations) {
    return declarations.stream().anyMatch(it -> it instanceof Declaration.Language stated && isNewer(stated));
  }

  private static boolean isNewer(Declaration.Language stated) {
    return isWhole(stated) && Integer.parseInt(stated.version()) > KNOWN;
  }

  private static boolean isWhole(Declaration.Language stated) {
    return stated.version().matches("[1-9]\\d{0," + (MOST_DIGITS - 1) + "}");
  }

  /** What is wrong with a statement of the version, behind these declarations. */
  static Optional<Diagnostic> problem(Declaration.Language stated, List<Declaration> before) {
    if (!isWhole(stated)) {
      return Optional.of(Diagnostic.error(stated.position(), "`" + stated.version()
          + "` is no version of the language", "versions are counted from 1: language " + KNOWN));
    }
    if (isNewer(stated)) {
      return Optional.of(Diagnostic.error(stated.position(), "this file is written in version " + stated.version()
          + " of the language; this pawl knows versions up to " + KNOWN,
          "use a newer pawl ('pawl --version' says what one knows)"));
    }
    return before.isEmpty() ? Optional.empty() : Optional.of(Diagnostic.error(stated.position(),
        "the version of the language stands behind other declarations",
        "say it first: it tells how what follows is to be read"));
  }
}
