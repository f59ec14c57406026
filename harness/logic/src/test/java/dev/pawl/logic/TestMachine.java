package dev.pawl.logic;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.LogicLanguage;
import dev.pawl.grammar.logic.drawn.Shown;
import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.grammar.source.DiagnosticRenderer;
import dev.pawl.grammar.source.Source;
import dev.pawl.logic.code.ProgramCompiler;
import java.util.BitSet;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/** Programs for tests, from text to running machine. */
public final class TestMachine {

  private TestMachine() {}

  /** A program that must be free of errors. */
  public static CheckedProgram check(String text) {
    return check(text, Shown.nothing());
  }

  private static CheckedProgram check(String text, Shown shown) {
    Source source = new Source("test.st", text);
    LogicLanguage.Compilation compilation = LogicLanguage.compile(List.of(source), LanguageChoices.DEFAULT, shown);
    assertThat(compilation.program()).as(new DiagnosticRenderer(List.of(source)).render(compilation.diagnostics()))
        .isPresent();
    return compilation.program().orElseThrow();
  }

  public static ScanMachine of(String text, LogicOptions options) {
    return of(check(text), options);
  }

  /** All that a drawn program can show. */
  public static Shown all(String text) {
    return new Shown(IntStream.rangeClosed(1, (int) text.lines().count())
        .mapToObj(line -> new Shown.Line("test.st", line)).collect(Collectors.toSet()));
  }

  /** A drawn program of which something can be seen. */
  public static ScanMachine shown(String text, Shown shown) {
    return of(check(text, shown), LogicOptions.DEFAULT);
  }

  private static ScanMachine of(CheckedProgram program, LogicOptions options) {
    try {
      return new ScanMachine(LogicProgram.compile(program, options, new BitSet()));
    } catch (ProgramCompiler.TooLarge tooLarge) {
      throw new AssertionError(tooLarge);
    }
  }

  public static ScanMachine of(String text) {
    return of(text, LogicOptions.DEFAULT);
  }

  /** A program with the given declarations and statements. */
  public static ScanMachine of(String variables, String statements) {
    return of("PROGRAM Main\nVAR\n" + variables + "\nEND_VAR\n" + statements + "\nEND_PROGRAM\n");
  }

  /** The machine after one scan that must not fail. */
  public static ScanMachine scanned(ScanMachine machine) {
    assertThat(machine.scan(0)).isEmpty();
    return machine;
  }
}
