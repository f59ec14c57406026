package dev.pawl.logic;

import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.logic.code.ProgramCompiler;
import dev.pawl.logic.code.ScanCode;
import java.util.BitSet;
import java.util.List;
import java.util.stream.Collectors;

/**
 * A program compiled to code. It holds no memory, so that any number of machines can run it.
 *
 * @param program the checked program
 * @param options how it was compiled
 * @param watched the lines of which it is noted in each scan whether they ran and what they came to
 * @param code what runs
 */
public record LogicProgram(CheckedProgram program, LogicOptions options, List<ProgramLine> watched, ScanCode code) {

  public LogicProgram {
    watched = List.copyOf(watched);
  }

  /** Compiles a program of which no line is watched, which costs nothing then. */
  public static LogicProgram compile(CheckedProgram program, LogicOptions options, BitSet recorded)
      throws ProgramCompiler.TooLarge {
    return compile(program, options, recorded, List.of());
  }

  /**
   * Compiles a program.
   *
   * @param recorded slots whose last writing line is to be noted
   * @param watched lines at which statements, conditions or arguments begin
   * @throws ProgramCompiler.TooLarge if the JVM has no room for a statement or unit of it
   */
  public static LogicProgram compile(CheckedProgram program, LogicOptions options, BitSet recorded,
      List<ProgramLine> watched) throws ProgramCompiler.TooLarge {
    return new LogicProgram(program, options, watched,
        ProgramCompiler.compile(program, options.code(), recorded, watched.stream().collect(
            Collectors.groupingBy(ProgramLine::file, Collectors.toMap(ProgramLine::line, watched::indexOf)))));
  }
}
