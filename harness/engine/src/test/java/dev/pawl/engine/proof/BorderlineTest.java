package dev.pawl.engine.proof;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Obligations;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Comparison;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Rule;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/**
 * Conditions that are borderline for a while, in places where the language puts no tolerance but the model may: what is
 * left undecided by nothing else counts as borderline, with an unknown beside it as unknown.
 */
class BorderlineTest {
  private static final BoolExpr A_RISES = new BoolExpr.Rises(new BoolExpr.Signal(TestSignals.SWITCHES[0]));
  private static final BoolExpr B = new BoolExpr.Signal(TestSignals.SWITCHES[1]);
  private static final BoolExpr C = new BoolExpr.Signal(TestSignals.SWITCHES[2]);
  private static final String BEGIN = "0 a 0; 0 b 0; 0 c 0; 0 d 0; 0 x 0; ";

  private static final Obligations MET = new Obligations(1, 0, 0, 0, 0, 0, 0);
  private static final Obligations BORDERLINE = new Obligations(0, 0, 0, 1, 0, 0, 0);
  private static final Obligations UNKNOWN = new Obligations(0, 0, 0, 0, 1, 0, 0);

  /** {@code x > bound}, or {@code x < bound} for a negative one, borderline within 1 of it. */
  private static BoolExpr beyond(double bound) {
    return new BoolExpr.Compare(bound > 0 ? Comparison.GREATER : Comparison.LESS,
        new NumExpr.Signal(TestSignals.NUMBERS[0]), new NumExpr.Constant(bound), 1, Dimension.NONE);
  }

  private static void gives(Obligations obligations, Rule.Duty duty, long resolution, String events) {
    var book = TestSignals.book(List.of(), List.of(TestSignals.rule(0, duty, resolution)));

    assertThat(TextCase.judge(book, events, 20).obligations()).isEqualTo(obligations);
  }

  private static Rule.When unlessBeyondFive(Demand demand) {
    return new Rule.When(A_RISES, Optional.empty(), Optional.of(beyond(5)), demand);
  }

  @Test
  void whatEndsWhileItsUnlessIsBorderlineIsBorderline() {
    Demand within = new Demand.Within(B, 0, 5, Optional.empty());
    Demand until = new Demand.AtOnce(B, Optional.of(new Demand.StayUntil(C)));

    gives(BORDERLINE, unlessBeyondFive(within), 0, BEGIN + "1 a 1; 2 x 5.5; 3 x 0; 4 b 1");
    gives(BORDERLINE, unlessBeyondFive(until), 0, BEGIN + "1 b 1; 1 a 1; 2 x 5.5; 3 x 0; 5 c 1");
  }

  @Test
  void whatWasUndecidedBesidesKeepsItsReason() {
    Demand flag = new Demand.Within(B, 0, 5, Optional.empty());
    Demand number = new Demand.Within(beyond(-5), 0, 5, Optional.empty());

    gives(UNKNOWN, unlessBeyondFive(flag), 0, BEGIN + "1 a 1; 2 x 5.5; 3 x 0; 4 b ?; 5 b 0");
    gives(BORDERLINE, unlessBeyondFive(number), 0, BEGIN + "1 a 1; 2 x 5.5; 3 x -4.5; 4 x 0");
  }

  /** The limit is not asked for at the trigger: what it is unknown or borderline there says nothing of the order. */
  @Test
  void aLimitInDoubtAtTheTriggerAddsNothing() {
    BoolExpr rises = new BoolExpr.Rises(C);
    BoolExpr beyondAtStart = new BoolExpr.And(new BoolExpr.TraceStart(), beyond(5));
    Rule.When near = fromStart(new Demand.Before(B, new BoolExpr.Or(beyondAtStart, rises)));
    Rule.When unknown = fromStart(new Demand.Before(B, new BoolExpr.Or(rises, beyond(5))));

    gives(MET, near, 0, "0 b 0; 0 c 0; 0 x 5.5; 5 b 1; 9 c 1");
    gives(MET, near, 2, "0 b 0; 0 c 0; 0 x 5.5; 5 b 1; 9 c 1");
    gives(BORDERLINE, unknown, 0, "0 b 0; 0 c 1; 0 x 0; 2 x 5.5; 3 x 0; 5 b 1; 9 c 0");
    gives(BORDERLINE, unknown, 2, "0 b 0; 0 c 1; 0 x 0; 2 x 5.5; 3 x 0; 5 b 1; 9 c 0");
  }

  private static Rule.When fromStart(Demand demand) {
    return new Rule.When(new BoolExpr.TraceStart(), Optional.empty(), Optional.empty(), demand);
  }
}
