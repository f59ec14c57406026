package dev.pawl.grammar.logic;

import dev.pawl.grammar.logic.check.ProgramChecker;
import dev.pawl.grammar.logic.drawn.DrawnProject;
import dev.pawl.grammar.logic.drawn.Legend;
import dev.pawl.grammar.logic.drawn.Shown;
import dev.pawl.grammar.logic.drawn.chart.WrittenCharts;
import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.grammar.logic.parse.SourceParser;
import dev.pawl.grammar.logic.tree.CompilationUnit;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.Source;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The Structured Text language of IEC 61131-3, from text to checked program.
 *
 * <p>Each source is turned into words, a parse tree and a syntax tree ({@code parse}, {@code tree}). Once all sources
 * are readable, names, types and constants are worked out over all of them together ({@code check}), which yields a
 * program in which every name is an address and every conversion explicit ({@code model}). Both stages report
 * everything wrong that they find.
 */
public final class LogicLanguage {

  private LogicLanguage() {}

  /**
   * The outcome of a compilation.
   *
   * @param program the program; empty if anything is wrong with it
   * @param diagnostics errors and warnings in the order of the sources
   * @param legends what is drawn where, of sources that were drawn, by their names
   */
  public record Compilation(Optional<CheckedProgram> program, List<Diagnostic> diagnostics,
      Map<String, Legend> legends) {
    public Compilation {
      diagnostics = List.copyOf(diagnostics);
      legends = Map.copyOf(legends);
    }
  }

  /** The words of each line of a text, with a blank between them; comments are none. */
  public static List<String> words(Source source) {
    return SourceParser.words(source);
  }

  /** Whether a source is XML of another kind than a project in an exchange format. */
  public static boolean isOtherXml(Source source) {
    return DrawnProject.is(source) && !DrawnProject.isExchanged(source);
  }

  /** Compiles the sources of one program. */
  public static Compilation compile(List<Source> sources) {
    return compile(sources, LanguageChoices.DEFAULT);
  }

  /** The same, with choices of one's own. */
  public static Compilation compile(List<Source> sources, LanguageChoices choices) {
    return compile(sources, choices, Shown.nothing());
  }

  /** The same, with some of what is drawn to be seen. */
  public static Compilation compile(List<Source> sources, LanguageChoices choices, Shown shown) {
    List<String> files = sources.stream().map(Source::name).toList();
    Diagnostics diagnostics = new Diagnostics();
    Map<String, Legend> legends = new HashMap<>();
    List<CompilationUnit> units = sources.stream().map(source -> {
      if (!DrawnProject.is(source)) {
        return WrittenCharts.lowered(SourceParser.parse(source, choices, found -> diagnostics.once(found, "text",
            SourceParser.cause(found))), choices, diagnostics::add);
      }
      DrawnProject project = DrawnProject.read(source, choices, shown, found -> diagnostics.once(found, "drawn",
          DrawnProject.cause(found)));
      legends.put(source.name(), project.legend());
      return project.unit();
    }).toList();
    Optional<CheckedProgram> program = diagnostics.hasErrors() ? Optional.empty()
        : Optional.of(ProgramChecker.check(units, choices, diagnostics)).filter(unused -> !diagnostics.hasErrors());
    return new Compilation(program, Allowance.joined(diagnostics.inOrder(files).stream().map(diagnostic ->
        Optional.ofNullable(legends.get(diagnostic.position().file())).map(legend -> legend.named(diagnostic))
        .orElse(diagnostic)).toList(), legends.keySet()), legends);
  }
}
