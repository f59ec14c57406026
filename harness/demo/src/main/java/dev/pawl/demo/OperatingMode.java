package dev.pawl.demo;

import java.util.Locale;

/** Where the demo ride's mode switch can stand. */
enum OperatingMode {
  OFF,
  MANUAL,
  AUTOMATIC;

  String label() {
    return name().toLowerCase(Locale.ROOT);
  }
}
