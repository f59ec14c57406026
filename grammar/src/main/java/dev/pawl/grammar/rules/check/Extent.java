package dev.pawl.grammar.rules.check;

/**
 * How large an expression is once its definitions are put in place.
 *
 * @param size number of operations
 * @param depth greatest number of operations inside each other
 */
record Extent(int size, int depth) {

  static final Extent LEAF = new Extent(1, 1);
  static final int MOST_OPERATIONS = 20_000;
  static final int DEEPEST = 700;

  Extent with(Extent other) {
    return new Extent(size + other.size + 1, Math.max(depth, other.depth) + 1);
  }

  Extent more() {
    return new Extent(size + 1, depth + 1);
  }

  boolean isTooLarge() {
    return size > MOST_OPERATIONS || depth > DEEPEST;
  }
}
