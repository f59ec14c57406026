package dev.pawl.logic;

/**
 * A run-time error of the program under test.
 *
 * @param scan number of the scan in which it happened, from 1
 * @param time nanoseconds, time of that scan
 * @param place where in the program
 * @param message what happened
 */
public record LogicError(long scan, long time, ProgramLine place, String message) {

  @Override
  public String toString() {
    return place + ": " + message + " (scan " + scan + ")";
  }
}
