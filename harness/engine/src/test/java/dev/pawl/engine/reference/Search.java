package dev.pawl.engine.reference;

import dev.pawl.grammar.rules.model.Truth;

/** Questions asked of a truth table. Moments may lie outside the table, where there is nothing to find. */
final class Search {
  static final long NEVER = Long.MAX_VALUE / 4;

  private Search() {}

  /** The first moment from {@code from} on at which the table has a value, or {@link #NEVER}. */
  static long first(Truth[] table, Truth value, long from) {
    for (long m = from; m < table.length; m++) {
      if (table[(int) m] == value) {
        return m;
      }
    }
    return NEVER;
  }

  /** The worst doubt in {@code [from, to]}: unknown, else borderline, else false for none. */
  static Truth doubt(Truth[] table, long from, long to) {
    Truth doubt = Truth.FALSE;
    for (long m = from; m <= to && m < table.length; m++) {
      doubt = worse(doubt, table[(int) m]);
    }
    return doubt;
  }

  static Truth worse(Truth doubt, Truth truth) {
    if (doubt == Truth.UNKNOWN || truth == Truth.UNKNOWN) {
      return Truth.UNKNOWN;
    }
    return doubt == Truth.BORDERLINE || truth == Truth.BORDERLINE ? Truth.BORDERLINE : Truth.FALSE;
  }
}
