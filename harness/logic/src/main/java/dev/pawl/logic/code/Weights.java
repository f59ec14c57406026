package dev.pawl.logic.code;

import dev.pawl.grammar.logic.model.Place;
import dev.pawl.grammar.logic.model.Step;
import dev.pawl.grammar.logic.model.Value;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;

/** Estimates of how many bytes of code a step takes, so that methods stay small enough for the just-in-time compiler. */
final class Weights {

  private final Map<Step, Integer> known = new IdentityHashMap<>();

  int of(List<Step> steps) {
    return steps.stream().mapToInt(this::of).sum();
  }

  int of(Step step) {
    Integer weight = known.get(step);
    if (weight == null) {
      weight = compute(step);
      known.put(step, weight);
    }
    return weight;
  }

  private int compute(Step step) {
    if (step instanceof Step.Assign assign) {
      return 20 + of(assign.target()) + of(assign.value());
    }
    if (step instanceof Step.AssignPart part) {
      return 40 + 2 * of(part.target()) + of(part.value());
    }
    if (step instanceof Step.Copy copy) {
      return 20 + of(copy.target()) + of(copy.source());
    }
    if (step instanceof Step.Bind bind) {
      return 15 + of(bind.target());
    }
    if (step instanceof Step.Run run) {
      return 20 + of(run.instance());
    }
    if (step instanceof Step.Evaluate evaluate) {
      return of(evaluate.call());
    }
    if (step instanceof Step.If branching) {
      return branching.branches().stream().mapToInt(branch -> 10 + of(branch.condition()) + of(branch.body())).sum()
          + of(branching.otherwise());
    }
    if (step instanceof Step.Case choice) {
      return 20 + of(choice.selector()) + of(choice.otherwise())
          + choice.choices().stream().mapToInt(each -> 5 + 20 * each.labels().size() + of(each.body())).sum();
    }
    return loop(step);
  }

  private int loop(Step step) {
    if (step instanceof Step.For loop) {
      return 80 + 2 * of(loop.variable()) + of(loop.from()) + of(loop.to()) + of(loop.by()) + of(loop.body());
    }
    if (step instanceof Step.While loop) {
      return 20 + of(loop.condition()) + of(loop.body());
    }
    if (step instanceof Step.Repeat loop) {
      return 20 + of(loop.until()) + of(loop.body());
    }
    return 5;
  }

  private int of(Place place) {
    return 6 + place.steps().stream().mapToInt(step -> 15 + of(step.index())).sum();
  }

  private int of(Value value) {
    if (value instanceof Value.Load load) {
      return 4 + of(load.place());
    }
    if (value instanceof Value.Negate negate) {
      return 8 + of(negate.operand());
    }
    if (value instanceof Value.Complement complement) {
      return 6 + of(complement.operand());
    }
    if (value instanceof Value.Arithmetic arithmetic) {
      return 12 + of(arithmetic.left()) + of(arithmetic.right());
    }
    if (value instanceof Value.Compare compare) {
      return 14 + of(compare.left()) + of(compare.right());
    }
    if (value instanceof Value.Logic logic) {
      return 8 + of(logic.left()) + of(logic.right());
    }
    if (value instanceof Value.Convert convert) {
      return 12 + of(convert.operand());
    }
    if (value instanceof Value.Bounded bounded) {
      return 12 + of(bounded.operand());
    }
    if (value instanceof Value.Part part) {
      return 10 + of(part.operand());
    }
    if (value instanceof Value.Standard standard) {
      return 5 + standard.operands().stream().mapToInt(this::of).sum();
    }
    if (value instanceof Value.Call call) {
      return 20 + call.inputs().stream().mapToInt(input -> 14 + of(input.value())).sum() + of(call.passes()) + of(call.after());
    }
    return 3;
  }
}
