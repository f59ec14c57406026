package dev.pawl.engine.evaluation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.EventSink;
import dev.pawl.engine.RuleOutcome;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.ZoneOutcome;
import dev.pawl.engine.plan.Selection;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Source;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * Every event passes here before any rule sees it: whether it changes anything, whether it is in order, what the trace
 * held.
 */
class ArrivalsTest {
  private final Arrivals arrivals = new Arrivals(2);

  @Test
  void anEventChangesSomethingWhereItsSignalHadAnotherValue() {
    assertThat(arrivals.take(5, 0, EventSink.UNKNOWN)).isFalse();
    assertThat(arrivals.take(6, 0, 1)).isTrue();
    assertThat(arrivals.take(7, 0, 1)).isFalse();
    assertThat(arrivals.take(7, 1, 1)).isTrue();
    assertThat(arrivals.take(8, 0, 0)).isTrue();
    assertThat(arrivals.take(8, 0, EventSink.UNKNOWN)).isTrue();
  }

  @Test
  void countsEventsAndTheInstantsTheyLieBetween() {
    assertThat(arrivals.haveBegun()).isFalse();
    assertThat(arrivals.now()).isZero();
    arrivals.take(-5, 0, 1);
    arrivals.take(-5, 0, 0);
    arrivals.take(-5, 1, 0);
    arrivals.moveTo(9);

    TraceOutcome outcome = arrivals.outcome(List.of());
    assertThat(outcome.start()).isEqualTo(-5);
    assertThat(outcome.end()).isEqualTo(9);
    assertThat(outcome.events()).isEqualTo(3);
    assertThat(outcome.overwritten()).isEqualTo(1);
    assertThat(arrivals.haveBegun()).isTrue();
    assertThat(arrivals.now()).isEqualTo(9);
  }

  @Test
  void putsTheRulesAndZonesOfAllPartsInTheOrderOfTheBook() {
    String text = "input a, b : bool\n" + IntStream.range(0, 4)
        .mapToObj(i -> "zone z" + i + " enter rises(a) leave rises(b) holds 1\n" + "rule R" + i
        + " \"\" basis practice always a\n").collect(Collectors.joining());
    RuleBook book = RuleLanguage.compile(List.of(new Source("parts.rules", text)), SourceLoader.none()).book()
        .orElseThrow();
    List<Evaluation> parts = Stream.of(List.of(1, 3), List.of(0, 2)).map(of -> new Evaluation(book,
        new Selection(of.stream().map(book.rules()::get).toList(), of.stream().map(book.zones()::get).toList()),
            EngineOptions.DEFAULT, null))
        .toList();

    assertThat(arrivals.outcome(parts).rules()).extracting(RuleOutcome::rule).containsExactly(0, 1, 2, 3);
    assertThat(arrivals.outcome(parts).zones()).extracting(ZoneOutcome::zone).containsExactly(0, 1, 2, 3);
  }

  @Test
  void refusesWhatIsOutOfOrderAndKeepsWhatItHad() {
    arrivals.take(5, 0, 1);

    assertThatIllegalArgumentException().isThrownBy(() -> arrivals.take(4, 0, 0)).withMessage(
        "time 4 ns after 5 ns: events have to come in order of time");
    assertThatIllegalArgumentException().isThrownBy(() -> arrivals.moveTo(4));
    assertThat(arrivals.now()).isEqualTo(5);
    assertThat(arrivals.outcome(List.of()).events()).isEqualTo(1);
  }
}
