package dev.pawl.trace.bindings;

import dev.pawl.grammar.rules.model.Scale;
import dev.pawl.grammar.rules.model.ValueType;
import java.util.Map;
import java.util.function.Function;

/** How a tag's logged value becomes a signal's, before the signal's own unit is applied. */
public sealed interface Conversion {

  /** The answer for the one it is. */
  <R> R match(Function<Plain, R> plain, Function<Inverted, R> inverted, Function<Scaled, R> scaled,
      Function<Mapped, R> mapped);

  /** As it is. */
  record Plain() implements Conversion {
    @Override
    public <R> R match(Function<Plain, R> plain, Function<Inverted, R> inverted, Function<Scaled, R> scaled,
        Function<Mapped, R> mapped) {
      return plain.apply(this);
    }
  }

  /** The opposite of the logged bit. */
  record Inverted() implements Conversion {
    @Override
    public <R> R match(Function<Plain, R> plain, Function<Inverted, R> inverted, Function<Scaled, R> scaled,
        Function<Mapped, R> mapped) {
      return inverted.apply(this);
    }
  }

  /**
   * A number on another scale.
   *
   * @param scale from what is logged to the signal's declared unit
   */
  record Scaled(Scale scale) implements Conversion {
    @Override
    public <R> R match(Function<Plain, R> plain, Function<Inverted, R> inverted, Function<Scaled, R> scaled,
        Function<Mapped, R> mapped) {
      return scaled.apply(this);
    }

    /** From what is logged to SI base units, in one step. */
    public Scale toSi(ValueType.Quantity declared) {
      return scale.then(declared.scale());
    }
  }

  /**
   * Codes of the site.
   *
   * @param values engine value of each code; other codes are wrong
   */
  record Mapped(Map<String, Long> values) implements Conversion {
    public Mapped {
      values = Map.copyOf(values);
    }

    @Override
    public <R> R match(Function<Plain, R> plain, Function<Inverted, R> inverted, Function<Scaled, R> scaled,
        Function<Mapped, R> mapped) {
      return mapped.apply(this);
    }
  }
}
