package dev.pawl.engine;

/** What was seen of a signal in one trace. */
public enum Sight {
  /** No known value: a rule that reads it never began. */
  NEVER,
  ONE_VALUE,
  CHANGING
}
