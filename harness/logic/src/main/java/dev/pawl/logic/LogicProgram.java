package dev.pawl.logic;

import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.logic.code.ProgramCompiler;
import dev.pawl.logic.code.ScanCode;
import java.util.BitSet;

/**
 * A program compiled to code. It holds no memory, so that any number of machines can run it.
 *
 * @param program the checked program
 * @param options how it was compiled
 * @param code what runs
 */
public record LogicProgram(CheckedProgram program, LogicOptions options, ScanCode code) {

  /**
   * Compiles a program.
   *
   * @param recorded slots whose last writing line is to be noted
   * @throws ProgramCompiler.TooLarge if the JVM has no room for a statement or unit of it
   */
  public static LogicProgram compile(CheckedProgram program, LogicOptions options,
      BitSet recorded) throws ProgramCompiler.TooLarge {
    return new LogicProgram(program, options, ProgramCompiler.compile(program, options.code(), recorded));
  }
}
