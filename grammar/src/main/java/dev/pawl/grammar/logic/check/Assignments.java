package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.Place;
import dev.pawl.grammar.logic.model.Step;
import dev.pawl.grammar.logic.model.Variable;
import java.util.List;

/** The search for assignments to a variable at a fixed address. */
final class Assignments {

  private Assignments() {}

  /** Whether any of the steps, or of those inside them, writes the variable. */
  static boolean reach(List<Step> steps, Variable variable) {
    boolean[] found = new boolean[1];
    Writes writes = new Writes(variable);
    steps.forEach(step -> step.walk(code -> found[0] |= code instanceof Step inner && inner.accept(writes)));
    return found[0];
  }

  /** Whether a step itself writes the variable. */
  private record Writes(Variable variable) implements Step.Visitor<Boolean> {
    @Override public Boolean visit(Step.Assign e) { return at(e.target(), variable); }
    @Override public Boolean visit(Step.Copy e) { return false; }
    @Override public Boolean visit(Step.AssignPart e) { return at(e.target(), variable); }
    @Override public Boolean visit(Step.Bind e) { return at(e.target(), variable); }
    @Override public Boolean visit(Step.Run e) { return false; }
    @Override public Boolean visit(Step.Evaluate e) { return false; }
    @Override public Boolean visit(Step.If e) { return false; }
    @Override public Boolean visit(Step.Case e) { return false; }
    @Override public Boolean visit(Step.For e) { return at(e.variable(), variable); }
    @Override public Boolean visit(Step.While e) { return false; }
    @Override public Boolean visit(Step.Repeat e) { return false; }
    @Override public Boolean visit(Step.Exit e) { return false; }
    @Override public Boolean visit(Step.Continue e) { return false; }
    @Override public Boolean visit(Step.Return e) { return false; }
  }

  private static boolean at(Place place, Variable variable) {
    return place.anchor() instanceof Place.Fixed && place.offset() == variable.offset();
  }
}
