package dev.pawl.grammar.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import dev.pawl.grammar.rules.model.Requirement;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Term;
import dev.pawl.grammar.source.Source;
import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Which rules serve which requirement, and what the names in a rule stand for. */
class RequirementTest {

  private static final String RIDE = """
      use "assessment.rules"
      use "library.rules"
      input  estop_chain : bool
      output lift_run    : bool
      output tyres_run   : bool
      group drives = ((lift_run, short_time), (tyres_run, long_time))
      constant short_time = 500 ms
      constant long_time  = 2 * short_time
      define at_rest = not lift_run and not tyres_run
      rule OWN-1 "All at rest" basis practice satisfies RA-2 always at_rest unless estop_chain
      """;
  private static final String ASSESSMENT = """
      requirement RA-1 "Drives stop" source "assessment, 12" hazard "people are struck" level "PL d"
        satisfied by STOP, OWN-1
      requirement RA-2 "Nothing moves"
      requirement RA-3 "Nobody has a rule for this"
      """;
  private static final String LIBRARY = """
      needs group drives
      for each (signal run, signal limit) in drives
      rule STOP-{run} "Stops" basis practice when falls(estop_chain) must not run within limit
      """;

  private static RuleBook book() {
    Compilation compilation = RuleLanguage.compile(List.of(new Source("ride.rules", RIDE)), name -> switch (name) {
      case "assessment.rules" -> new Source(name, ASSESSMENT);
      case "library.rules" -> new Source(name, LIBRARY);
      default -> throw new IOException("no such file");
    });
    assertThat(compilation.book()).as(compilation.rendered()).isPresent();
    return compilation.book().get();
  }

  private static Rule rule(String id) {
    return book().rules().stream().filter(rule -> rule.id().equals(id)).findFirst().orElseThrow();
  }

  @Test
  void aRequirementKeepsWhatIsSaidOfIt() {
    Requirement first = book().requirements().get(0);
    assertThat(first.id() + "|" + first.text() + "|" + first.source() + "|" + first.hazard() + "|" + first.level())
        .isEqualTo("RA-1|Drives stop|assessment, 12|people are struck|PL d");
    assertThat(book().requirements()).extracting(Requirement::id).containsExactly("RA-1", "RA-2", "RA-3");
  }

  @Test
  void rulesAndRequirementsNameEachOtherAcrossFiles() {
    assertThat(rule("OWN-1").satisfies()).containsExactly("RA-1", "RA-2");
    assertThat(rule("STOP-lift_run").satisfies()).containsExactly("RA-1");
    assertThat(rule("STOP-tyres_run").satisfies()).containsExactly("RA-1");
    assertThat(book().rules()).noneMatch(rule -> rule.satisfies().contains(book().requirements().get(2).id()));
  }

  @Test
  void aRuleTellsWhatItsNamesStandFor() {
    assertThat(rule("STOP-tyres_run").terms()).extracting(Term::name, Term::written, Term::value)
        .containsExactly(tuple("long_time", "2 * short_time", "1000 ms"),
            tuple("short_time", "500 ms", "500 ms"));
    assertThat(rule("OWN-1").terms()).extracting(Term::name, Term::written, Term::isConstant)
        .containsExactly(tuple("at_rest", "not lift_run and not tyres_run", false));
  }
}
