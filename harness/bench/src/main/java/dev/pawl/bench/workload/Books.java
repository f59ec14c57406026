package dev.pawl.bench.workload;

import dev.pawl.grammar.rules.Compilation;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Source;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** The rule books of the measurements, compiled from the rule files beside this class and from text. */
public final class Books {

  private static final String SIGNALS = "campaign-signals.rules";

  private Books() {}

  /** The two rules that every peer judges. */
  public static RuleBook two() {
    return compile(List.of(file(SIGNALS), file("two.rules")));
  }

  /** Forty rules of mixed forms. */
  public static RuleBook forty() {
    return compile(List.of(file(SIGNALS), file("two.rules"), file("forty.rules")));
  }

  /** Rules of the caller's over the signals of the campaign trace. */
  public static RuleBook of(String rules) {
    return compile(List.of(file(SIGNALS), new Source("benchmark", rules)));
  }

  /** A rule file as text. */
  public static Source file(String name) {
    try (InputStream in = Books.class.getResourceAsStream(name)) {
      return new Source(name, new String(in.readAllBytes(), StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static RuleBook compile(List<Source> sources) {
    Compilation compilation = RuleLanguage.compile(new ArrayList<>(sources), SourceLoader.none());
    return compilation.book().orElseThrow(() -> new IllegalArgumentException(compilation.rendered()));
  }
}
