package dev.pawl.logic.code;

import dev.pawl.grammar.logic.model.Place;
import dev.pawl.grammar.logic.model.Step;
import dev.pawl.grammar.logic.model.Value;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;

/**
 * Estimates of how many bytes of code a step takes, so that methods stay small enough for the just-in-time compiler.
 */
final class CodeSizes implements Step.Visitor<Integer>, Value.Visitor<Integer> {

  private final Map<Step, Integer> known = new IdentityHashMap<>();

  int of(List<Step> steps) {
    return steps.stream().mapToInt(this::of).sum();
  }

  int of(Step step) {
    Integer weight = known.get(step);
    if (weight == null) {
      weight = step.accept(this);
      known.put(step, weight);
    }
    return weight;
  }

  @Override public Integer visit(Step.Assign e) { return 20 + of(e.target()) + of(e.value()); }
  @Override public Integer visit(Step.AssignPart e) { return 40 + 2 * of(e.target()) + of(e.value()); }
  @Override public Integer visit(Step.Copy e) { return 20 + of(e.target()) + of(e.source()); }
  @Override public Integer visit(Step.Bind e) { return 15 + of(e.target()); }
  @Override public Integer visit(Step.Run e) { return 20 + of(e.instance()); }
  @Override public Integer visit(Step.Evaluate e) { return of(e.call()); }
  @Override public Integer visit(Step.While e) { return 20 + of(e.condition()) + of(e.body()); }
  @Override public Integer visit(Step.Repeat e) { return 20 + of(e.until()) + of(e.body()); }
  @Override public Integer visit(Step.Exit e) { return 5; }
  @Override public Integer visit(Step.Continue e) { return 5; }
  @Override public Integer visit(Step.Return e) { return 5; }

  @Override
  public Integer visit(Step.If e) {
    return e.branches().stream().mapToInt(branch -> 10 + of(branch.condition()) + of(branch.body())).sum()
        + of(e.otherwise());
  }

  @Override
  public Integer visit(Step.Case e) {
    return 20 + of(e.selector()) + of(e.otherwise())
        + e.choices().stream().mapToInt(each -> 5 + 20 * each.labels().size() + of(each.body())).sum();
  }

  @Override
  public Integer visit(Step.For e) {
    return 80 + 2 * of(e.variable()) + of(e.from()) + of(e.to()) + of(e.by()) + of(e.body());
  }

  private int of(Place place) {
    return 6 + place.steps().stream().mapToInt(step -> 15 + of(step.index())).sum();
  }

  private int of(Value value) {
    return value.accept(this);
  }

  @Override public Integer visit(Value.Constant e) { return 3; }
  @Override public Integer visit(Value.Text e) { return 3; }
  @Override public Integer visit(Value.Load e) { return 4 + of(e.place()); }
  @Override public Integer visit(Value.Negate e) { return 8 + of(e.operand()); }
  @Override public Integer visit(Value.Complement e) { return 6 + of(e.operand()); }
  @Override public Integer visit(Value.Arithmetic e) { return 12 + of(e.left()) + of(e.right()); }
  @Override public Integer visit(Value.Compare e) { return 14 + of(e.left()) + of(e.right()); }
  @Override public Integer visit(Value.Logic e) { return 8 + of(e.left()) + of(e.right()); }
  @Override public Integer visit(Value.Convert e) { return 12 + of(e.operand()); }
  @Override public Integer visit(Value.Bounded e) { return 12 + of(e.operand()); }
  @Override public Integer visit(Value.Part e) { return 10 + of(e.operand()); }
  @Override public Integer visit(Value.Standard e) { return 5 + e.operands().stream().mapToInt(this::of).sum(); }

  @Override
  public Integer visit(Value.Call e) {
    return 20 + e.inputs().stream().mapToInt(input -> 14 + of(input.value())).sum() + of(e.passes()) + of(e.after());
  }
}
