package dev.pawl.plant.text;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.rules.units.UnitTable;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.NearName;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The signals that rules declare, as ride files and scenarios name them; what is wrong with a name or value is told.
 */
public final class Signals {

  private static final String NUMBER = "-?\\d{1,12}(\\.\\d{1,12})?";

  private final Map<String, Signal> byName = new HashMap<>();
  private final Diagnostics diagnostics;

  public Signals(RuleBook book, Diagnostics diagnostics) {
    book.signals().forEach(signal -> byName.put(signal.name(), signal));
    this.diagnostics = diagnostics;
  }

  /** The signal of a name. */
  public Optional<Signal> find(Word name) {
    Signal signal = byName.get(name.text());
    if (signal == null || name.quoted()) {
      diagnostics.error(name.position(), "the rules declare no signal '" + name.text() + "'",
          NearName.hint(name.text(), byName.keySet()).orElse("declare it in the rules, or name another"));
      return Optional.empty();
    }
    return Optional.of(signal);
  }

  /** The signal of a name that runs one way. */
  public Optional<Signal> find(Word name, Signal.Direction direction, String why) {
    Optional<Signal> signal = find(name);
    if (signal.isPresent() && signal.get().direction() != direction) {
      diagnostics.error(name.position(), "'" + name.text() + "' is declared as an " + signal.get().direction().name()
          .toLowerCase(Locale.ROOT) + ", but " + why, "declare it as an " + direction.name().toLowerCase(
              Locale.ROOT) + " in the rules, or name another");
      return Optional.empty();
    }
    return signal;
  }

  /** Whether a signal is a switch; that it is none is told. */
  public boolean isSwitch(Word name, Signal signal) {
    boolean fits = signal.type().isBool();
    if (!fits) {
      diagnostics.error(name.position(), "'" + name.text() + "' is no bool, but here it has to be one",
          "declare it as bool in the rules, or name another");
    }
    return fits;
  }

  /**
   * The value that words spell: 0 or 1, the number of a name, or a number in SI base units. A number without a unit is
   * in
   * that of its signal.
   */
  public OptionalDouble value(Signal signal, Word first, Optional<Word> unit) {
    OptionalDouble value = signal.type().match(
        bool -> unit.isEmpty() && !first.quoted() ? member(List.of("false", "true"), first) : OptionalDouble.empty(),
        enumeration -> unit.isEmpty() ? member(enumeration.names(), first) : OptionalDouble.empty(),
        quantity -> number(quantity, first, unit));
    if (value.isEmpty()) {
      String expected = signal.type().match(bool -> "true or false", enumeration -> "one of "
          + String.join(", ", enumeration.names()), quantity -> quantity.unit().isEmpty() ? "a number"
              : "a number of " + quantity.unit());
      diagnostics.error(first.position(), first.shown() + unit.map(it -> " " + it.shown()).orElse("")
          + " is no value of '" + signal.name() + "'", "it is " + expected);
    }
    return value;
  }

  private static OptionalDouble member(List<String> names, Word word) {
    int index = names.indexOf(word.text());
    return index < 0 ? OptionalDouble.empty() : OptionalDouble.of(index);
  }

  private static OptionalDouble number(ValueType.Quantity quantity, Word first, Optional<Word> unit) {
    Optional<ValueType.Quantity> written = unit.map(it -> UnitTable.find(it.text())).orElse(Optional.of(quantity));
    return first.text().matches(NUMBER) && written.isPresent() && written.get().dimension().equals(quantity.dimension())
        ? OptionalDouble.of(written.get().toSi(Double.parseDouble(first.text()))) : OptionalDouble.empty();
  }

  /** The words {@code SIGNAL = VALUE} as a signal and its value, from a place on; how many words they were. */
  public Optional<Setting> setting(List<Word> words, int at) {
    if (at + 2 >= words.size() || !words.get(at + 1).is("=")) {
      Word where = words.get(Math.min(at, words.size() - 1));
      diagnostics.error(where.position(), "here stands a signal with its value", "write SIGNAL = VALUE");
      return Optional.empty();
    }
    Optional<Signal> signal = find(words.get(at));
    boolean withUnit = at + 3 < words.size() && signal.isPresent() && signal.get().type().isNumber()
        && UnitTable.find(words.get(at + 3).text()).isPresent();
    int count = withUnit ? 4 : 3;
    if (signal.isEmpty()) {
      return Optional.empty();
    }
    OptionalDouble value = value(signal.get(), words.get(at + 2), withUnit ? Optional.of(words.get(at + 3))
        : Optional.empty());
    return value.isPresent() ? Optional.of(new Setting(signal.get().index(), value.getAsDouble(), count))
        : Optional.empty();
  }

  /**
   * A signal with a value.
   *
   * @param words how many words it was written in
   */
  public record Setting(int signal, double value, int words) {}
}
