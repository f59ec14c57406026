package dev.pawl.grammar.rules;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.corpus.Corpus;
import dev.pawl.grammar.rules.explain.RuleExplainer;
import dev.pawl.grammar.rules.format.Formatted;
import dev.pawl.grammar.rules.format.RuleFormatter;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.parse.RuleReader;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Source;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/**
 * Rule files of the corpus with letters, words and stretches put in, taken out or mixed up: whatever comes of it,
 * nothing is thrown, every message points into the text, and what can be read survives printing and reading again.
 */
class MutatedRulesTest {

  private final List<String> seeds = Stream.of("right", "wrong", "doubtful")
      .flatMap(folder -> Corpus.rules(folder).files())
      .map(file -> Corpus.whole(Corpus.source(file).text()))
      .filter(text -> !text.isEmpty())
      .toList();
  private final List<String> words = seeds.stream().flatMap(text -> Arrays.stream(text.split("\\b")))
      .filter(w -> !w.isBlank())
      .toList();

  @Test
  void holdsForAThousandMutants() {
    mutate(1, 1_000);
  }

  @Tag("soak")
  @Test
  void holdsForAMillionMutants() {
    mutate(2, 1_000_000);
  }

  private void mutate(long seed, int runs) {
    Random random = new Random(seed);
    int readable = 0;
    for (int run = 0; run < runs; run++) {
      String text = mutant(random);
      try {
        readable += check(text) ? 1 : 0;
      } catch (RuntimeException | StackOverflowError problem) {
        throw new AssertionError("run " + run + " of seed " + seed + ":\n" + text, problem);
      }
    }
    assertThat(readable).as("mutants that could still be read").isGreaterThan(runs / 50);
  }

  private String mutant(Random random) {
    StringBuilder text = new StringBuilder(seeds.get(random.nextInt(seeds.size())));
    for (int change = 1 + random.nextInt(2); change > 0; change--) {
      int place = random.nextInt(text.length() + 1);
      switch (random.nextInt(4)) {
        case 0 -> text.delete(place, Math.min(text.length(), place + 1 + random.nextInt(12)));
        case 1 -> text.insert(place, (char) (random.nextInt(8) == 0 ? random.nextInt(0x10000)
            : 32 + random.nextInt(95)));
        case 2 -> text.insert(place, " " + words.get(random.nextInt(words.size())) + " ");
        default -> {
          String other = seeds.get(random.nextInt(seeds.size()));
          int from = random.nextInt(other.length());
          text.insert(place, other, from, Math.min(other.length(), from + random.nextInt(60)));
        }
      }
    }
    return text.toString();
  }

  /** Whether the text could be read. */
  private static boolean check(String text) {
    Source source = new Source("mutant.rules", text);
    Compilation compilation = RuleLanguage.compile(List.of(source), SourceLoader.none());
    assertThat(compilation.rendered()).isNotNull();
    boolean sound = compilation.diagnostics().stream().noneMatch(Diagnostic::isError);
    assertThat(compilation.book().isPresent()).as(text).isEqualTo(sound);
    assertThat(compilation.diagnostics()).as(text).allSatisfy(diagnostic -> pointsInto(source, diagnostic));
    compilation.book().ifPresent(MutatedRulesTest::explainAll);

    Formatted formatted = RuleFormatter.format(source);
    formatted.text().ifPresent(printed -> {
      Source again = new Source("mutant.rules", printed);
      assertThat(tree(again)).as(text).isEqualTo(tree(source));
      assertThat(RuleFormatter.format(again).text()).as(text).contains(printed);
    });
    return formatted.text().isPresent();
  }

  private static void pointsInto(Source source, Diagnostic diagnostic) {
    int line = diagnostic.position().line();
    assertThat(diagnostic.position().column()).isBetween(line == 0 ? 0 : 1, source.line(line).length() + 1);
  }

  private static void explainAll(RuleBook book) {
    RuleExplainer explainer = new RuleExplainer(book);
    book.rules().forEach(rule -> assertThat(explainer.explain(rule).words()).isNotEmpty());
  }

  private static String tree(Source source) {
    return RuleReader.read(source).file().declarations().toString().replaceAll("position=[^,\\]]*:\\d+:\\d+", "");
  }
}
