package dev.pawl.cli.output;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.cli.Console;
import dev.pawl.cli.Interruption;
import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.RuleEngine;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Source;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** What the terminal says of findings as they come. */
class LiveLinesTest {

  private static final RuleBook BOOK = RuleLanguage.compile(List.of(new Source("gates.rules", """
      ride "Test stand"
      input go, gate, brake : bool
      rule A-1 "The gate is shut" severity minor basis practice when rises(go) must gate
      rule A-2 "The gate is shut, or the brake" severity minor basis practice when rises(go) must gate or brake
      rule A-3 "The brake is open" severity minor basis practice when rises(go) must not brake
      """)), SourceLoader.none()).book().orElseThrow();
  private static final long S = 1_000_000_000L;

  private final ByteArrayOutputStream said = new ByteArrayOutputStream();
  private final LiveLines lines = new LiveLines(BOOK, new Console(new PrintStream(said), new PrintStream(said, true,
      StandardCharsets.UTF_8), Map.of(), Path.of("."), new Interruption()));
  private final RuleEngine engine = new RuleEngine(BOOK, EngineOptions.DEFAULT, lines);

  private List<String> said() {
    List<String> all = said.toString(StandardCharsets.UTF_8).lines().toList();
    said.reset();
    return all;
  }

  private void begin() {
    engine.event(0, 0, 0, 1);
    engine.event(0, 1, 1, 1);
    engine.event(0, 2, 0, 1);
  }

  @Test
  void aSignalThatIsNotKnownIsToldOnceForAllRules() {
    begin();
    engine.event(S, 1, RuleEngine.UNKNOWN, 2);
    engine.event(2 * S, 0, 1, 3);
    engine.advanceTo(3 * S);
    lines.flush();
    assertThat(said()).containsExactly("2 s  undecided  A-1, A-2  unknown  gate");
  }

  @Test
  void whatIsBrokenIsToldAtOnceAndInOrder() {
    begin();
    engine.event(S, 1, RuleEngine.UNKNOWN, 2);
    engine.event(2 * S, 2, 1, 3);
    engine.event(2 * S, 0, 1, 3);
    engine.advanceTo(3 * S);
    assertThat(said()).containsExactly("2 s  undecided  A-1  unknown  The gate is shut",
        "2 s  broken  A-3  not-at-trigger  The brake is open");
  }
}
