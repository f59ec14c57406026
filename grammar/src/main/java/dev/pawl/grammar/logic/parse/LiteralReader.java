package dev.pawl.grammar.logic.parse;

import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Consumer;

/** The reader of literals in every form of the standard's tables 5 to 9. */
final class LiteralReader {

  private final Consumer<Diagnostic> diagnostics;

  LiteralReader(Consumer<Diagnostic> diagnostics) {
    this.diagnostics = diagnostics;
  }

  /** {@code 12}, {@code -1_000} (the sign only after a type word), {@code 16#FF}, {@code 2#1010}, {@code 8#17}. */
  Expression integer(Optional<Name> type, String text, Position position) {
    boolean negative = text.startsWith("-");
    String digits = text.startsWith("-") || text.startsWith("+") ? text.substring(1) : text;
    int radix = 10;
    int hash = digits.indexOf('#');
    if (hash >= 0) {
      String base = digits.substring(0, hash);
      if (!base.equals("2") && !base.equals("8") && !base.equals("16")) {
        report(position, "'" + text + "' has base " + base + "; the bases are 2, 8, 10 and 16", "");
        return new Expression.IntegerLiteral(type, BigInteger.ZERO, position);
      }
      radix = Integer.parseInt(base);
      digits = digits.substring(hash + 1);
    }
    BigInteger value = BigInteger.ZERO;
    if (wellSpaced(digits, text, position)) {
      try {
        value = new BigInteger(digits.replace("_", ""), radix);
      } catch (NumberFormatException notDigits) {
        report(position, "'" + text + "' is not a number of base " + radix, "");
      }
    }
    return new Expression.IntegerLiteral(type, negative ? value.negate() : value, position);
  }

  Expression real(Optional<Name> type, String text, Position position) {
    BigDecimal value = BigDecimal.ZERO;
    if (wellSpaced(text, text, position)) {
      try {
        value = new BigDecimal(text.replace("_", ""));
        if (Double.isInfinite(value.doubleValue())) {
          report(position, "'" + text + "' is too large for LREAL", "");
          value = BigDecimal.ZERO;
        }
      } catch (NumberFormatException notNumber) {
        report(position, "'" + text + "' has an exponent that is too large", "");
      }
    }
    return new Expression.RealLiteral(type, value, position);
  }

  /** {@code INT#5}, {@code WORD#16#FF}, {@code REAL#1.5E3}; the text starts after the type word. */
  Expression typedNumber(Name type, String text, Position position) {
    boolean based = text.indexOf('#') >= 0;
    boolean real = !based && (text.indexOf('.') >= 0 || text.toUpperCase(Locale.ROOT).indexOf('E') >= 0);
    return real ? real(Optional.of(type), text, position) : integer(Optional.of(type), text, position);
  }

  private boolean wellSpaced(String digits, String text, Position position) {
    boolean wrong = digits.startsWith("_") || digits.endsWith("_") || digits.contains("__") || digits.contains("_.")
        || digits.contains("._");
    if (wrong) {
      report(position, "'" + text + "' has an underscore that does not stand between two digits", "");
    }
    return !wrong;
  }

  /** A string with its quotes; {@code $} escapes are replaced. */
  Expression string(Optional<Name> type, String quoted, Position position) {
    boolean wide = quoted.charAt(0) == '"';
    String body = quoted.substring(1, quoted.length() - 1);
    StringBuilder value = new StringBuilder();
    int at = 0;
    while (at < body.length()) {
      char c = body.charAt(at++);
      if (c != '$') {
        value.append(c);
        continue;
      }
      int used = escape(body, at, wide, value);
      if (used == 0) {
        Position place = new Position(position.file(), position.line(), position.column() + at, 1);
        report(place, "'$' starts no known escape here",
            "write $$ for a dollar sign; the others are $' $\" $L $N $P $R $T and " + (wide ? "$hhhh" : "$hh")
            + " with hexadecimal digits");
        return new Expression.StringLiteral(type, wide, "", position);
      }
      at += used;
    }
    return new Expression.StringLiteral(type, wide, value.toString(), position);
  }

  /** Appends the character that an escape stands for; the number of characters used, 0 for none. */
  private static int escape(String body, int at, boolean wide, StringBuilder value) {
    if (at >= body.length()) {
      return 0;
    }
    char c = Character.toUpperCase(body.charAt(at));
    int named = "$'\"LNPRT".indexOf(c);
    if (named >= 0) {
      value.append("$'\"\n\n\f\r\t".charAt(named));
      return 1;
    }
    int digits = wide ? 4 : 2;
    if (at + digits > body.length() || !body.substring(at, at + digits).matches("[0-9A-Fa-f]+")) {
      return 0;
    }
    value.append((char) Integer.parseInt(body.substring(at, at + digits), 16));
    return digits;
  }

  private void report(Position position, String message, String hint) {
    diagnostics.accept(Diagnostic.error(position, message, hint));
  }
}
