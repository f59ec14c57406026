package dev.pawl.grammar.rules.model;

import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/**
 * A required behaviour.
 *
 * @param index its number in the rule book, from 0
 * @param id its identifier, unique in the book
 * @param title its title
 * @param severity how much its breaking matters
 * @param basis where the requirement comes from
 * @param duty what is required
 * @param proof what shows that it could have been broken
 * @param resolution nanoseconds by which a logged time can be off, for this rule
 * @param text the duty as written, on one line
 * @param satisfies the identifiers of the requirements that it serves
 * @param terms the constants and definitions that it is written with, directly or through others, in order of use
 * @param position where it is declared
 */
public record Rule(int index, String id, String title, Severity severity, Basis basis, Duty duty, Proof proof,
    long resolution, String text, List<String> satisfies, List<Term> terms, Position position) {

  public Rule {
    satisfies = List.copyOf(satisfies);
    terms = List.copyOf(terms);
  }

  /** One that serves no stated requirement. */
  public Rule(int index, String id, String title, Severity severity, Basis basis, Duty duty, Proof proof,
      long resolution, String text, Position position) {
    this(index, id, title, severity, basis, duty, proof, resolution, text, List.of(), List.of(), position);
  }

  /** Whether its form, or what it states, tells a pass that could have failed from one that nothing ever asked for. */
  public boolean canBeTried() {
    return !proof.trials().isEmpty() || duty.match(when -> when.demand() instanceof Demand.Within, always -> false);
  }

  /** The same with another resolution, in nanoseconds. */
  public Rule withResolution(long other) {
    return new Rule(index, id, title, severity, basis, duty, proof, other, text, satisfies, terms, position);
  }

  /**
   * Where a requirement comes from.
   *
   * @param text its source, or a remark; empty where nothing is stated
   * @param isPractice whether it is common practice with no published source
   */
  public record Basis(String text, boolean isPractice) {

    /** Common practice, with no remark. */
    public static final Basis PRACTICE = new Basis("", true);
  }

  /** How much the breaking of a rule matters. */
  public enum Severity {
    MINOR,
    MAJOR,
    CRITICAL
  }

  /** What a rule requires, and of which times. */
  public sealed interface Duty {
    Optional<BoolExpr> whilst();

    Optional<BoolExpr> unless();

    /** What is required, with the limits and releases that belong to it. */
    List<BoolExpr> requirements();

    /** Trigger and scopes: what decides when something is asked for. */
    default List<BoolExpr> occasions() {
      List<BoolExpr> occasions = new ArrayList<>();
      match(when -> occasions.add(when.trigger()), always -> false);
      whilst().ifPresent(occasions::add);
      unless().ifPresent(occasions::add);
      return occasions;
    }

    /** Trigger, scopes and all that is required, in the order written. */
    default List<BoolExpr> conditions() {
      List<BoolExpr> conditions = new ArrayList<>(occasions());
      conditions.addAll(requirements());
      return conditions;
    }

    /** The answer for the one it is. */
    <R> R match(Function<When, R> when, Function<Always, R> always);
  }

  /**
   * An obligation arises whenever the trigger becomes true.
   *
   * @param whilst the trigger counts only while this is true
   * @param unless this cancels the obligation
   */
  public record When(BoolExpr trigger, Optional<BoolExpr> whilst, Optional<BoolExpr> unless, Demand demand)
      implements Duty {
    @Override public List<BoolExpr> requirements() { return demand.conditions(); }
    @Override public <R> R match(Function<When, R> when, Function<Always, R> always) { return when.apply(this); }
  }

  /**
   * Required at every instant at which {@code whilst} is true and {@code unless} is not.
   *
   * @param required what must be true; {@code never P} is stored as {@code not P}
   * @param never whether it was written as {@code never}
   */
  public record Always(BoolExpr required, boolean never, Optional<BoolExpr> whilst, Optional<BoolExpr> unless)
      implements Duty {
    @Override public List<BoolExpr> requirements() { return List.of(required); }
    @Override public <R> R match(Function<When, R> when, Function<Always, R> always) { return always.apply(this); }
  }
}
