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
    new Walk(step -> found[0] |= writes(step, variable), value -> { }).all(steps);
    return found[0];
  }

  private static boolean writes(Step step, Variable variable) {
    return step instanceof Step.Assign assign && at(assign.target(), variable)
        || step instanceof Step.AssignPart part && at(part.target(), variable)
        || step instanceof Step.Bind bind && at(bind.target(), variable)
        || step instanceof Step.For loop && at(loop.variable(), variable);
  }

  private static boolean at(Place place, Variable variable) {
    return place.anchor() instanceof Place.Fixed && place.offset() == variable.offset();
  }
}
