package dev.pawl.grammar.fuzz;

import java.nio.file.Path;
import java.util.List;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Some thousand damaged texts, the same in every build: what fuzzing looks for over hours, looked for in seconds. */
@Timeout(300)
class GeneratedTextsTest {

  @Test
  void damagedRulesGetAnAnswer() {
    damaged(Seeds.rules(), 1_000, Oracles::compileRules);
  }

  @Test
  void damagedRulesThatCanStillBeReadAreFormattedAsTheyMean() {
    damaged(Seeds.rules(), 1_000, Oracles::formatRules);
  }

  @Test
  void damagedProgramsGetAnAnswer() {
    damaged(Seeds.programs(), 250, Oracles::compileLogic);
  }

  private static void damaged(List<Path> seeds, int count, Consumer<String> oracle) {
    Damage damage = new Damage(Seeds.texts(seeds));
    for (long seed = 0; seed < count; seed++) {
      String text = damage.text(seed);
      try {
        oracle.accept(text);
      } catch (RuntimeException | StackOverflowError | AssertionError fault) {
        throw new AssertionError("seed " + seed + ": " + fault.getMessage() + "\n" + text, fault);
      }
    }
  }
}
