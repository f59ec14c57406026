package dev.pawl.engine.graph;

import dev.pawl.grammar.rules.model.Truth;

/** Kleene's connectives on truth codes, as table look-ups. Among unknowns, unknown wins over borderline. */
public final class Kleene {

  private static final byte[] AND = table(false);
  private static final byte[] OR = table(true);

  private Kleene() {}

  public static int not(int truth) {
    return truth < Truth.U ? truth ^ 1 : truth;
  }

  public static int and(int left, int right) {
    return AND[left << 2 | right];
  }

  public static int or(int left, int right) {
    return OR[left << 2 | right];
  }

  /** Whether two truth values are the same one. */
  public static int same(int left, int right) {
    if (left < Truth.U && right < Truth.U) {
      return left == right ? Truth.T : Truth.F;
    }
    return left == Truth.U || right == Truth.U ? Truth.U : Truth.B;
  }

  public static boolean isUnknown(int truth) {
    return truth >= Truth.U;
  }

  private static byte[] table(boolean or) {
    int dominant = or ? Truth.T : Truth.F;
    int neutral = or ? Truth.F : Truth.T;
    byte[] table = new byte[16];
    for (int left = 0; left < 4; left++) {
      for (int right = 0; right < 4; right++) {
        int result;
        if (left == dominant || right == dominant) {
          result = dominant;
        } else if (left == neutral && right == neutral) {
          result = neutral;
        } else {
          result = left == Truth.U || right == Truth.U ? Truth.U : Truth.B;
        }
        table[left << 2 | right] = (byte) result;
      }
    }
    return table;
  }
}
