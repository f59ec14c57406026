package dev.pawl.report.collect;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.model.Exact;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Scale;
import dev.pawl.grammar.source.Source;
import java.util.List;
import org.junit.jupiter.api.Test;

class ComparedUnitTest {

  @Test
  void aMarginIsInTheUnitOfTheSignalThatIsRequiredRatherThanOfOneInTheTrigger() {
    assertThat(unit("when motor > 3 mph must chain <= 2 m/s", "m/s")).isEqualTo(new ComparedUnit("m/s", Scale.SAME));
    Scale mph = new Scale(Exact.of(44704, 100_000), Exact.ZERO);
    assertThat(unit("when chain > 1 m/s must motor <= 5 mph", "m/s")).isEqualTo(new ComparedUnit("mph", mph));
  }

  /** A difference of 1 degC is one of 1 K; the language reference asks for K in a difference of temperatures. */
  @Test
  void aDifferenceOfTemperaturesIsInKelvin() {
    assertThat(unit("never bearing > 80 degC", "K")).isEqualTo(new ComparedUnit("K", Scale.SAME));
    assertThat(unit("never oil > 80 degC", "K")).isEqualTo(new ComparedUnit("K", Scale.SAME));
  }

  @Test
  void aTimeIsInSeconds() {
    assertThat(unit("when motor > 3 mph must chain <= 2 m/s within 3 s", "s"))
        .isEqualTo(new ComparedUnit("s", Scale.SAME));
  }

  @Test
  void aSignalWithinAMeanOrASumHasTheUnitToo() {
    assertThat(unit("always mean(air) over 5 s >= 85 psi", "kg/(m*s2)").unit()).isEqualTo("psi");
    assertThat(unit("always min(air) over 5 s >= 85 psi", "kg/(m*s2)").unit()).isEqualTo("psi");
    assertThat(unit("always air - previous(air) <= 5 psi", "kg/(m*s2)").unit()).isEqualTo("psi");
    assertThat(unit("never mean(level) over 5 s > 80 %", "").unit()).isEqualTo("%");
  }

  @Test
  void whereNoneIsComparedOneThatTheRideHasSaysTheUnit() {
    assertThat(unit("always force / area >= 85 psi", "kg/(m*s2)").unit()).isEqualTo("psi");
    assertThat(unit("always rate(chain) <= 2 m/s2", "m/s2")).isEqualTo(new ComparedUnit("m/s2", Scale.SAME));
  }

  @Test
  void aCountIsAPlainNumber() {
    assertThat(unit("always count(rises(level > 50 %)) in last 5 s <= 3", "").unit()).isEmpty();
  }

  private static ComparedUnit unit(String duty, String siUnit) {
    RuleBook book = RuleLanguage.compile(List.of(new Source("units.rules", """
        input chain : m/s
        input motor : mph
        input bearing : degC
        input oil : degF
        input air : psi
        input level : %
        input force : N
        input area : m2
        rule R-1 "" basis practice
        """ + duty)), SourceLoader.none()).book().orElseThrow();
    return ComparedUnit.of(book.rules().get(0), siUnit, book);
  }
}
