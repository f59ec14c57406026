package dev.pawl.plant.ride;

import dev.pawl.plant.motion.Lift;
import dev.pawl.plant.motion.Stretch;
import dev.pawl.plant.text.Word;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** A piece of equipment, and which signals command it. */
public sealed interface Device {

  /** What the ride's file calls it. */
  Word name();

  /** The signals that command it. */
  List<Word> commands();

  /** What it is, in a word. */
  String kind();

  /** Whether it has something of this to show to a sensor. */
  boolean shows(Sensor.What what);

  <R> R accept(Visitor<R> visitor);

  /** A method for each kind of equipment: where something has no case for one, it does not compile. */
  interface Visitor<R> {
    R visit(FrictionBrake it);
    R visit(MagneticBrake it);
    R visit(TyreDrive it);
    R visit(ChainLift it);
    R visit(SwitchDrive it);
  }

  /**
   * What moves a brake.
   *
   * @param signal that commands it; empty where it never moves
   * @param opens whether the signal opens it, else it closes it
   * @param stroke seconds from open to closed and back
   * @param air pascals that it takes each second it is open
   */
  record Actuator(Optional<Word> signal, boolean opens, double stroke, double air) {}

  /**
   * A friction brake, or a trim brake where it slows down to a speed only.
   *
   * @param friction coefficient against the weight
   * @param speed metres per second; 0 to a stop
   */
  record FrictionBrake(Word name, Stretch stretch, double friction, double speed, Actuator actuator)
      implements Device {
    @Override
    public List<Word> commands() {
      return actuator.signal().stream().toList();
    }

    @Override public String kind() { return "brake"; }

    @Override
    public boolean shows(Sensor.What what) {
      return what == Sensor.What.CLOSED || what == Sensor.What.OPEN;
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /**
   * A magnetic brake.
   *
   * @param peak metres per second squared
   * @param speed at which it has that
   */
  record MagneticBrake(Word name, Stretch stretch, double peak, double speed, Actuator actuator) implements Device {
    @Override
    public List<Word> commands() {
      return actuator.signal().stream().toList();
    }

    @Override public String kind() { return "brake"; }

    @Override
    public boolean shows(Sensor.What what) {
      return what == Sensor.What.CLOSED || what == Sensor.What.OPEN;
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /**
   * A tyre drive.
   *
   * @param runs signal by which it drives forward
   * @param reverses signal by which it drives backward
   */
  record TyreDrive(Word name, Stretch stretch, double speed, double acceleration, Optional<Word> runs,
      Optional<Word> reverses) implements Device {
    @Override
    public List<Word> commands() {
      return Stream.of(runs, reverses).flatMap(Optional::stream).toList();
    }

    @Override public String kind() { return "tyres"; }

    @Override
    public boolean shows(Sensor.What what) {
      return false;
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /**
   * A chain lift.
   *
   * @param runs signal by which its drive runs
   * @param reference signal that says how fast; empty where {@code works} does
   * @param works signal by which it runs at its working speed, else at the idle one; empty where it always does
   * @param speedOfMotor radians per second of the motor for each metre per second of the chain; 0 where not stated
   */
  record ChainLift(Word name, Stretch stretch, Lift.Data data, Word runs, Optional<Word> reference,
      Optional<Word> works, double idle, double working, double speedOfMotor) implements Device {
    @Override
    public List<Word> commands() {
      return Stream.of(Optional.of(runs), reference, works).flatMap(Optional::stream).toList();
    }

    @Override public String kind() { return "lift"; }

    @Override
    public boolean shows(Sensor.What what) {
      return what == Sensor.What.TENSION || what == Sensor.What.SPEED || what == Sensor.What.CURRENT
          || what == Sensor.What.MOTOR && speedOfMotor > 0;
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /**
   * The switch of a siding, which bears the siding's name.
   *
   * @param track the siding's number
   * @param thrown signal by which it leads to the siding
   * @param time seconds that it takes
   */
  record SwitchDrive(Word name, int track, Word thrown, double time) implements Device {
    @Override
    public List<Word> commands() {
      return List.of(thrown);
    }

    @Override public String kind() { return "switch"; }

    @Override
    public boolean shows(Sensor.What what) {
      return what == Sensor.What.SIDING || what == Sensor.What.CIRCUIT;
    }

    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }
}
