package dev.pawl.grammar.rules.model;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;

/**
 * What shows that a rule could have been broken, as far as the rule states it.
 *
 * @param trials each has to occur for the rule to be held
 * @param untried why no trial can be stated; empty where nothing is said
 */
public record Proof(List<Trial> trials, String untried) {

  /** Nothing is stated. */
  public static final Proof NONE = new Proof(List.of(), "");

  public Proof {
    trials = List.copyOf(trials);
  }

  /** The conditions of all trials, in the order written. */
  public List<BoolExpr> conditions() {
    return trials.stream().flatMap(trial -> trial.conditions().stream()).toList();
  }

  /** One way to ask a rule for what it forbids. */
  public sealed interface Trial {
    /** As written, on one line. */
    String text();

    List<BoolExpr> conditions();

    /** The answer for the one it is. */
    <R> R match(Function<ByTrigger, R> byTrigger, Function<ByEvent, R> byEvent);
  }

  /** The rule's own trigger is the challenge. */
  public record ByTrigger() implements Trial {
    @Override public String text() { return "tried by trigger"; }
    @Override public List<BoolExpr> conditions() { return List.of(); }
    @Override public <R> R match(Function<ByTrigger, R> byTrigger, Function<ByEvent, R> byEvent) {
      return byTrigger.apply(this);
    }
  }

  /**
   * Something happens that asks for what the rule forbids.
   *
   * @param event what happens
   * @param given nothing else refuses while this is true
   * @param ofStay whether it counts only while an obligation has to stay so
   */
  public record ByEvent(BoolExpr event, Optional<BoolExpr> given, boolean ofStay, String text) implements Trial {
    @Override public List<BoolExpr> conditions() { return Stream.concat(Stream.of(event), given.stream()).toList(); }
    @Override public <R> R match(Function<ByTrigger, R> byTrigger, Function<ByEvent, R> byEvent) {
      return byEvent.apply(this);
    }
  }
}
