package dev.pawl.trace.fuzz;

/** A check that costs nothing where it holds, so that it does not slow fuzzing down. */
final class Expect {

  private Expect() {}

  static void that(boolean holds, String fault) {
    if (!holds) {
      throw new AssertionError(fault);
    }
  }
}
