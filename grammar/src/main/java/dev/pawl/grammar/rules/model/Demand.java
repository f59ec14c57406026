package dev.pawl.grammar.rules.model;

import java.util.Optional;

/** What an obligation asks for, counted from its trigger. Durations are in nanoseconds. */
public sealed interface Demand {

  /** {@code must P}: at the trigger instant. */
  record AtOnce(BoolExpr required, Optional<Stay> stay) implements Demand {}

  /** {@code must P after D1 within D2}: at some time in [t + after, t + after + within]. {@code after D1} alone has within 0. */
  record Within(BoolExpr required, long after, long within, Optional<Stay> stay) implements Demand {}

  /** {@code must P after D1 throughout D2}: at every time in [t + after, t + after + duration]. */
  record Throughout(BoolExpr required, long after, long duration) implements Demand {}

  /** {@code must P before Q}: P at or before the next Q. */
  record Before(BoolExpr required, BoolExpr limit) implements Demand {}

  /** What follows once the required condition has become true. */
  sealed interface Stay {}

  record StayFor(long duration) implements Stay {}

  record StayUntil(BoolExpr release) implements Stay {}
}
