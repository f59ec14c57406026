package dev.pawl.logic;

import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.logic.runtime.LogicFault;
import dev.pawl.logic.runtime.LogicMemory;
import java.util.BitSet;
import java.util.NoSuchElementException;
import java.util.Optional;

/** A controller in virtual time: the memory of one program, run scan by scan. Not thread-safe. */
public final class ScanMachine {

  private static final String GENERATED = "dev.pawl.logic.generated.";

  private final LogicProgram program;
  private final LogicMemory memory;
  private long scans;

  /** A machine as after power-up: every variable has its first value. */
  public ScanMachine(LogicProgram program) {
    this.program = program;
    this.memory = new LogicMemory(program.program().image(), program.options().blocks(), program.watched().size());
  }

  /**
   * Runs every task once, the most urgent first, whatever starts it.
   *
   * @param now nanoseconds, not before the scan before
   * @return the run-time error that ended the scan early, if there was one
   */
  public Optional<LogicError> scan(long now) {
    Optional<LogicError> error = Optional.empty();
    for (int task = 0; task < program.program().tasks().size() && error.isEmpty(); task++) {
      error = run(task, now);
    }
    return error;
  }

  /**
   * Runs the programs of one task.
   *
   * @param task its number among the program's
   */
  Optional<LogicError> run(int task, long now) {
    scans++;
    memory.now = now;
    memory.budget = program.options().watchdog();
    memory.lines.begin();
    try {
      program.code().run(memory, task);
      return Optional.empty();
    } catch (LogicFault fault) {
      return Optional.of(new LogicError(scans, now, place(fault), fault.getMessage()));
    }
  }

  private static ProgramLine place(LogicFault fault) {
    for (StackTraceElement frame : fault.getStackTrace()) {
      if (frame.getClassName().startsWith(GENERATED)) {
        return new ProgramLine(String.valueOf(frame.getFileName()), frame.getLineNumber());
      }
    }
    return new ProgramLine("", 0);
  }

  /** Gives every variable its first value. */
  public void coldRestart() {
    memory.restart(new BitSet());
  }

  /** Gives every variable its first value, but for those declared RETAIN. */
  public void warmRestart() {
    memory.restart(program.program().retained());
  }

  /** Scans run since power-up, restarts included. */
  public long scans() {
    return scans;
  }

  LogicMemory memory() {
    return memory;
  }

  /** The slot of a variable, for fast access. */
  public int address(String path) {
    return symbol(path).address();
  }

  /** The word in a slot. */
  public long wordAt(int address) {
    return memory.words[address];
  }

  public void setWordAt(int address, long word) {
    memory.words[address] = word;
  }

  /** The word of a variable, in the form {@link dev.pawl.grammar.logic.model.Elementary} describes. */
  public long word(String path) {
    CheckedProgram.Symbol symbol = symbol(path);
    return symbol.of(memory.words[symbol.address()]);
  }

  public boolean truth(String path) {
    return word(path) != 0;
  }

  public double real(String path) {
    return Double.longBitsToDouble(word(path));
  }

  public String text(String path) {
    return memory.texts[symbol(path).address()];
  }

  public void set(String path, long word) {
    CheckedProgram.Symbol symbol = symbol(path);
    memory.words[symbol.address()] = symbol.into(memory.words[symbol.address()], word);
  }

  public void set(String path, boolean truth) {
    set(path, truth ? 1 : 0);
  }

  public void set(String path, double real) {
    set(path, Double.doubleToRawLongBits(real));
  }

  private CheckedProgram.Symbol symbol(String path) {
    return program.program().symbol(path).orElseThrow(() -> new NoSuchElementException("the program has no variable "
        + path));
  }
}
