package dev.pawl.logic;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.ValueType;
import java.util.Optional;

/**
 * The conversion between the engine's value of a signal and the word of a variable. A number is passed in its signal's
 * written unit.
 */
sealed interface VariableConversion {

  /** The word for an engine value that is known. */
  long toWord(long value);

  /** The engine value for a word; {@link EventSink#UNKNOWN} where it stands for none. */
  long toValue(long word);

  /** Whether its values are states, such as on and off, of which each counts, rather than measurements. */
  default boolean states() {
    return false;
  }

  /** The conversion between two types, or nothing where they do not go together. */
  static Optional<VariableConversion> between(ValueType signal, LogicType variable) {
    Optional<Elementary> stored = variable.stored();
    if (stored.isEmpty()) {
      return Optional.empty();
    }
    return signal.match(
        bool -> stored.get() == Elementary.BOOL ? Optional.of(new Same(2)) : Optional.empty(),
        names -> variable instanceof LogicType.EnumerationType members ? Members.between(names, members)
            : stored.get().isInteger() ? Optional.of(new Same(names.names().size())) : Optional.empty(),
        quantity -> variable instanceof LogicType.EnumerationType ? Optional.empty() : number(quantity, stored.get()));
  }

  private static Optional<VariableConversion> number(ValueType.Quantity signal, Elementary stored) {
    if (stored.kind() == Elementary.Kind.DURATION) {
      return signal.dimension().equals(Dimension.TIME) ? Optional.of(new Duration()) : Optional.empty();
    }
    return stored.isNumber() ? Optional.of(new Scaled(stored, signal)) : Optional.empty();
  }

  /** What a signal of that type goes together with. */
  static String hint(ValueType signal) {
    return signal.match(
        bool -> "a bool signal needs a BOOL variable",
        names -> "an enumeration needs an enumeration with the same names, or an integer variable that holds the index",
        quantity -> "a number needs a REAL, LREAL or integer variable, a time also a TIME one");
  }

  /** Truth values, and enumerations held as their index. */
  record Same(int values) implements VariableConversion {
    @Override
    public boolean states() {
      return true;
    }

    @Override
    public long toWord(long value) {
      return value;
    }

    @Override
    public long toValue(long word) {
      return word >= 0 && word < values ? word : EventSink.UNKNOWN;
    }
  }

  /** Enumerations by the names of their members. */
  record Members(long[] words) implements VariableConversion {
    @Override
    public boolean states() {
      return true;
    }

    static Optional<VariableConversion> between(ValueType.Enumeration names, LogicType.EnumerationType members) {
      long[] words = new long[names.names().size()];
      for (int i = 0; i < words.length; i++) {
        Optional<LogicType.Member> member = members.member(names.names().get(i));
        if (member.isEmpty()) {
          return Optional.empty();
        }
        words[i] = member.get().value();
      }
      return Optional.of(new Members(words));
    }

    @Override
    public long toWord(long value) {
      return words[(int) value];
    }

    @Override
    public long toValue(long word) {
      for (int i = 0; i < words.length; i++) {
        if (words[i] == word) {
          return i;
        }
      }
      return EventSink.UNKNOWN;
    }
  }

  /** Seconds as nanoseconds. */
  record Duration() implements VariableConversion {
    @Override
    public long toWord(long value) {
      return Math.round(Double.longBitsToDouble(value) * 1e9);
    }

    @Override
    public long toValue(long word) {
      return Double.doubleToRawLongBits(word / 1e9);
    }
  }

  /**
   * Numbers in the unit that the signal is written in. Integers are rounded and cut to the variable's range. A REAL
   * stands for the shortest decimal number that it is nearest to, so that 0.3 is not above a bound of 0.3. A NaN and an
   * infinity are unknown.
   */
  record Scaled(Elementary type, ValueType.Quantity unit) implements VariableConversion {
    @Override
    public long toWord(long value) {
      double logged = unit.toWritten(Double.longBitsToDouble(value));
      if (type.isReal()) {
        return Double.doubleToRawLongBits(type == Elementary.REAL ? (float) logged : logged);
      }
      double least = type.least().doubleValue();
      double greatest = type.greatest().doubleValue();
      return (long) Math.rint(Math.min(Math.max(logged, least), greatest));
    }

    @Override
    public long toValue(long word) {
      if (!type.isReal()) {
        return Double.doubleToRawLongBits(unit.scale().convert(word, 0));
      }
      double real = Double.longBitsToDouble(word);
      double si = unit.toSi(type == Elementary.REAL ? shortest(real) : real);
      return Double.isFinite(si) ? Double.doubleToRawLongBits(si + 0.0) : EventSink.UNKNOWN;
    }

    private static double shortest(double real) {
      return real == Math.rint(real) || Double.isNaN(real) ? real : Double.parseDouble(Float.toString((float) real));
    }
  }
}
