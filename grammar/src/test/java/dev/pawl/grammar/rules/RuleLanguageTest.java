package dev.pawl.grammar.rules;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Comparison;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Source;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class RuleLanguageTest {

  private static final String LIFT = """
      ride "Kestrel Ridge"                          -- invented; every name here is

      resolution 10 ms                              -- scan or logging period

      input  base_flag    : bool                    -- proximity sensor, lift base
      input  near_flag    : bool
      input  crest_flag   : bool
      input  estop_chain  : bool
      input  reset_button : bool
      output lift_run     : bool
      output lift_speed   : m/s
      output gate_release : bool

      zone lift     enter rises(base_flag)  leave falls(crest_flag)  length 48 m  holds 1
      zone approach enter rises(near_flag)  leave falls(base_flag)   length 20 m  holds 1

      define train_near = occupied(approach) or occupied(lift)

      rule LIFT-01 "Lift drive idles when no train is near"
        basis    practice
        severity minor
        when     not train_near for 20 s
        must     lift_speed <= 0.5 m/s within 3 s

      rule ZONE-01 "No dispatch into an occupied zone"
        basis    "Quebec Safety Code (B-1.1, r. 3) s. 301(1)"
        severity critical
        when     rises(gate_release)
        must     not occupied(approach)

      rule STOP-01 "E-stop stops the lift"
        basis    practice
        severity critical
        when     falls(estop_chain)
        must     not lift_run within 500 ms, and stay so until rises(reset_button)
      """;

  private static RuleBook book(String text) {
    Compilation compilation = RuleLanguage.compile(List.of(new Source("a.rules", text)), SourceLoader.none());
    assertThat(compilation.diagnostics().stream().filter(Diagnostic::isError)).as(compilation.rendered()).isEmpty();
    return compilation.book().orElseThrow();
  }

  @Test
  void compilesTheFileAtAGlance() {
    RuleBook book = book(LIFT);

    assertThat(book.ride()).isEqualTo("Kestrel Ridge");
    assertThat(book.resolution()).isEqualTo(10_000_000);
    assertThat(book.signals()).extracting(s -> s.name()).startsWith("base_flag", "near_flag");
    assertThat(book.zones()).extracting(z -> z.length()).containsExactly(48.0, 20.0);
    Rule lift = book.rules().get(0);
    BoolExpr near = new BoolExpr.Or(new BoolExpr.Occupied(1), new BoolExpr.Occupied(0));
    assertThat(lift.duty()).isEqualTo(new Rule.When(new BoolExpr.HeldFor(new BoolExpr.Not(near), 20_000_000_000L),
        Optional.empty(), Optional.empty(), new Demand.Within(
            new BoolExpr.Compare(Comparison.AT_MOST, new NumExpr.Signal(6), new NumExpr.Constant(0.5), 0,
                Dimension.SPEED), 0,
            3_000_000_000L, Optional.empty())));
    assertThat(lift.text()).isEqualTo("when not train_near for 20 s must lift_speed <= 0.5 m/s within 3 s");
    assertThat(book.rules().get(2).duty()).isEqualTo(new Rule.When(new BoolExpr.Falls(new BoolExpr.Signal(3)),
        Optional.empty(), Optional.empty(), new Demand.Within(new BoolExpr.Not(new BoolExpr.Signal(5)), 0, 500_000_000L,
            Optional.of(new Demand.StayUntil(new BoolExpr.Rises(new BoolExpr.Signal(4)))))));
  }

  /** A minus belongs to the number before its unit is looked at. */
  @Test
  void aNumberBelowZeroIsOneOfItsUnit() {
    RuleBook book = book("""
        input oil : degF
        rule OIL-01 "The oil is not colder than it can be pumped"
          basis practice
          always oil >= -40 degC
        """);

    assertThat(((Rule.Always) book.rules().get(0).duty()).required())
        .isEqualTo(new BoolExpr.Compare(Comparison.AT_LEAST, new NumExpr.Signal(0), new NumExpr.Constant(233.15), 0,
        new Dimension(0, 0, 0, 0, 1, 0)));
  }

  @Test
  void makesOneRuleForEachZone() {
    RuleBook book = book(LIFT + """
        for each zones (z, ahead) in ((approach, lift))
        rule ROOM-{z} "No train enters {z} while {ahead} is full"
          basis practice
          when  enters(z)
          must  not occupied(ahead)
        for each zone z
        rule COUNT-{z} "Counts of {z} agree"
          basis practice
          never miscounts(z)
        """);

    assertThat(book.rules()).extracting(Rule::id).endsWith("ROOM-approach", "COUNT-lift", "COUNT-approach");
    Rule room = book.rules().get(3);
    assertThat(room.title()).isEqualTo("No train enters approach while lift is full");
    assertThat(room.text()).isEqualTo("when enters(approach) must not occupied(lift)");
    assertThat(book.rules().get(4).duty())
        .isEqualTo(new Rule.Always(new BoolExpr.Not(new BoolExpr.Miscounts(0)), true, Optional.empty(),
            Optional.empty()));
  }

  @Test
  void readsEachUsedFileOnceWhateverTheCircle() {
    Map<String, String> files = Map.of("lib/lift.rules", "use \"../main.rules\"\nuse \"stop.rules\"\n",
        "lib/stop.rules", "use \"lift.rules\" needs estop_chain : bool needs zone lift\n"
            + "rule STOP-02 \"t\" basis practice never estop_chain while occupied(lift)");
    SourceLoader loader = name -> {
      if (!files.containsKey(name)) {
        throw new IOException("no such file");
      }
      return new Source(name, files.get(name));
    };
    Source main = new Source("main.rules", "use \"lib/lift.rules\"\n" + LIFT);

    Compilation compilation = RuleLanguage.compile(List.of(main), loader);

    assertThat(compilation.diagnostics().stream().filter(Diagnostic::isError)).as(compilation.rendered()).isEmpty();
    assertThat(compilation.sources()).extracting(Source::name).containsExactly("main.rules", "lib/lift.rules",
        "lib/stop.rules");
    assertThat(compilation.book().orElseThrow().rules()).extracting(Rule::id)
        .containsExactly("LIFT-01", "ZONE-01", "STOP-01", "STOP-02");
  }

  @Test
  void pointsAtTheOperandOfTheWrongDimension() {
    String text = LIFT.replace("<= 0.5 m/s within", "<= 3 s within");
    Compilation compilation = RuleLanguage.compile(List.of(new Source("a.rules", text)), SourceLoader.none());

    assertThat(compilation.book()).isEmpty();
    assertThat(compilation.rendered()).isEqualTo("""
        a.rules:23:26: error: this is a time, but `lift_speed` is a speed
           23 |   must     lift_speed <= 3 s within 3 s
              |                          ^^^
               = write it in m/s
        """);
  }
}
