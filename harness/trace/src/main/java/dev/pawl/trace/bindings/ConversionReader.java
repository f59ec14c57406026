package dev.pawl.trace.bindings;

import dev.pawl.grammar.rules.model.Exact;
import dev.pawl.grammar.rules.model.Scale;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.rules.units.UnitTable;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import dev.pawl.trace.bytes.Decimals;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * Reads what follows the tag in an entry: {@code inverted}, {@code in UNIT}, {@code times X}, {@code plus Y} or {@code
 * where ...}.
 */
public final class ConversionReader {

  private final ValueType type;
  private final List<Diagnostic> diagnostics;
  private Scale scale = Scale.SAME;

  /** A reader for a signal of the given type, that adds what is wrong to {@code diagnostics}. */
  public ConversionReader(ValueType type, List<Diagnostic> diagnostics) {
    this.type = type;
    this.diagnostics = diagnostics;
  }

  /** The conversion that the tokens from {@code at} on state; empty after an error. */
  public Optional<Conversion> read(Entry entry, int at) {
    List<Token> tokens = entry.tokens();
    if (at >= tokens.size()) {
      return Optional.of(new Conversion.Plain());
    }
    Token word = tokens.get(at);
    if (word.is("where")) {
      return codes(tokens, at + 1, entry.position());
    }
    if (word.is("inverted")) {
      return inverted(tokens, at);
    }
    return scaled(tokens, at);
  }

  private Optional<Conversion> inverted(List<Token> tokens, int at) {
    if (!type.isBool()) {
      return error(tokens.get(at).position(), "only a bool can be inverted", "leave 'inverted' out, or bind a bool");
    }
    if (at + 1 < tokens.size()) {
      return error(tokens.get(at + 1).position(), "nothing can follow 'inverted'", "leave it out");
    }
    return Optional.of(new Conversion.Inverted());
  }

  private Optional<Conversion> scaled(List<Token> tokens, int from) {
    for (int at = from; at < tokens.size(); at += 2) {
      Token word = tokens.get(at);
      if (!word.is("in") && !word.is("times") && !word.is("plus")) {
        return error(word.position(), "'" + word.text() + "' is not understood here",
            "after the tag come: inverted, in UNIT, times X, plus Y, or where CODE = VALUE, ...");
      }
      if (!type.isNumber()) {
        return error(word.position(), "only a number can be scaled",
            "leave '" + word.text() + "' out, or bind a number");
      }
      if (at + 1 >= tokens.size()) {
        return error(word.position(), "'" + word.text() + "' needs " + (word.is("in") ? "a unit" : "a number")
            + " after it",
            word.is("in") ? "write it, such as: in mm/s" : "write it, such as: " + word.text() + " 0.001");
      }
      if (!(word.is("in") ? unit(tokens.get(at + 1)) : number(word, tokens.get(at + 1)))) {
        return Optional.empty();
      }
    }
    return Optional.of(new Conversion.Scaled(scale));
  }

  private boolean number(Token word, Token token) {
    byte[] text = token.text().getBytes(StandardCharsets.UTF_8);
    double value = Decimals.parse(text, 0, text.length);
    if (Double.isNaN(value) || word.is("times") && value == 0) {
      error(token.position(), "'" + token.text() + "' is no number to scale with",
          "write a decimal number, such as 0.001");
      return false;
    }
    Exact exact = value == 0 ? Exact.ZERO : Exact.of(new BigDecimal(token.text()));
    scale = scale.then(word.is("times") ? new Scale(exact, Exact.ZERO) : new Scale(Exact.ONE, exact));
    return true;
  }

  private boolean unit(Token token) {
    Optional<ValueType.Quantity> found = UnitTable.find(token.text());
    if (found.isEmpty()) {
      error(token.position(), "'" + token.text() + "' is no unit of the rule language",
          UnitTable.hint(token.text()).orElse("use one of its units, or times and plus"));
      return false;
    }
    ValueType.Quantity logged = found.get();
    ValueType.Quantity declared = (ValueType.Quantity) type;
    if (!logged.dimension().equals(declared.dimension())) {
      error(token.position(), "'" + token.text() + "' does not measure what the signal does, which is declared in '"
          + declared.unit() + "'", "use a unit of the same kind");
      return false;
    }
    scale = scale.then(logged.scale()).then(declared.scale().back());
    return true;
  }

  private Optional<Conversion> codes(List<Token> tokens, int from, Position whole) {
    Map<String, Long> values = new LinkedHashMap<>();
    for (int at = from; at < tokens.size() || at == from; at += 4) {
      boolean complete = at + 2 < tokens.size() && tokens.get(at + 1).is("=");
      boolean separated = at + 3 >= tokens.size() || tokens.get(at + 3).is(",");
      if (!complete || !separated) {
        Position position = at < tokens.size() ? tokens.get(at).position() : whole;
        return error(position, "codes are written CODE = VALUE, with commas between",
            "such as: where 0 = off, 1 = running");
      }
      Token meaning = tokens.get(at + 2);
      Optional<Long> value = meaning(meaning);
      if (value.isEmpty()) {
        return Optional.empty();
      }
      if (values.put(tokens.get(at).text(), value.get()) != null) {
        return error(tokens.get(at).position(), "code '" + tokens.get(at).text() + "' is given twice", "keep one");
      }
    }
    return Optional.of(new Conversion.Mapped(values));
  }

  private Optional<Long> meaning(Token token) {
    return type.match(bool -> {
      String word = token.text().toLowerCase(Locale.ROOT);
      return word.equals("true") || word.equals("false") ? Optional.of(word.equals("true") ? 1L : 0L)
          : error(token.position(), "a bool is true or false, not '" + token.text() + "'",
              "such as: where OK = true, TRIPPED = false");
    }, enumeration -> member(enumeration, token, diagnostics),
        quantity -> error(token.position(), "a number has no codes", "use times and plus"));
  }

  /** The index of a member; none, which is told, where it is none. */
  static Optional<Long> member(ValueType.Enumeration enumeration, Token token, List<Diagnostic> diagnostics) {
    int index = enumeration.names().indexOf(token.text());
    if (index < 0) {
      diagnostics.add(Diagnostic.error(token.position(), "'" + token.text() + "' is not a member of the signal's type",
          NearName.hint(token.text(), enumeration.names()).orElse("members are "
              + String.join(", ", enumeration.names()))));
    }
    return index < 0 ? Optional.empty() : Optional.of((long) index);
  }

  private <T> Optional<T> error(Position position, String message, String hint) {
    diagnostics.add(Diagnostic.error(position, message, hint));
    return Optional.empty();
  }
}
