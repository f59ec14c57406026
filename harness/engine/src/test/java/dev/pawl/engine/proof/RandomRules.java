package dev.pawl.engine.proof;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Proof;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Zone;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * Draws whole rule books with every form of duty, demand and expression. Durations are a few nanoseconds, so that
 * deadlines tie often.
 */
final class RandomRules {
  private final Draw draw;
  private final RandomExpressions expressions;

  private RandomRules(Draw draw, boolean plain) {
    this.draw = draw;
    this.expressions = new RandomExpressions(draw, plain);
  }

  static RuleBook book(Draw draw, int rules) {
    return new RandomRules(draw, false).book(rules);
  }

  /**
   * One whose conditions are mere flags and comparisons, so that obligations arise often and meet all that can become
   * of them.
   */
  static RuleBook plainBook(Draw draw, int rules) {
    return new RandomRules(draw, true).book(rules);
  }

  /** One whose rules are bounds of numbers, some of them while a flag is set or unless one is. */
  static RuleBook boundsBook(Draw draw, int count) {
    RandomRules random = new RandomRules(draw, true);
    List<Rule> rules = new ArrayList<>();
    for (int rule = 0; rule < count; rule++) {
      rules.add(TestSignals.rule(rule, random.bound(), draw.percent(75) ? 0 : draw.between(1, 3)));
    }
    return TestSignals.book(List.of(), rules);
  }

  private Rule.Duty bound() {
    BoolExpr required = expressions.bound();
    if (draw.percent(70)) {
      boolean never = draw.percent(40);
      return new Rule.Always(never ? new BoolExpr.Not(required) : required, never, sometimes(30), sometimes(20));
    }
    Demand demand = switch (draw.weighted(40, 30, 30)) {
      case 0 -> new Demand.AtOnce(required, Optional.empty());
      case 1 -> new Demand.Within(required, 0, expressions.duration(), Optional.empty());
      default -> new Demand.Throughout(required, 0, expressions.duration());
    };
    return new Rule.When(new BoolExpr.Rises(expressions.flag()), sometimes(20), sometimes(20), demand);
  }

  private RuleBook book(int count) {
    List<Zone> zones = new ArrayList<>();
    int zoneCount = draw.weighted(40, 35, 25);
    for (int zone = 0; zone < zoneCount; zone++) {
      zones.add(zone(zone));
      expressions.allowZone(zone);
    }
    List<Rule> rules = new ArrayList<>();
    for (int rule = 0; rule < count; rule++) {
      long resolution = draw.percent(55) ? 0 : draw.between(1, 3);
      Rule.Duty duty = draw.percent(20) ? always() : when();
      rules.add(TestSignals.rule(rule, duty, draw.percent(60) ? Proof.NONE : proof(duty), resolution));
    }
    return TestSignals.book(zones, rules);
  }

  private Zone zone(int index) {
    int holds = draw.between(1, 3);
    OptionalInt startsWith = draw.percent(60) ? OptionalInt.of(draw.between(0, holds)) : OptionalInt.empty();
    return new Zone(index, "z" + index, boundary(), boundary(), Double.NaN, holds, startsWith, Position.NOWHERE);
  }

  private Zone.Boundary boundary() {
    return switch (draw.weighted(40, 15, 35, 10)) {
      case 0 -> new Zone.Edge(new BoolExpr.Rises(expressions.flag()));
      case 1 -> new Zone.Edge(expressions.bool(2));
      case 2 -> new Zone.Pair(expressions.flag(), expressions.flag());
      default -> new Zone.Pair(expressions.bool(1), expressions.bool(1));
    };
  }

  private Rule.Duty always() {
    BoolExpr required = draw.percent(50) ? expressions.comparisons(2) : expressions.bool(3);
    boolean never = draw.percent(40);
    return new Rule.Always(never ? new BoolExpr.Not(required) : required, never, sometimes(25), sometimes(25));
  }

  private Rule.Duty when() {
    BoolExpr trigger = switch (draw.weighted(35, 15, 10, 40)) {
      case 0 -> new BoolExpr.Rises(expressions.flag());
      case 1 -> new BoolExpr.BoolChanges(expressions.flag());
      case 2 -> expressions.flag();
      default -> expressions.bool(draw.between(1, 3));
    };
    return new Rule.When(trigger, sometimes(20), sometimes(20), demand());
  }

  private Proof proof(Rule.Duty duty) {
    List<Proof.Trial> trials = new ArrayList<>();
    boolean stays = duty.match(when -> when.demand().stay().isPresent(), always -> false);
    for (int more = draw.between(1, 2); more > 0; more--) {
      BoolExpr event = draw.percent(50) ? new BoolExpr.Rises(expressions.flag()) : expressions.bool(draw.between(0, 2));
      boolean byTrigger = draw.percent(10) && duty instanceof Rule.When;
      trials.add(byTrigger ? new Proof.ByTrigger() : new Proof.ByEvent(event, sometimes(30), stays && draw.percent(60),
          ""));
    }
    return new Proof(trials, "");
  }

  private Optional<BoolExpr> sometimes(int chance) {
    return draw.percent(chance) ? Optional.of(expressions.bool(2)) : Optional.empty();
  }

  private Demand demand() {
    BoolExpr required = draw.percent(35) ? expressions.comparisons(2) : expressions.bool(draw.between(0, 3));
    long after = draw.percent(70) ? 0 : expressions.duration();
    return switch (draw.weighted(20, 40, 20, 20)) {
      case 0 -> new Demand.AtOnce(required, stay());
      case 1 -> new Demand.Within(required, after, expressions.duration(), stay());
      case 2 -> new Demand.Throughout(required, after, expressions.duration());
      default -> new Demand.Before(required, expressions.bool(draw.between(0, 2)));
    };
  }

  private Optional<Demand.Stay> stay() {
    return switch (draw.weighted(50, 25, 25)) {
      case 0 -> Optional.empty();
      case 1 -> Optional.of(new Demand.StayFor(expressions.duration()));
      default -> Optional.of(new Demand.StayUntil(expressions.bool(2)));
    };
  }
}
