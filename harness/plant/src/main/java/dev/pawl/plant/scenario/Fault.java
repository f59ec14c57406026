package dev.pawl.plant.scenario;

import java.util.Locale;
import java.util.Optional;

/** How equipment, flags and messages can fail. */
public enum Fault {
  /** A brake, a drive, a lift or a switch stays as it was commanded last. */
  STUCK,
  /** A brake has only so much of its friction left. */
  WEAK(Measure.SHARE, "50 %"),
  /** A brake takes so long to open and close. */
  SLOW(Measure.TIME, "3 s"),
  /** A chain lets its train go. */
  SLIPPING,
  /** A chain is parted. */
  PARTED,
  /** An anti-rollback does not drop into its teeth. */
  JAMMED,
  /** The lock of a chain does not hold it. */
  UNLOCKED,
  /** A drive that runs goes on: its contactor is welded. */
  WELDED,
  /** A drive does not run, or a compressor fill: it has no power. */
  DEAD,
  /** The air is gone. */
  LOST,
  /** So many times a flag does not see what comes to it. */
  MISSED(Measure.COUNT, "1"),
  /** The contact of a flag bounces for so long after each change. */
  CHATTERING(Measure.TIME, "300 ms"),
  /** A flag, or what carries a signal, tells so much later. */
  LATE(Measure.TIME, "500 ms"),
  /** Messages of a signal are lost: whoever waits for them goes on with the last that came. */
  SILENT;

  private final Optional<Measure> measure;
  private final String example;

  /** What says how much it fails. */
  public enum Measure {
    SHARE,
    TIME,
    COUNT
  }

  Fault() {
    this.measure = Optional.empty();
    this.example = "";
  }

  Fault(Measure measure, String example) {
    this.measure = Optional.of(measure);
    this.example = example;
  }

  /** What says how much it fails, where something does. */
  public Optional<Measure> measure() {
    return measure;
  }

  /** How much can be written behind it; empty where nothing is. */
  String example() {
    return example;
  }

  /** As scenarios have it. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
