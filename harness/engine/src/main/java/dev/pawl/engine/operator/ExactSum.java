package dev.pawl.engine.operator;

/**
 * A sum that terms are added to and taken from for as long as a trace lasts without drifting: the rounding error of
 * every addition is kept and added up beside it (Knuth's two-sum, from memory: The Art of Computer Programming, volume
 * 2, section 4.2.2).
 */
final class ExactSum {

  private double high;
  private double low;

  void add(double term) {
    double sum = high + term;
    double part = sum - high;
    low += (high - (sum - part)) + (term - part);
    high = sum;
  }

  void clear() {
    high = 0;
    low = 0;
  }

  /** The sum with one more term, which is not kept. */
  double plus(double term) {
    return high + term + low;
  }
}
