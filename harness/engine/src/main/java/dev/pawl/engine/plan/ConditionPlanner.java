package dev.pawl.engine.plan;

import dev.pawl.engine.Sampling;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Graph;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.operator.Brief;
import dev.pawl.engine.operator.Wavering;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Makes the nodes of conditions that rules read at another's moment: they waver where the order of their parts is open.
 */
final class ConditionPlanner {
  private final RuleBook book;
  private final Graph graph;
  private final ExpressionPlanner expressions;
  private final Sampling sampling;
  private final Map<Read, BoolNode> made = new HashMap<>();

  private record Read(BoolExpr condition, long resolution, long slack, boolean toStay) {}

  ConditionPlanner(RuleBook book, Graph graph, ExpressionPlanner expressions, Sampling sampling) {
    this.book = book;
    this.graph = graph;
    this.expressions = expressions;
    this.sampling = sampling;
  }

  /**
   * A condition, read by a rule of some resolution in nanoseconds, where durations are off by less than {@code slack}
   * moments.
   */
  BoolNode read(BoolExpr condition, long resolution, long slack) {
    BoolNode seen = expressions.read(condition, slack);
    return mayWaver(condition, resolution)
        ? made.computeIfAbsent(new Read(condition, resolution, slack, false), it -> wavering(it, seen)) : seen;
  }

  /** The same of one that has to stay so: a fall that may be none is borderline. */
  BoolNode readToStay(BoolExpr condition, long resolution, long slack) {
    BoolNode read = read(condition, resolution, slack);
    return isOpen(condition, resolution) ? made.computeIfAbsent(new Read(condition, resolution, slack, true),
        it -> graph.add(new Brief.Fall(read, apart(it)))) : read;
  }

  /** A condition whose becoming true is a trigger: one that may be none is borderline. */
  BoolNode readToRise(BoolExpr condition, long resolution) {
    return graph.add(new Brief.Rise(read(condition, resolution, 0), apart(new Read(condition, resolution, 0, false))));
  }

  private long apart(Read read) {
    return Moments.span(Math.max(read.resolution, sampling.longest(RuleParts.signals(List.of(read.condition), book))));
  }

  /** Whether the order is open of what a condition rests on. */
  boolean isOpen(BoolExpr condition, long resolution) {
    Set<Integer> signals = RuleParts.signals(List.of(condition), book);
    return (resolution > 0 || sampling.longest(signals) > 0) && signals.size() > 1 && !haveEvents(List.of(condition));
  }

  /** Whether the order is open of what a condition is made of. */
  boolean mayWaver(BoolExpr condition, long resolution) {
    return isOpen(condition, resolution) && parts(condition).size() > 1;
  }

  /** Whether some conditions speak of what is so at single instants. */
  static boolean haveEvents(List<BoolExpr> conditions) {
    return conditions.stream().anyMatch(condition -> condition instanceof BoolExpr.Moment
        || haveEvents(sides(condition)));
  }

  private BoolNode wavering(Read read, BoolNode seen) {
    List<BoolExpr> parts = List.copyOf(parts(read.condition));
    return graph.add(new Wavering(seen, parts.stream().map(part -> part(part, read)).toList(),
        formula(read.condition, parts)));
  }

  private Wavering.Part part(BoolExpr part, Read read) {
    Set<Integer> signals = RuleParts.signals(List.of(part), book);
    long period = sampling.longest(signals);
    return new Wavering.Part(expressions.read(part, read.slack), signals.size() == 1 ? signals.iterator().next() : -1,
        Moments.span(Math.max(read.resolution, period)), period > 0);
  }

  /** The largest expressions in a condition that rest on one signal, or are not made of others by logic. */
  private Set<BoolExpr> parts(BoolExpr condition) {
    Set<BoolExpr> parts = new LinkedHashSet<>();
    List<BoolExpr> sides = RuleParts.signals(List.of(condition), book).size() < 2 ? List.of() : sides(condition);
    sides.forEach(side -> parts.addAll(parts(side)));
    if (sides.isEmpty()) {
      parts.add(condition);
    }
    return parts;
  }

  private static List<BoolExpr> sides(BoolExpr condition) {
    return condition.accept(new BoolExpr.Question<>() {
      @Override public List<BoolExpr> otherwise(BoolExpr e) { return List.of(); }
      @Override public List<BoolExpr> visit(BoolExpr.Not e) { return List.of(e.operand()); }
      @Override public List<BoolExpr> visit(BoolExpr.And e) { return List.of(e.left(), e.right()); }
      @Override public List<BoolExpr> visit(BoolExpr.Or e) { return List.of(e.left(), e.right()); }
      @Override public List<BoolExpr> visit(BoolExpr.Same e) { return List.of(e.left(), e.right()); }
    });
  }

  private static Wavering.Formula formula(BoolExpr condition, List<BoolExpr> parts) {
    int place = parts.indexOf(condition);
    if (place >= 0) {
      return truths -> truths[place];
    }
    List<Wavering.Formula> sides = new ArrayList<>();
    sides(condition).forEach(side -> sides.add(formula(side, parts)));
    Wavering.Formula left = sides.get(0);
    Wavering.Formula right = sides.get(sides.size() - 1);
    return condition.accept(new BoolExpr.Question<>() {
      @Override public Wavering.Formula otherwise(BoolExpr e) { throw new AssertionError("not made by logic"); }
      @Override public Wavering.Formula visit(BoolExpr.Not e) { return truths -> Kleene.not(left.truth(truths)); }
      @Override public Wavering.Formula visit(BoolExpr.And e) {
        return truths -> Kleene.and(left.truth(truths), right.truth(truths));
      }
      @Override public Wavering.Formula visit(BoolExpr.Or e) {
        return truths -> Kleene.or(left.truth(truths), right.truth(truths));
      }
      @Override public Wavering.Formula visit(BoolExpr.Same e) {
        return truths -> Kleene.same(left.truth(truths), right.truth(truths));
      }
    });
  }
}
