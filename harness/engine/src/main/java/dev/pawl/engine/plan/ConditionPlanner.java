package dev.pawl.engine.plan;

import dev.pawl.engine.Sampling;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.Graph;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.SignalState;
import dev.pawl.engine.operator.Brief;
import dev.pawl.engine.operator.Logic;
import dev.pawl.engine.operator.Nearly;
import dev.pawl.engine.operator.Wavering;
import dev.pawl.engine.operator.Windows;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.grammar.rules.model.Truth;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Supplier;

/**
 * Makes the nodes of conditions that rules read at another's moment: they waver where the order of their parts is open.
 */
final class ConditionPlanner {
  private final RuleBook book;
  private final Graph graph;
  private final ExpressionPlanner expressions;
  private final SignalState[] signals;
  private final Sampling sampling;
  private final Map<Read, BoolNode> made = new HashMap<>();

  /** In what way a condition is read. */
  private enum Way { SEEN, WAVERING, TO_STAY }

  private record Read(Way way, BoolExpr condition, long resolution, long slack, boolean lookedBackAt) {}

  ConditionPlanner(RuleBook book, Graph graph, SignalState[] signals, ExpressionPlanner expressions,
      Sampling sampling) {
    this.book = book;
    this.graph = graph;
    this.expressions = expressions;
    this.signals = signals;
    this.sampling = sampling;
  }

  /**
   * A condition, read by a rule of some resolution in nanoseconds, where durations are off by less than {@code slack}
   * moments.
   */
  BoolNode read(BoolExpr condition, long resolution, long slack) {
    BoolNode seen = seen(condition, resolution, slack);
    return mayWaver(condition, resolution) ? shared(Way.WAVERING, condition, resolution, slack,
        () -> wavering(condition, seen, part -> part(part, seen(part, resolution, slack), resolution, false))) : seen;
  }

  /** The same of one that has to stay so: a fall that may be none is borderline. */
  BoolNode readToStay(BoolExpr condition, long resolution, long slack) {
    BoolNode read = read(condition, resolution, slack);
    return isOpen(condition, resolution) ? shared(Way.TO_STAY, condition, resolution, slack,
        () -> graph.add(new Brief.Fall(read, apart(signals(condition), resolution)))) : read;
  }

  /** The same as it seems to be at a moment, whatever is open of what it looks back at. */
  BoolNode seen(BoolExpr condition, long resolution, long slack) {
    return Durations.areRead(condition) ? shared(Way.SEEN, condition, resolution, slack,
        () -> condition.accept(new Seen(resolution, slack))) : expressions.plan(condition);
  }

  private BoolNode shared(Way way, BoolExpr condition, long resolution, long slack, Supplier<BoolNode> making) {
    Read read = new Read(way, condition, resolution, slack, expressions.looksBackAt(condition));
    BoolNode known = made.get(read);
    if (known == null) {
      known = making.get();
      made.put(read, known);
    }
    return known;
  }

  /** Makes the node of a condition that has durations in it. */
  private final class Seen implements BoolExpr.Question<BoolNode> {
    private final long resolution;
    private final long slack;

    private Seen(long resolution, long slack) {
      this.resolution = resolution;
      this.slack = slack;
    }

    private BoolNode seen(BoolExpr e) {
      return ConditionPlanner.this.seen(e, resolution, slack);
    }

    /** What is looked back at, as far as the order is open of what it is made of. */
    private BoolNode past(BoolExpr e) {
      return isOpen(e, resolution) ? read(e, resolution, slack) : seen(e);
    }

    private Windows.Off off(BoolExpr operand) {
      return new Windows.Off(slack, isOpen(operand, resolution) ? apart(signals(operand), resolution) : 0);
    }

    @Override public BoolNode otherwise(BoolExpr e) { return expressions.plan(e); }
    @Override public BoolNode visit(BoolExpr.Compare e) { return expressions.compare(e, slack); }
    @Override public BoolNode visit(BoolExpr.Not e) {
      return e.operand() instanceof BoolExpr.Compare compare ? seen(compare.negated())
          : graph.add(new Logic.Not(seen(e.operand())));
    }
    @Override public BoolNode visit(BoolExpr.And e) {
      return graph.add(new Logic.And(seen(e.left()), seen(e.right())));
    }
    @Override public BoolNode visit(BoolExpr.Or e) { return graph.add(new Logic.Or(seen(e.left()), seen(e.right()))); }
    @Override public BoolNode visit(BoolExpr.Same e) {
      return graph.add(new Logic.Same(seen(e.left()), seen(e.right())));
    }
    @Override public BoolNode visit(BoolExpr.HeldFor e) {
      return expressions.heldFor(e, () -> past(e.operand()), off(e.operand()));
    }
    @Override public BoolNode visit(BoolExpr.InLast e) {
      return expressions.inLast(e, () -> past(e.operand()), off(e.operand()));
    }
    @Override public BoolNode visit(BoolExpr.Since e) {
      return expressions.since(e, () -> past(e.operand()), () -> past(e.anchor()), off(e.anchor()));
    }
  }

  /** What is needed to follow a trigger, in which what stands beside an event is read at that event's moment. */
  Event planTrigger(BoolExpr trigger, long resolution, long slack) {
    boolean plain = slack == 0 || !Durations.areIn(trigger)
        || !(trigger instanceof BoolExpr.And || trigger instanceof BoolExpr.Or);
    return plain ? expressions.planEvent(trigger)
        : Event.of(ofTrigger(trigger, resolution, slack), expressions.begun(List.of(trigger)));
  }

  private BoolNode ofTrigger(BoolExpr trigger, long resolution, long slack) {
    if (trigger instanceof BoolExpr.And e) {
      return graph.add(new Logic.And(ofTrigger(e.left(), e.right(), resolution, slack),
          ofTrigger(e.right(), e.left(), resolution, slack)));
    } else if (trigger instanceof BoolExpr.Or e) {
      return graph.add(new Logic.Or(ofTrigger(e.left(), resolution, slack), ofTrigger(e.right(), resolution, slack)));
    }
    return expressions.plan(trigger);
  }

  /** One side of a trigger, which stands beside the other if only that is an event. */
  private BoolNode ofTrigger(BoolExpr side, BoolExpr other, long resolution, long slack) {
    return Occasion.isEvent(other) && !Occasion.isEvent(side) ? seen(side, resolution, slack)
        : ofTrigger(side, resolution, slack);
  }

  /** For how few moments a condition that is a trigger's may be so without having been; 0 for none. */
  long brief(BoolExpr condition, long resolution) {
    Set<Integer> behind = signals(condition);
    if (haveDurations(condition) && !haveEvents(List.of(condition))) {
      return Moments.span(resolution + sampling.longest(behind));
    }
    return isOpen(condition, resolution) ? apart(behind, resolution) : 0;
  }

  /** A condition whose becoming true is a trigger, for which {@code brief} is few moments. */
  BoolNode readToRise(BoolExpr condition, long resolution, long brief) {
    BoolNode seen = nearly(condition, resolution, brief);
    BoolNode read = mayWaver(condition, resolution) ? wavering(condition, seen,
        part -> part(part, nearly(part, resolution, brief), resolution, Durations.areIn(part))) : seen;
    return graph.add(new Brief.Rise(read, brief));
  }

  /** A condition whose durations are borderline at the moment at which they are nearly reached. */
  private BoolNode nearly(BoolExpr condition, long resolution, long brief) {
    return !Durations.areIn(condition) ? expressions.plan(condition) : condition.accept(new BoolExpr.Question<>() {
      private BoolNode near(BoolExpr e) { return nearly(e, resolution, brief); }
      @Override public BoolNode otherwise(BoolExpr e) { return expressions.plan(e); }
      @Override public BoolNode visit(BoolExpr.Not e) { return graph.add(new Logic.Not(near(e.operand()))); }
      @Override public BoolNode visit(BoolExpr.And e) {
        return graph.add(new Logic.And(near(e.left()), near(e.right())));
      }
      @Override public BoolNode visit(BoolExpr.Or e) {
        return graph.add(new Logic.Or(near(e.left()), near(e.right())));
      }
      @Override public BoolNode visit(BoolExpr.Same e) {
        return graph.add(new Logic.Same(near(e.left()), near(e.right())));
      }
      @Override public BoolNode visit(BoolExpr.Since e) { return seen(e, resolution, brief); }
      @Override public BoolNode visit(BoolExpr.HeldFor e) {
        BoolExpr shorter = new BoolExpr.HeldFor(e.operand(), Math.max(e.duration() - brief / 2, 0));
        return graph.add(new Nearly(seen(e, resolution, 0), seen(shorter, resolution, 0), Truth.F));
      }
      @Override public BoolNode visit(BoolExpr.InLast e) {
        BoolExpr shorter = new BoolExpr.InLast(e.operand(), Math.max(e.duration() - brief / 2, 0));
        return graph.add(new Nearly(seen(e, resolution, 0), seen(shorter, resolution, 0), Truth.T));
      }
    });
  }

  /** Whether a duration is among what a condition is made of by logic. */
  private static boolean haveDurations(BoolExpr condition) {
    return condition instanceof BoolExpr.HeldFor || condition instanceof BoolExpr.InLast
        || sides(condition).stream().anyMatch(ConditionPlanner::haveDurations);
  }

  private long apart(Set<Integer> behind, long resolution) {
    return Moments.span(Math.max(resolution, sampling.longest(behind)));
  }

  private Set<Integer> signals(BoolExpr condition) {
    return RuleParts.signals(List.of(condition), book);
  }

  private Wavering.Part part(BoolExpr part, BoolNode node, long resolution, boolean comesWithTime) {
    Set<Integer> behind = signals(part);
    return new Wavering.Part(node, behind.size() == 1 ? behind.iterator().next() : -1, apart(behind, resolution),
        comesWithTime || sampling.longest(behind) > 0, haveEvents(List.of(part)),
        behind.stream().map(signal -> signals[signal]).toList());
  }

  /** Whether the order is open of what a condition rests on. */
  boolean isOpen(BoolExpr condition, long resolution) {
    return restsOnOrder(condition, resolution) && !haveEvents(List.of(condition));
  }

  /** Whether the order is open of what a condition is made of. */
  boolean mayWaver(BoolExpr condition, long resolution) {
    return restsOnOrder(condition, resolution) && parts(condition).size() > 1;
  }

  private boolean restsOnOrder(BoolExpr condition, long resolution) {
    Set<Integer> behind = signals(condition);
    return (resolution > 0 || sampling.longest(behind) > 0) && behind.size() > 1;
  }

  /** That a rule is broken, where that may waver; null where it may not. */
  Wavering readBreach(BoolExpr breach, long resolution, long slack) {
    return mayWaver(breach, resolution) && read(breach, resolution, slack) instanceof Wavering wavering ? wavering
        : null;
  }

  /** Whether some conditions speak of what is so at single instants, and of nothing else. */
  static boolean areOfEvents(List<BoolExpr> conditions) {
    return conditions.stream().allMatch(condition -> condition instanceof BoolExpr.Moment
        || !sides(condition).isEmpty() && areOfEvents(sides(condition)));
  }

  /** Whether some conditions speak of what is so at single instants, none of which comes with time. */
  static boolean areInstant(List<BoolExpr> conditions) {
    return haveEvents(conditions) && conditions.stream().noneMatch(Durations::areIn);
  }

  /** Whether some conditions speak of what is so at single instants. */
  static boolean haveEvents(List<BoolExpr> conditions) {
    return conditions.stream().anyMatch(condition -> condition instanceof BoolExpr.Moment
        || haveEvents(sides(condition)));
  }

  private Wavering wavering(BoolExpr condition, BoolNode seen, Function<BoolExpr, Wavering.Part> part) {
    List<BoolExpr> parts = List.copyOf(parts(condition));
    return graph.add(new Wavering(seen, parts.stream().map(part).toList(), formula(condition, parts)));
  }

  /** The largest expressions in a condition that rest on one signal, or are not made of others by logic. */
  private Set<BoolExpr> parts(BoolExpr condition) {
    Set<BoolExpr> parts = new LinkedHashSet<>();
    List<BoolExpr> sides = signals(condition).size() < 2 ? List.of() : sides(condition);
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
