package dev.pawl.logic.code;

import dev.pawl.logic.runtime.LogicMemory;

/** The compiled programs, ready to run. */
public interface ScanCode {

  /** Runs every program once, in the order of their declaration. */
  void scan(LogicMemory memory);
}
