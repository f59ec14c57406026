package dev.pawl.grammar.fuzz;

import dev.pawl.grammar.logic.LogicLanguage;
import dev.pawl.grammar.rules.Compilation;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.explain.RuleExplainer;
import dev.pawl.grammar.rules.format.Formatted;
import dev.pawl.grammar.rules.format.RuleFormatter;
import dev.pawl.grammar.rules.parse.ParsedFile;
import dev.pawl.grammar.rules.parse.RuleReader;
import dev.pawl.grammar.rules.tree.Comment;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.DiagnosticRenderer;
import dev.pawl.grammar.source.Source;
import java.util.List;
import java.util.stream.Stream;

/**
 * What must hold of any text at all. A text may be wrong in every way, but then diagnostics say so: whatever is thrown
 * is a fault, and so is a broken promise, for which these methods throw an {@link AssertionError}. They use no
 * assertion library, as it would cost more than the compilers do.
 */
final class Oracles {

  private Oracles() {}

  /** The rule language gives a book or errors, each with a place in the text; what it gives can be explained. */
  static void compileRules(String text) {
    Source source = new Source("fuzz.rules", text);
    Compilation compilation = RuleLanguage.compile(List.of(source), SourceLoader.none());
    expectEither(compilation.book().isPresent(), compilation.diagnostics());
    expectPlaces(source, compilation.diagnostics());
    compilation.book().ifPresent(book -> {
      RuleExplainer explainer = new RuleExplainer(book);
      book.rules().forEach(rule -> expect(!explainer.explain(rule).toString().isBlank(), rule.id()
          + " has no explanation"));
    });
  }

  /** The formatter keeps what a readable text means, and its comments; formatting again changes nothing. */
  static void formatRules(String text) {
    Source source = new Source("fuzz.rules", text);
    Formatted formatted = RuleFormatter.format(source);
    expectPlaces(source, formatted.diagnostics());
    if (formatted.text().isEmpty()) {
      expect(!formatted.diagnostics().isEmpty(), "no text, and nothing said why");
      return;
    }
    Source printed = new Source(source.name(), formatted.text().get());
    ParsedFile before = RuleReader.read(source);
    ParsedFile after = RuleReader.read(printed);
    expect(after.diagnostics().isEmpty(), "what was printed cannot be read: " + after.diagnostics());
    expectEqual(withoutPlaces(before), withoutPlaces(after), "printing changed the meaning");
    expectEqual(commentWords(before), commentWords(after), "printing changed the comments");
    expectEqual(printed.text(), RuleFormatter.format(printed).text().orElseThrow(),
        "formatting again changed the text");
  }

  /** Structured Text gives a program or errors, each with a place in the text. */
  static void compileLogic(String text) {
    Source source = new Source("fuzz.st", text);
    LogicLanguage.Compilation compilation = LogicLanguage.compile(List.of(source));
    expectEither(compilation.program().isPresent(), compilation.diagnostics());
    expectPlaces(source, compilation.diagnostics());
  }

  private static void expectEither(boolean present, List<Diagnostic> diagnostics) {
    boolean errors = diagnostics.stream().anyMatch(Diagnostic::isError);
    expect(present != errors, present ? "a result in spite of errors" : "no result, and no error that says why");
  }

  private static void expectPlaces(Source source, List<Diagnostic> diagnostics) {
    long lines = source.text().chars().filter(character -> character == '\n').count() + 1;
    for (Diagnostic diagnostic : diagnostics) {
      int line = diagnostic.position().line();
      boolean within = diagnostic.position().file().equals(source.name()) && line >= 1 && line <= lines;
      expect(within && diagnostic.position().column() >= 1 && diagnostic.position().length() >= 1,
          "not a place in the text: " + diagnostic);
      expect(!diagnostic.message().isBlank(), "nothing said at " + diagnostic.position());
    }
    String rendered = new DiagnosticRenderer(List.of(source)).render(diagnostics);
    expect(rendered.isEmpty() == diagnostics.isEmpty(), "diagnostics that nobody sees");
  }

  /** The whole tree as text, from which only positions are taken away. */
  private static String withoutPlaces(ParsedFile parsed) {
    return parsed.file().declarations().toString().replaceAll("position=fuzz\\.rules:\\d+:\\d+", "");
  }

  private static List<String> commentWords(ParsedFile parsed) {
    return parsed.file().comments().stream().map(Comment::text).flatMap(text -> Stream.of(text.split("\\s+"))).sorted()
        .toList();
  }

  private static void expectEqual(Object expected, Object actual, String fault) {
    expect(expected.equals(actual), fault + "\n--- before\n" + expected + "\n--- after\n" + actual);
  }

  private static void expect(boolean holds, String fault) {
    if (!holds) {
      throw new AssertionError(fault);
    }
  }
}
