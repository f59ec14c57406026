package dev.pawl.trace.bindings;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.trace.bytes.Decimals;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Reads the section {@code beginning} of a bindings file: what signals were before their first rows. */
final class BeginningReader {

  private static final String ALL = "all";
  private static final String WAS = "was";
  private static final String OTHER = "other";

  private final RuleBook book;
  private final List<Diagnostic> diagnostics;
  private final Map<Integer, Long> values = new HashMap<>();
  private final Set<Integer> others = new HashSet<>();
  private final Set<String> said = new HashSet<>();

  BeginningReader(RuleBook book, List<Diagnostic> diagnostics) {
    this.book = book;
    this.diagnostics = diagnostics;
  }

  /** What is stated of a signal itself goes before what is stated of all. */
  StatedBeginning read(List<Entry> entries) {
    entries.stream().filter(entry -> entry.tokens().get(0).is(ALL)).forEach(this::read);
    entries.stream().filter(entry -> !entry.tokens().get(0).is(ALL)).forEach(this::read);
    return new StatedBeginning(values, others);
  }

  private void read(Entry entry) {
    List<Token> tokens = entry.tokens();
    if (tokens.size() != 3 || !tokens.get(1).is(WAS)) {
      error(tokens.get(0), "an entry of 'beginning' says what a signal was before its first row",
          "write: SIGNAL was VALUE, with a number in the unit that the rules declare; of a bool that is logged when it"
              + " changes SIGNAL was other, of all of them: all was other");
      return;
    }
    Token name = tokens.get(0);
    if (!said.add(name.text())) {
      error(name, "this is stated twice of '" + name.text() + "'", "keep one");
    } else if (name.is(ALL)) {
      all(tokens.get(2));
    } else {
      BindingsResolver.find(name, book, diagnostics).ifPresent(signal -> one(signal, tokens.get(2)));
    }
  }

  private void all(Token word) {
    if (!word.is(OTHER)) {
      error(word, "not all signals can have been '" + word.text() + "'",
          "write: all was other, which means every bool; or a line for each signal");
      return;
    }
    book.signals().stream().filter(signal -> signal.type().isBool()).map(Signal::index)
        .forEach(others::add);
  }

  private void one(Signal signal, Token word) {
    others.remove(signal.index());
    if (word.is(OTHER) && signal.type().isBool()) {
      others.add(signal.index());
    } else {
      value(signal, word).ifPresent(value -> values.put(signal.index(), value));
    }
  }

  private Optional<Long> value(Signal signal, Token word) {
    return signal.type().match(
        bool -> word.is("true") || word.is("false") ? Optional.of(word.is("true") ? 1L : 0L)
            : error(word, "a bool was true, false or other, not '" + word.text() + "'",
                "'other' means: not what its first row says"),
        enumeration -> ConversionReader.member(enumeration, word, diagnostics),
        quantity -> number(signal, quantity, word));
  }

  private Optional<Long> number(Signal signal, ValueType.Quantity quantity, Token word) {
    byte[] text = word.text().getBytes(StandardCharsets.UTF_8);
    double number = Decimals.parse(text, 0, text.length);
    if (Double.isNaN(number)) {
      return error(word, "'" + word.text() + "' is no number", "write what '" + signal.name() + "' was"
          + (quantity.unit().isEmpty() ? "" : " in " + quantity.unit()) + ", such as: " + signal.name() + " was 0");
    }
    return Optional.of(Double.doubleToRawLongBits(quantity.toSi(number)));
  }

  private <T> Optional<T> error(Token at, String message, String hint) {
    diagnostics.add(Diagnostic.error(at.position(), message, hint));
    return Optional.empty();
  }
}
