package dev.pawl.grammar.rules.model;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/** What an obligation asks for, counted from its trigger. Durations are in nanoseconds. */
public sealed interface Demand {

  /** What must be. */
  BoolExpr required();

  /** What must be, with the limits and releases that belong to it. */
  List<BoolExpr> conditions();

  /** What follows once the required condition has become true. */
  default Optional<Stay> stay() {
    return Optional.empty();
  }

  <R> R accept(Visitor<R> visitor);

  /** A method for each record. */
  interface Visitor<R> {
    R visit(AtOnce e);
    R visit(Within e);
    R visit(Throughout e);
    R visit(Before e);
  }

  /** {@code must P}: at the trigger instant. */
  record AtOnce(BoolExpr required, Optional<Stay> stay) implements Demand {
    @Override public List<BoolExpr> conditions() { return Stay.with(required, stay); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /**
   * {@code must P after D1 within D2}: at some time in [t + after, t + after + within]. {@code after D1} alone has
   * within 0.
   */
  record Within(BoolExpr required, long after, long within, Optional<Stay> stay) implements Demand {
    @Override public List<BoolExpr> conditions() { return Stay.with(required, stay); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** {@code must P after D1 throughout D2}: at every time in [t + after, t + after + duration]. */
  record Throughout(BoolExpr required, long after, long duration) implements Demand {
    @Override public List<BoolExpr> conditions() { return List.of(required); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** {@code must P before Q}: P at or before the next Q. */
  record Before(BoolExpr required, BoolExpr limit) implements Demand {
    @Override public List<BoolExpr> conditions() { return List.of(required, limit); }
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** What follows once the required condition has become true. */
  sealed interface Stay {

    /** The answer for the one it is. */
    <R> R match(Function<StayFor, R> stayFor, Function<StayUntil, R> stayUntil);

    private static List<BoolExpr> with(BoolExpr required, Optional<Stay> stay) {
      return stay.map(it -> it.match(stayFor -> List.of(required), until -> List.of(required, until.release())))
          .orElse(List.of(required));
    }
  }

  record StayFor(long duration) implements Stay {
    @Override public <R> R match(Function<StayFor, R> stayFor, Function<StayUntil, R> stayUntil) {
      return stayFor.apply(this);
    }
  }

  record StayUntil(BoolExpr release) implements Stay {
    @Override public <R> R match(Function<StayFor, R> stayFor, Function<StayUntil, R> stayUntil) {
      return stayUntil.apply(this);
    }
  }
}
