package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.Place;
import dev.pawl.grammar.logic.model.Step;
import dev.pawl.grammar.logic.model.Value;
import java.util.List;
import java.util.function.Consumer;

/** A walk over all steps and values of a unit, outer ones first. */
final class Walk {

  private final Consumer<Step> steps;
  private final Consumer<Value> values;

  Walk(Consumer<Step> steps, Consumer<Value> values) {
    this.steps = steps;
    this.values = values;
  }

  void all(List<Step> list) {
    list.forEach(this::step);
  }

  private void step(Step step) {
    steps.accept(step);
    if (step instanceof Step.Assign assign) {
      place(assign.target());
      value(assign.value());
    } else if (step instanceof Step.Copy copy) {
      place(copy.target());
      place(copy.source());
    } else if (step instanceof Step.AssignPart part) {
      place(part.target());
      value(part.value());
    } else if (step instanceof Step.Bind bind) {
      place(bind.target());
    } else if (step instanceof Step.Run run) {
      place(run.instance());
    } else if (step instanceof Step.Evaluate evaluate) {
      value(evaluate.call());
    } else if (step instanceof Step.If branching) {
      branching.branches().forEach(branch -> {
        value(branch.condition());
        all(branch.body());
      });
      all(branching.otherwise());
    } else if (step instanceof Step.Case choice) {
      value(choice.selector());
      choice.choices().forEach(each -> all(each.body()));
      all(choice.otherwise());
    } else {
      loop(step);
    }
  }

  private void loop(Step step) {
    if (step instanceof Step.For loop) {
      place(loop.variable());
      value(loop.from());
      value(loop.to());
      value(loop.by());
      all(loop.body());
    } else if (step instanceof Step.While loop) {
      value(loop.condition());
      all(loop.body());
    } else if (step instanceof Step.Repeat loop) {
      all(loop.body());
      value(loop.until());
    }
  }

  private void place(Place place) {
    place.steps().forEach(step -> value(step.index()));
  }

  private void value(Value value) {
    values.accept(value);
    if (value instanceof Value.Load load) {
      place(load.place());
    } else if (value instanceof Value.Negate negate) {
      value(negate.operand());
    } else if (value instanceof Value.Complement complement) {
      value(complement.operand());
    } else if (value instanceof Value.Arithmetic arithmetic) {
      value(arithmetic.left());
      value(arithmetic.right());
    } else if (value instanceof Value.Compare compare) {
      value(compare.left());
      value(compare.right());
    } else if (value instanceof Value.Logic logic) {
      value(logic.left());
      value(logic.right());
    } else if (value instanceof Value.Convert convert) {
      value(convert.operand());
    } else if (value instanceof Value.Bounded bounded) {
      value(bounded.operand());
    } else if (value instanceof Value.Part part) {
      value(part.operand());
    } else if (value instanceof Value.Standard standard) {
      standard.operands().forEach(this::value);
    } else if (value instanceof Value.Call call) {
      call.inputs().forEach(input -> value(input.value()));
      all(call.passes());
      all(call.after());
    }
  }
}
