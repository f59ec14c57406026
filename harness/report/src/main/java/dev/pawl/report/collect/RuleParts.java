package dev.pawl.report.collect;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.EnumExpr;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Zone;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** The signals that a rule reads and the comparisons that it makes, found by walking its expressions. */
public final class RuleParts {

  private final RuleBook book;
  private final Set<Integer> signals = new LinkedHashSet<>();
  private final List<BoolExpr.Compare> comparisons = new ArrayList<>();
  private final Set<Integer> zones = new LinkedHashSet<>();

  private RuleParts(RuleBook book) {
    this.book = book;
  }

  /** The parts of a rule; what is demanded comes first, then the trigger, then its conditions. */
  public static RuleParts of(Rule rule, RuleBook book) {
    RuleParts parts = new RuleParts(book);
    if (rule.duty() instanceof Rule.When when) {
      parts.demand(when.demand());
      parts.walk(when.trigger());
    } else if (rule.duty() instanceof Rule.Always always) {
      parts.walk(always.required());
    }
    rule.duty().whilst().ifPresent(parts::walk);
    rule.duty().unless().ifPresent(parts::walk);
    return parts;
  }

  /** The parts of a zone: the signals of its flags, the entry's first. */
  public static RuleParts of(Zone zone, RuleBook book) {
    RuleParts parts = new RuleParts(book);
    parts.zone(zone.index());
    return parts;
  }

  /** Indexes of all signals that can influence the rule, those behind zones included. */
  public Set<Integer> signals() {
    return signals;
  }

  /** All comparisons of numbers. */
  public List<BoolExpr.Compare> comparisons() {
    return comparisons;
  }

  private void demand(Demand demand) {
    if (demand instanceof Demand.AtOnce atOnce) {
      walk(atOnce.required());
      atOnce.stay().ifPresent(this::stay);
    } else if (demand instanceof Demand.Within within) {
      walk(within.required());
      within.stay().ifPresent(this::stay);
    } else if (demand instanceof Demand.Throughout throughout) {
      walk(throughout.required());
    } else if (demand instanceof Demand.Before before) {
      walk(before.required());
      walk(before.limit());
    }
  }

  private void stay(Demand.Stay stay) {
    if (stay instanceof Demand.StayUntil until) {
      walk(until.release());
    }
  }

  private void walk(BoolExpr expression) {
    if (expression instanceof BoolExpr.Signal it) {
      signals.add(it.signal());
    } else if (expression instanceof BoolExpr.Not it) {
      walk(it.operand());
    } else if (expression instanceof BoolExpr.And it) {
      walk(it.left());
      walk(it.right());
    } else if (expression instanceof BoolExpr.Or it) {
      walk(it.left());
      walk(it.right());
    } else if (expression instanceof BoolExpr.Same it) {
      walk(it.left());
      walk(it.right());
    } else if (expression instanceof BoolExpr.Compare it) {
      comparisons.add(it);
      walk(it.left());
      walk(it.right());
    } else if (expression instanceof BoolExpr.EnumEquals it) {
      walk(it.left());
      walk(it.right());
    } else if (expression instanceof BoolExpr.Since it) {
      walk(it.operand());
      walk(it.anchor());
    } else {
      walkInner(expression);
    }
  }

  private void walkInner(BoolExpr expression) {
    if (expression instanceof BoolExpr.Rises it) {
      walk(it.operand());
    } else if (expression instanceof BoolExpr.Falls it) {
      walk(it.operand());
    } else if (expression instanceof BoolExpr.BoolChanges it) {
      walk(it.operand());
    } else if (expression instanceof BoolExpr.NumChanges it) {
      walk(it.operand());
    } else if (expression instanceof BoolExpr.EnumChanges it) {
      walk(it.operand());
    } else if (expression instanceof BoolExpr.HeldFor it) {
      walk(it.operand());
    } else if (expression instanceof BoolExpr.InLast it) {
      walk(it.operand());
    } else if (expression instanceof BoolExpr.Previous it) {
      walk(it.operand());
    } else if (expression instanceof BoolExpr.Occupied it) {
      zone(it.zone());
    } else if (expression instanceof BoolExpr.Enters it) {
      zone(it.zone());
    } else if (expression instanceof BoolExpr.Leaves it) {
      zone(it.zone());
    } else if (expression instanceof BoolExpr.BacksOut it) {
      zone(it.zone());
    } else if (expression instanceof BoolExpr.Miscounts it) {
      zone(it.zone());
    }
  }

  private void zone(int index) {
    if (zones.add(index)) {
      boundary(book.zones().get(index).entry());
      boundary(book.zones().get(index).exit());
    }
  }

  private void boundary(Zone.Boundary boundary) {
    if (boundary instanceof Zone.Edge edge) {
      walk(edge.event());
    } else if (boundary instanceof Zone.Pair pair) {
      walk(pair.outer());
      walk(pair.inner());
    }
  }

  private void walk(EnumExpr expression) {
    if (expression instanceof EnumExpr.Signal it) {
      signals.add(it.signal());
    } else if (expression instanceof EnumExpr.Previous it) {
      walk(it.operand());
    }
  }

  private void walk(NumExpr expression) {
    if (expression instanceof NumExpr.Signal it) {
      signals.add(it.signal());
    } else if (expression instanceof NumExpr.Negate it) {
      walk(it.operand());
    } else if (expression instanceof NumExpr.Arithmetic it) {
      walk(it.left());
      walk(it.right());
    } else if (expression instanceof NumExpr.CountInLast it) {
      walk(it.event());
    } else if (expression instanceof NumExpr.CountSince it) {
      walk(it.event());
      walk(it.anchor());
    } else if (expression instanceof NumExpr.TimeSince it) {
      walk(it.event());
    } else if (expression instanceof NumExpr.Extreme it) {
      walk(it.operand());
    } else if (expression instanceof NumExpr.Mean it) {
      walk(it.operand());
    } else if (expression instanceof NumExpr.Rate it) {
      walk(it.operand());
    } else if (expression instanceof NumExpr.Previous it) {
      walk(it.operand());
    } else if (expression instanceof NumExpr.PassingSpeed it) {
      walk(it.from());
      walk(it.to());
    } else if (expression instanceof NumExpr.Trains it) {
      zone(it.zone());
    }
  }
}
