package dev.pawl.logic.code;

import dev.pawl.logic.runtime.LogicMemory;

/** The compiled programs, ready to run. */
public interface ScanCode {

  /** Runs every program of a task once, in the order of their declaration. */
  void run(LogicMemory memory, int task);
}
