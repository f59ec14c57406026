package dev.pawl.engine;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Proof;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/**
 * The bounded response G(p -&gt; F[0,5 s] q) of metric temporal logic (Koymans 1990), p at 0: q at 5 holds, q at 5.001
 * does not, a trace that ends at 4 does not say. Values derived by arithmetic from the interval semantics.
 */
class ResponseVerdictTest {

  private static final long SECOND = 1_000_000_000L;
  private static final int P = 0;
  private static final int Q = 1;

  private final Told told = new Told();

  @Test
  void aResponseAtTheDeadlineMeetsIt() {
    RuleOutcome outcome = judge(5 * SECOND, 20 * SECOND);
    assertThat(outcome.verdict()).isEqualTo(Verdict.HELD);
    assertThat(outcome.margin().orElseThrow().value()).isZero();
  }

  @Test
  void aResponseOneMillisecondLateBreaksItAndSaysHowLate() {
    RuleOutcome outcome = judge(5_001_000_000L, 20 * SECOND);
    assertThat(outcome.verdict()).isEqualTo(Verdict.BROKEN);
    assertThat(outcome.margin().orElseThrow().value()).isEqualTo(-0.001);
    Finding finding = told.findings().get(0);
    assertThat(finding.kind()).isEqualTo(Finding.Kind.NO_RESPONSE);
    assertThat(finding.trigger()).isZero();
    assertThat(finding.time()).isEqualTo(5 * SECOND);
    assertThat(finding.evidence()).contains(new Evidence(Evidence.Moment.TRIGGER, 0, P, 1, 2));
    assertThat(told.late()).extracting(Told.Late::time).containsExactly(5_001_000_000L);
  }

  @Test
  void aMissedDeadlineFiresWithoutAnEventAtItsTime() {
    assertThat(judge(-1, 20 * SECOND).verdict()).isEqualTo(Verdict.BROKEN);
    assertThat(told.findings()).extracting(Finding::time).containsExactly(5 * SECOND);
  }

  @Test
  void aTraceThatEndsBeforeTheDeadlineDoesNotSay() {
    RuleOutcome outcome = judge(-1, 4 * SECOND);
    assertThat(outcome.verdict()).isEqualTo(Verdict.UNDECIDED);
    assertThat(outcome.obligations().open()).isEqualTo(1);
  }

  /** Judges a trace with p rising at 0 and q rising at {@code response} (never if negative). */
  private RuleOutcome judge(long response, long end) {
    RuleEngine engine = new RuleEngine(book(), EngineOptions.DEFAULT, told);
    engine.event(-SECOND, P, 0, 1);
    engine.event(-SECOND, Q, 0, 1);
    engine.event(0, P, 1, 2);
    if (response >= 0) {
      engine.event(response, Q, 1, 3);
    }
    return engine.finish(end).rules().get(0);
  }

  private static RuleBook book() {
    Signal p = new Signal(P, "p", Signal.Direction.INPUT, new ValueType.Bool(), Position.NOWHERE);
    Signal q = new Signal(Q, "q", Signal.Direction.OUTPUT, new ValueType.Bool(), Position.NOWHERE);
    Demand demand = new Demand.Within(new BoolExpr.Signal(Q), 0, 5 * SECOND, Optional.empty());
    Rule.When duty = new Rule.When(new BoolExpr.Rises(new BoolExpr.Signal(P)), Optional.empty(), Optional.empty(),
        demand);
    Rule rule = new Rule(0, "R", "response", Rule.Severity.MAJOR, Rule.Basis.PRACTICE, duty, Proof.NONE, 0, "",
        Position.NOWHERE);
    return new RuleBook("", 0, List.of(p, q), List.of(), List.of(rule));
  }
}
