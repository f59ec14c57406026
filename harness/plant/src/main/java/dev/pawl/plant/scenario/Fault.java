package dev.pawl.plant.scenario;

import java.util.Locale;

/** How equipment can fail. */
public enum Fault {
  /** A brake, a drive or a lift stays as it was commanded last. */
  STUCK(""),
  /** A brake has only so much of its friction left. */
  WEAK("50 %"),
  /** A brake takes so long to open and close. */
  SLOW("3 s"),
  /** A chain lets its train go. */
  SLIPPING(""),
  /** A chain is parted. */
  PARTED(""),
  /** An anti-rollback does not drop into its teeth. */
  JAMMED(""),
  /** The lock of a chain does not hold it. */
  UNLOCKED("");

  private final String example;

  Fault(String example) {
    this.example = example;
  }

  /** How much can be written behind it; empty where nothing is. */
  String example() {
    return example;
  }

  String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
