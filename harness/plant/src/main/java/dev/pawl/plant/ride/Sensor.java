package dev.pawl.plant.ride;

import dev.pawl.plant.text.Amount;
import dev.pawl.plant.text.Word;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * A signal that reports on a piece of equipment.
 *
 * @param what it reports
 * @param device on which
 * @param supply volts and efficiency of a drive whose current is read: watts for each ampere; 0 else
 */
public record Sensor(Word signal, What what, Word device, Timing timing, Accuracy accuracy, double supply) {

  /**
   * When it reads.
   *
   * @param every seconds between readings
   * @param delay seconds by which it is late
   * @param smoothed time constant in seconds; 0 for none
   */
  public record Timing(double every, double delay, double smoothed) {}

  /**
   * How exactly it reads; what is not stated is exact, or has no end.
   *
   * @param step to which a reading is rounded
   * @param noise standard deviation of the reading while what it reads is not 0
   * @param change by which a reading has to differ from the last to be told
   * @param most the greatest reading
   */
  public record Accuracy(Optional<Amount> step, Optional<Amount> noise, Optional<Amount> change,
      Optional<Amount> most) {

    /** All that is stated. */
    public Stream<Amount> stated() {
      return Stream.of(step, noise, change, most).flatMap(Optional::stream);
    }
  }

  /** What there is to report. */
  public enum What {
    /** A switch: a brake is wholly closed. */
    CLOSED,
    /** A switch: a brake is wholly open. */
    OPEN,
    /** A switch: the chain is whole and tight. */
    TENSION,
    /** Speed of a chain. */
    SPEED,
    /** Speed of a lift's motor, by its gearbox. */
    MOTOR,
    /** Current of a lift's drive. */
    CURRENT,
    /** A switch of the track leads to its siding. */
    SIDING,
    /** A switch of the track leads along the circuit. */
    CIRCUIT,
    /** Pressure of the air. */
    PRESSURE;

    /** Its word in a ride's file. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }

    /** Whether it is true or false, and no number. */
    public boolean isSwitch() {
      return switch (this) {
        case CLOSED, OPEN, TENSION, SIDING, CIRCUIT -> true;
        case SPEED, MOTOR, CURRENT, PRESSURE -> false;
      };
    }
  }
}
