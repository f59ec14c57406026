package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleExample;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.rules.tree.Declaration;
import dev.pawl.grammar.rules.tree.ExampleStep;
import dev.pawl.grammar.rules.tree.Expression;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/** Examples: the rule they are for, the verdict they expect, and each event of their tiny trace. */
final class ExampleChecker {

  private final Context context;
  private final RuleCollector rules;
  private final NumberChecker numbers;

  ExampleChecker(Context context, RuleCollector rules) {
    this.context = context;
    this.rules = rules;
    this.numbers = new ExpressionChecker(context).numbers();
  }

  /** The example, or nothing where something is wrong with it, which is told. */
  Optional<RuleExample> check(Declaration.Example example) {
    Optional<Rule> rule = rules.find(example.rule().text());
    if (rule.isEmpty() && !context.problems.hasErrors()) {
      List<String> known = new ArrayList<>();
      rules.identifiers().forEach(known::add);
      context.problems.error(example.rule().position(), "there is no rule " + example.rule().text(),
          NearName.hint(example.rule().text(), known).orElse(""));
    }
    Optional<RuleExample.Expected> expected = expected(example);
    Optional<Double> margin = example.outcome().margin().flatMap(numbers::difference)
        .map(a -> a.constant().orElseThrow());
    Trace trace = trace(example);
    if (rule.isEmpty() || expected.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(new RuleExample(example.title().text(), rule.get().index(), expected.get(), margin, trace.events,
        trace.end, example.position()));
  }

  private Optional<RuleExample.Expected> expected(Declaration.Example example) {
    String verdict = example.outcome().verdict();
    Optional<RuleExample.Expected> known = Arrays.stream(RuleExample.Expected.values())
        .filter(expected -> expected.label().equals(verdict))
        .findFirst();
    if (known.isEmpty()) {
      context.problems.error(example.outcome().position(), "`" + verdict + "` is no verdict",
          "the verdicts are held, broken, undecided and not exercised");
    }
    return known;
  }

  private static final class Trace {
    private final List<RuleExample.Event> events = new ArrayList<>();
    private OptionalLong end = OptionalLong.empty();
    private long reached = Long.MIN_VALUE;
  }

  private Trace trace(Declaration.Example example) {
    Trace trace = new Trace();
    for (ExampleStep step : example.steps()) {
      Optional<Long> time = time(step.time());
      if (time.isPresent() && time.get() < trace.reached || trace.end.isPresent()) {
        context.problems.error(step.position(),
            "the times of an example must not go back, and nothing follows its end");
      }
      trace.reached = Math.max(trace.reached, time.orElse(trace.reached));
      step.match(at -> {
        at.assignments().forEach(a -> event(a, time.orElse(0L)).ifPresent(trace.events::add));
        return trace;
      }, end -> {
        trace.end = time.map(OptionalLong::of).orElse(OptionalLong.empty());
        return trace;
      });
    }
    if (trace.reached == Long.MIN_VALUE) {
      context.problems.error(example.position(), "this example has no trace",
          "write what happens: at 0 s name = value, name = value");
    }
    return trace;
  }

  private Optional<Long> time(Expression written) {
    Optional<Checked.Amount> amount = numbers.fixed(written, Dimension.TIME, "2.5 s");
    return amount.flatMap(a -> numbers.nanoseconds(a.constant().orElseThrow(), written.position(), true));
  }

  private Optional<RuleExample.Event> event(ExampleStep.Assignment assignment, long time) {
    Optional<Declared> entry = context.names.find(assignment.signal().text());
    Position position = assignment.signal().position();
    if (entry.isEmpty()) {
      context.names.unknown(position, assignment.signal().text());
      return Optional.empty();
    }
    if (!(entry.get() instanceof Declared.SignalEntry signal)) {
      if (!(entry.get() instanceof Declared.MissingEntry)) {
        context.problems.error(position, "only signals have values in a trace, but this is " + entry.get().kind());
      }
      return Optional.empty();
    }
    return value(signal.signal(), assignment.value())
        .map(value -> new RuleExample.Event(time, signal.signal().index(), value, position.line()));
  }

  private Optional<Long> value(Signal signal, Expression written) {
    if (written instanceof Expression.Reference reference && reference.name().equals("unknown")) {
      return Optional.of(RuleExample.UNKNOWN);
    }
    return signal.type().match(
        bool -> written instanceof Expression.Truth truth ? Optional.of(truth.value() ? 1L : 0L)
            : none(signal, written, "write true, false or unknown"),
        type -> written instanceof Expression.Reference member ? member(type, member) : none(signal, written, ""),
        type -> written instanceof Expression.Number || written instanceof Expression.Negative
            ? numbers.fixed(written, type.dimension(), "3" + (type.unit().isEmpty() ? "" : " " + type.unit()))
                .map(amount -> Double.doubleToRawLongBits(amount.constant().orElseThrow()))
            : none(signal, written, ""));
  }

  private Optional<Long> member(ValueType.Enumeration type, Expression.Reference member) {
    int index = type.names().indexOf(member.name());
    if (index < 0) {
      context.problems.error(member.position(), "`" + member.name() + "` is not " + TypeWords.of(type),
          NearName.hint(member.name(), type.names()).orElse(""));
    }
    return index < 0 ? Optional.empty() : Optional.of((long) index);
  }

  private Optional<Long> none(Signal signal, Expression written, String hint) {
    context.problems.error(written.position(), "`" + signal.name() + "` is " + TypeWords.of(signal.type())
        + ", so this cannot be its value", hint);
    return Optional.empty();
  }
}
