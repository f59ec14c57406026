package dev.pawl.engine.language;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.EventSink;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.RuleOutcome;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.grammar.rules.Compilation;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleExample;
import dev.pawl.grammar.source.Source;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Named;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Every example of the language reference gives what the page says it gives. */
class LanguageExamplesTest {

  private static final Pattern FENCE = Pattern.compile("(?ms)^```(rules|rules head)\\n(.*?)^```$");

  private record Case(RuleBook book, RuleExample example) {}

  static List<Named<Case>> examples() throws IOException {
    Matcher fence = FENCE.matcher(Files.readString(Path.of("../../grammar/LANGUAGE.md")));
    StringBuilder head = new StringBuilder();
    List<Named<Case>> cases = new ArrayList<>();
    while (fence.find()) {
      if (fence.group(1).equals("rules head")) {
        head.append(fence.group(2));
        continue;
      }
      Compilation compilation = RuleLanguage.compile(List.of(new Source("LANGUAGE.md", head + fence.group(2))),
          SourceLoader.none());
      RuleBook book = compilation.book().orElseThrow(() -> new AssertionError(compilation.rendered()));
      compilation.examples().forEach(example -> cases.add(Named.of(
          book.rules().get(example.rule()).id() + ": " + example.title(), new Case(book, example))));
    }
    return cases;
  }

  @ParameterizedTest
  @MethodSource("examples")
  void givesWhatThePageSays(Case single) {
    RuleExample example = single.example();
    RuleOutcome outcome = run(single.book(), example).rules().get(example.rule());

    assertThat(outcome.verdict().label()).isEqualTo(example.expected().label().replace(' ', '-'));
    example.margin().ifPresent(margin -> assertThat(outcome.margin().orElseThrow().value())
        .isCloseTo(margin, within(1e-9)));
  }

  private static TraceOutcome run(RuleBook book, RuleExample example) {
    RuleEngine engine = new RuleEngine(book, EngineOptions.DEFAULT, FindingListener.NONE);
    for (RuleExample.Event event : example.events()) {
      engine.event(event.time(), event.signal(), event.value(), event.line());
    }
    return example.end().isPresent() ? engine.finish(example.end().getAsLong()) : engine.finish();
  }

  /** The value by which an example says "unknown" is the engine's. */
  @Test
  void examplesAndEngineAgreeOnUnknown() {
    assertThat(RuleExample.UNKNOWN).isEqualTo(EventSink.UNKNOWN);
  }

  /** Only verdicts and margins are looked at here, so that nothing needs to be heard. */
}
