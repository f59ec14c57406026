package dev.pawl.engine.reference;

import dev.pawl.grammar.rules.model.Truth;

/** One form of demand, judged for one obligation at a time. */
interface Form {

  /** How the obligation that arose at {@code m0} ends, the rule's {@code unless} left aside. */
  Ruling judge(int m0);

  /**
   * Adds the distances to breaking of the obligation that arose at {@code m0}, as far as they were seen before it was
   * cancelled, or may have been, at {@code spared}.
   */
  void measure(int m0, Ruling ruling, long spared, Margins margins);

  /** Adds only how late the response of a missed obligation was. */
  default void measureLateness(int m0, Ruling ruling, Margins margins) {}

  /**
   * Whether the obligation from {@code m0} may have been missed before a moment at which it is cancelled: F for surely
   * not, else by what unknown.
   */
  default Truth doubtBefore(int m0, long rise) {
    return Truth.FALSE;
  }

  /** Up to when {@code unless} cancels the obligation from {@code m0}. */
  default long cancellable(int m0, Ruling ruling) {
    return ruling.decided();
  }

  /**
   * From when to when, that moment left out, the obligation from {@code m0} that had to become so has to stay so; null
   * where it never does.
   */
  default long[] staying(int m0) {
    return null;
  }

  /**
   * The moment at which the response came that the obligation from {@code m0} waits for, {@link Search#NEVER} where
   * there is none.
   */
  default long response(int m0) {
    return Search.NEVER;
  }
}
