package dev.pawl.plant;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/**
 * The plant against closed formulas of school mechanics with g = 9.81. The numbers are worked out by
 * hand from those formulas; the range of the rolling resistance is from memory.
 */
class PlantPhysicsTest {

  private static final double STEP = 0.01;
  private static final double SIN_30 = 0.5;
  private static final TrackProfile FLAT = new TrackProfile(1000, new double[] {0, 500}, new double[] {0, 0});
  private static final TrackProfile HILL = new TrackProfile(1000, new double[] {0, 100, 300, 500},
      new double[] {0, 0, 100, 0});

  /** v^2 / (2 mu g): from 10 m/s with friction 0.3, 16.99 m. */
  @Test
  void frictionBrakeStopsInTheDistanceOfTheFormula() {
    Train train = new Train(frictionless(6000), 50, 10);
    FrictionBrake brake = new FrictionBrake(new Stretch(0, 200), 0.3, 0);
    Plant plant = new Plant(FLAT, List.of(train), List.of(brake), List.of(), Optional.empty());
    run(plant, 5);
    assertThat(train.velocity()).isZero();
    assertThat(train.nose() - 50).isCloseTo(16.99, within(0.005));
    assertThat(train.nose() - 50).isCloseTo(10 * 10 / (2 * 0.3 * 9.81), within(1e-9));
  }

  /** v^2 / (2 a): from 3 m/s with 2 m/s^2, 2.25 m. */
  @Test
  void uniformDecelerationStopsInTheDistanceOfTheFormula() {
    Train train = new Train(frictionless(6000), 50, 3);
    FrictionBrake brake = new FrictionBrake(new Stretch(0, 200), 2 / 9.81, 0);
    run(new Plant(FLAT, List.of(train), List.of(brake), List.of(), Optional.empty()), 3);
    assertThat(train.nose() - 50).isCloseTo(2.25, within(1e-9));
  }

  /** m g v sin(theta): 6000 kg at 2 m/s on 30 degrees, 58.86 kW; rolling resistance of 0.01 adds 1.02 kW. */
  @Test
  void liftPowerIsThatOfTheFormula() {
    assertThat(liftPower(6000, 0, 2)).isCloseTo(58_860, within(1.0));
    assertThat(liftPower(6000, 0.01, 2) - liftPower(6000, 0, 2)).isCloseTo(1_020, within(5.0));
  }

  /**
   * 15 t at 6 mph (2.68224 m/s) on 30 degrees: 197.3 kW. A train of 15 t and 5 to 7 mph are common practice, no source.
   */
  @Test
  void liftPowerOfAFullTrain() {
    assertThat(liftPower(15_000, 0, 2.68224)).isCloseTo(197_300, within(100.0));
  }

  /** Chain lost at 2 m/s on 30 degrees, frictionless: at rest after 0.408 s and 0.408 m. */
  @Test
  void trainThatLosesTheChainRunsOnByTheFormula() {
    Train train = new Train(frictionless(6000), 200, 2);
    Plant plant = new Plant(HILL, List.of(train), List.of(), List.of(), Optional.empty());
    double highest = 200;
    int steps = 0;
    while (train.velocity() > 0) {
      plant.step(STEP);
      steps++;
      highest = Math.max(highest, train.nose());
    }
    assertThat(highest - 200).isCloseTo(0.408, within(0.001));
    assertThat(steps * STEP).isCloseTo(0.408, within(STEP));
  }

  /** From rest on 30 degrees, 150 mm of roll-back takes 0.247 s and reaches 1.21 m/s. */
  @Test
  void rollBackFollowsTheFormula() {
    Train train = new Train(frictionless(6000), 200, 0);
    Plant plant = new Plant(HILL, List.of(train), List.of(), List.of(), Optional.empty());
    double step = 0.001;
    int steps = 0;
    while (train.nose() > 200 - 0.15) {
      plant.step(step);
      steps++;
    }
    assertThat(steps * step).isCloseTo(0.247, within(0.002));
    assertThat(train.velocity()).isCloseTo(-1.21, within(0.01));
  }

  /** The same roll-back with an anti-rollback: never further than one pitch, and then at rest. */
  @Test
  void antiRollbackHoldsTheTrainWithinOnePitch() {
    Train train = new Train(frictionless(6000), 200.1, 0);
    ChainLift lift = new ChainLift(new Stretch(110, 290), new Stretch(110, 290), 0.15, 1);
    lift.letGo(true);
    Plant plant = new Plant(HILL, List.of(train), List.of(), List.of(), Optional.of(lift));
    run(plant, 5);
    assertThat(train.velocity()).isGreaterThanOrEqualTo(-GRAVITY_STEP);
    assertThat(train.nose()).isBetween(200.1 - 0.15, 200.1);
  }

  /** With the anti-rollback jammed the same train is lost: the check above can fail. */
  @Test
  void jammedAntiRollbackLosesTheTrain() {
    Train train = new Train(frictionless(6000), 200.1, 0);
    ChainLift lift = new ChainLift(new Stretch(110, 290), new Stretch(110, 290), 0.15, 1);
    lift.letGo(true);
    lift.jamRack(true);
    run(new Plant(HILL, List.of(train), List.of(), List.of(), Optional.of(lift)), 2);
    assertThat(train.nose()).isLessThan(200.1 - 5);
  }

  /** Without friction, energy is kept: over a crest and back to the same height, the same speed (1 per thousand). */
  @Test
  void energyIsKeptWithoutFriction() {
    TrackProfile valley = new TrackProfile(400, new double[] {0, 100, 150, 200, 300}, new double[] {20, 20, 0, 10, 20});
    Train train = new Train(frictionless(6000), 50, 4);
    Plant plant = new Plant(valley, List.of(train), List.of(), List.of(), Optional.empty());
    while (train.nose() < 340) {
      plant.step(STEP);
    }
    assertThat(train.velocity()).isCloseTo(4, within(0.004 * 4));
  }

  /** Rolling resistance alone: v^2 / (2 c g), at 0.01 (polymer wheels, from memory) from 3 m/s 45.87 m. */
  @Test
  void rollingResistanceStopsInTheDistanceOfTheFormula() {
    Train train = new Train(new TrainKind(12, 6000, 0.01, 0, 0), 50, 3);
    run(new Plant(FLAT, List.of(train), List.of(), List.of(), Optional.empty()), 60);
    assertThat(train.nose() - 50).isCloseTo(9 / (2 * 0.01 * 9.81), within(1e-6));
  }

  @Test
  void aClosedBrakeHoldsATrainOnASlopeBelowItsFriction() {
    Train train = new Train(frictionless(6000), 200, 0);
    FrictionBrake strong = new FrictionBrake(new Stretch(150, 250), SIN_30 + 0.01, 0);
    run(new Plant(HILL, List.of(train), List.of(strong), List.of(), Optional.empty()), 5);
    assertThat(train.nose()).isEqualTo(200);
    FrictionBrake weak = new FrictionBrake(new Stretch(150, 250), SIN_30 - 0.01, 0);
    run(new Plant(HILL, List.of(train), List.of(weak), List.of(), Optional.empty()), 5);
    assertThat(train.nose()).isLessThan(200);
  }

  @Test
  void drivenTyresBringATrainToTheirSpeed() {
    Train train = new Train(new TrainKind(12, 6000, 0.01, 3, 0), 50, 0);
    TyreDrive drive = new TyreDrive(new Stretch(0, 200), 2, 0.5);
    drive.commandRun(true);
    run(new Plant(FLAT, List.of(train), List.of(), List.of(drive), Optional.empty()), 8);
    assertThat(train.velocity()).isCloseTo(2, within(1e-6));
  }

  @Test
  void aTrainCoversAPlaceFromItsNoseToItsTailAlsoAcrossTheLap() {
    Train train = new Train(frictionless(6000), 1005, 0);
    Plant plant = new Plant(FLAT, List.of(train), List.of(), List.of(), Optional.empty());
    assertThat(plant.covered(4)).isTrue();
    assertThat(plant.covered(994)).isTrue();
    assertThat(plant.covered(6)).isFalse();
    assertThat(plant.covered(992)).isFalse();
  }

  private static final double GRAVITY_STEP = 9.81 * SIN_30 * STEP;

  private static double liftPower(double mass, double rolling, double speed) {
    Train train = new Train(new TrainKind(12, mass, rolling, 0, 0), 200, speed);
    ChainLift lift = new ChainLift(new Stretch(110, 290), new Stretch(110, 290), 0.15, 1);
    lift.command(true, speed);
    Plant plant = new Plant(HILL, List.of(train), List.of(), List.of(), Optional.of(lift));
    run(plant, 10);
    assertThat(train.velocity()).isEqualTo(speed);
    return lift.power();
  }

  private static TrainKind frictionless(double mass) {
    return new TrainKind(12, mass, 0, 0, 0);
  }

  private static void run(Plant plant, double seconds) {
    for (int i = 0; i < Math.round(seconds / STEP); i++) {
      plant.step(STEP);
    }
  }
}
