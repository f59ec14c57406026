package dev.pawl.grammar.logic;

import dev.pawl.grammar.logic.check.ProgramChecker;
import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.grammar.logic.parse.SourceParser;
import dev.pawl.grammar.logic.syntax.CompilationUnit;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Source;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * The Structured Text language of IEC 61131-3, from text to checked program.
 *
 * <p>Each source is turned into words, a parse tree and a syntax tree ({@code parse}, {@code syntax}). Once all sources are
 * readable, names, types and constants are worked out over all of them together ({@code check}), which yields a program in which
 * every name is an address and every conversion explicit ({@code model}). Both stages report everything wrong that they find.
 */
public final class LogicLanguage {

  /** Errors that are told; a source with more is told to be fixed first. */
  private static final int MOST_DIAGNOSTICS = 200;

  private LogicLanguage() {}

  /**
   * The outcome of a compilation.
   *
   * @param program the program; empty if anything is wrong with it
   * @param diagnostics errors and warnings in the order of the sources
   */
  public record Compilation(Optional<CheckedProgram> program, List<Diagnostic> diagnostics) {
    public Compilation {
      diagnostics = List.copyOf(diagnostics);
    }
  }

  /** Compiles the sources of one program. */
  public static Compilation compile(List<Source> sources) {
    List<Diagnostic> diagnostics = new ArrayList<>();
    List<CompilationUnit> units = sources.stream().map(source -> SourceParser.parse(source, diagnostics::add)).toList();
    if (diagnostics.stream().anyMatch(Diagnostic::isError)) {
      return new Compilation(Optional.empty(), ordered(diagnostics, sources));
    }
    CheckedProgram program = ProgramChecker.check(units, diagnostics::add);
    boolean sound = diagnostics.stream().noneMatch(Diagnostic::isError);
    return new Compilation(sound ? Optional.of(program) : Optional.empty(), ordered(diagnostics, sources));
  }

  private static List<Diagnostic> ordered(List<Diagnostic> diagnostics, List<Source> sources) {
    List<String> files = sources.stream().map(Source::name).toList();
    List<Diagnostic> sorted = new ArrayList<>(diagnostics);
    sorted.sort(Comparator.comparingInt((Diagnostic diagnostic) -> files.indexOf(diagnostic.position().file()))
        .thenComparingInt(diagnostic -> diagnostic.position().line()).thenComparingInt(diagnostic ->
        diagnostic.position().column()));
    if (sorted.size() > MOST_DIAGNOSTICS) {
      int more = sorted.size() - MOST_DIAGNOSTICS;
      Diagnostic last = sorted.get(MOST_DIAGNOSTICS - 1);
      sorted.subList(MOST_DIAGNOSTICS, sorted.size()).clear();
      sorted.add(Diagnostic.error(last.position(), more + " further errors and warnings are not shown", "fix those above first"));
    }
    return sorted;
  }
}
