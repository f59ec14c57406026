package dev.pawl.plant.motion;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.assertj.core.data.Offset;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;

/**
 * The plant against closed formulas of school mechanics with g = 9.81, to 0.1 %. The numbers are worked out by hand
 * from
 * those formulas; the range of the rolling resistance is from memory.
 */
class MotionTest {

  private static final Percentage CLOSE = Percentage.withPercentage(0.1);
  private static final Offset<Double> EXACT = within(1e-7);
  private static final Course FLAT = course(1000, new double[] {0, 500}, new double[] {0, 0});
  /** 30 degrees up from 100 m to 300 m. */
  private static final Course HILL = course(1000, new double[] {0, 100, 300, 500}, new double[] {0, 0, 100, 0});

  private static Course course(double length, double[] places, double[] heights) {
    return new Course(List.of(new Course.Track("main", length, 0, places, heights)));
  }

  private static Train.Kind frictionless(double mass) {
    return new Train.Kind(12, mass, 0, 0, 0);
  }

  private static Plant plant(Course course, Train.Kind kind, double nose, double speed, Equipment... equipment) {
    return new Plant(course, List.of(equipment), List.of(new Plant.Start("one", kind, 0, nose, speed)));
  }

  private static Lift lift(double pitch, boolean locked, double slip) {
    return new Lift(new Stretch(0, 110, 290), new Lift.Data(1, locked, slip, Double.POSITIVE_INFINITY, 0,
        new Stretch(0, 110, pitch > 0 ? 290 : 110), pitch));
  }

  private static double nose(Plant plant) {
    return plant.trains().get(0).nose(plant.now());
  }

  private static double speed(Plant plant) {
    return plant.trains().get(0).speed(plant.now());
  }

  /** When a train first comes to rest, by halving. */
  private static double restsAt(Course course, double nose, double speed, double latest) {
    double low = 0;
    double high = latest;
    for (int i = 0; i < 60; i++) {
      double middle = (low + high) / 2;
      Plant plant = plant(course, frictionless(6000), nose, speed);
      plant.advance(middle);
      if (speed(plant) > 0) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return high;
  }

  /** v^2 / (2 mu g): from 10 m/s with friction 0.3, 16.99 m. */
  @Test
  void frictionBrakeStopsInTheDistanceOfTheFormula() {
    Plant plant = plant(FLAT, frictionless(6000), 50, 10, new Brake(new Stretch(0, 0, 200), 0.3, 0, 0, true));
    plant.advance(5);
    assertThat(speed(plant)).isZero();
    assertThat(nose(plant) - 50).isCloseTo(16.99, CLOSE).isCloseTo(10 * 10 / (2 * 0.3 * 9.81), EXACT);
  }

  /** v^2 / (2 a): from 3 m/s with 2 m/s^2, 2.25 m. */
  @Test
  void uniformDecelerationStopsInTheDistanceOfTheFormula() {
    Plant plant = plant(FLAT, frictionless(6000), 50, 3, new Brake(new Stretch(0, 0, 200), 2 / 9.81, 0, 0, true));
    plant.advance(3);
    assertThat(nose(plant) - 50).isCloseTo(2.25, EXACT);
  }

  /** A train that runs into a brake meets it bit by bit: half its length at half the force is worth a quarter less. */
  @Test
  void aBrakeTakesHoldAsTheTrainComesIn() {
    Plant plant = plant(FLAT, frictionless(6000), 100, 12, new Brake(new Stretch(0, 100, 200), 0.3, 0, 0, true));
    plant.advance(20);
    // v^2/2 = mu g (L/2 + (d - L))
    assertThat(nose(plant) - 100).isCloseTo(72 / (0.3 * 9.81) + 6, EXACT);
  }

  /** A trim brake takes a train down to its speed and no further. */
  @Test
  void aTrimBrakeSlowsToItsSpeed() {
    Plant plant = plant(FLAT, frictionless(6000), 100, 12, new Brake(new Stretch(0, 100, 180), 0.3, 9, 0, true));
    plant.advance(20);
    assertThat(speed(plant)).isEqualTo(9);
  }

  /** Far below the peak's speed a magnetic brake is viscous: the speed falls by 2 p / vp for each metre. */
  @Test
  void aMagneticBrakeFollowsItsLaw() {
    Plant plant = plant(FLAT, frictionless(6000), 50, 4, new Magnets(new Stretch(0, 0, 500), 3, 400, 0, true));
    plant.advance(30);
    assertThat(4 - speed(plant)).isCloseTo((nose(plant) - 50) * 2 * 3 / 400, CLOSE);
    assertThat(speed(plant)).isCloseTo(4 * Math.exp(-2.0 * 3 / 400 * 30), CLOSE);
  }

  /**
   * Through the peak: its law a = 2 p u / (1 + u^2), u = v / vp (eddy current brakes, from memory), gives, integrated
   * over the speed, the distance vp/(2p) ((v0-v) + (v0^3-v^3)/(3 vp^2)) and the time vp/(2p) (ln(v0/v) +
   * (v0^2-v^2)/(2 vp^2)).
   */
  @Test
  void aMagneticBrakeTakesTheDistanceAndTimeOfItsLaw() {
    Plant plant = plant(FLAT, frictionless(6000), 50, 12, new Magnets(new Stretch(0, 0, 500), 4, 8, 0, true));
    plant.advance(3);
    double v = speed(plant);
    assertThat(v).isBetween(0.5, 4.0);
    assertThat(nose(plant) - 50).isCloseTo(12 - v + (12 * 12 * 12 - v * v * v) / (3 * 64), CLOSE);
    assertThat(Math.log(12 / v) + (12 * 12 - v * v) / (2 * 64)).isCloseTo(3, CLOSE);
  }

  /** m g v sin(theta): 6000 kg at 2 m/s on 30 degrees, 58.86 kW; rolling resistance of 0.01 adds 1.02 kW. */
  @Test
  void liftPowerIsThatOfTheFormula() {
    assertThat(liftPower(6000, 0, 2)).isCloseTo(58_860, CLOSE);
    assertThat(liftPower(6000, 0.01, 2) - liftPower(6000, 0, 2)).isCloseTo(1_019.5, CLOSE);
  }

  /** 15 t at 6 mph (2.68224 m/s) on 30 degrees: 197.3 kW. 15 t and 5 to 7 mph are common practice, no source. */
  @Test
  void liftPowerOfAFullTrain() {
    assertThat(liftPower(15_000, 0, 2.68224)).isCloseTo(197_300, CLOSE);
  }

  private static double liftPower(double mass, double rolling, double speed) {
    Lift lift = lift(0, true, 0);
    Plant plant = plant(HILL, new Train.Kind(12, mass, rolling, 0, 0), 200, speed, lift);
    plant.run(lift, true, speed);
    plant.advance(10);
    assertThat(speed(plant)).isEqualTo(speed);
    return plant.load(lift) * speed;
  }

  /** From rest at 1 m/s^2 to 2 m/s, 2 m in 2 s; the rest of 60 m at 2 m/s: 31 s in all. */
  @Test
  void liftTransitTakesTheTimeOfTheFormula() {
    Lift lift = lift(0.1, true, 0);
    Plant plant = plant(HILL, frictionless(6000), 200, 0, lift);
    plant.run(lift, true, 2);
    plant.advance(31);
    assertThat(nose(plant)).isCloseTo(260, EXACT);
  }

  /** A chain that slips by 4 % takes the train up at 96 % of its drive's speed. */
  @Test
  void aSlippingChainIsSlowerThanItsDrive() {
    Lift lift = lift(0.1, true, 0.04);
    Plant plant = plant(HILL, frictionless(6000), 200, 0, lift);
    plant.run(lift, true, 2);
    plant.advance(5);
    assertThat(speed(plant)).isCloseTo(1.92, EXACT);
    assertThat(lift.motorSpeed(5)).isEqualTo(2);
    assertThat(plant.chainSpeed(lift)).isCloseTo(1.92, EXACT);
  }

  /** Chain lost at 2 m/s on 30 degrees, frictionless: at rest after 0.408 s and 0.408 m. */
  @Test
  void trainThatLosesTheChainRunsOnByTheFormula() {
    double rest = restsAt(HILL, 200, 2, 1);
    Plant plant = plant(HILL, frictionless(6000), 200, 2);
    plant.advance(rest);
    assertThat(rest).isCloseTo(0.4077, CLOSE).isCloseTo(2 / 4.905, EXACT);
    assertThat(nose(plant) - 200).isCloseTo(0.4077, CLOSE).isCloseTo(4 / 9.81, EXACT);
  }

  /**
   * From rest on 30 degrees, 150 mm of roll-back (the limit of Quebec S-3, r. 1, s. 25) takes 0.247 s and reaches
   * 1.21 m/s: sqrt(2 s / a), sqrt(2 s a).
   */
  @Test
  void rollBackFollowsTheFormula() {
    Plant plant = plant(HILL, frictionless(6000), 200, 0);
    plant.advance(Math.sqrt(2 * 0.15 / 4.905));
    assertThat(plant.now()).isCloseTo(0.2473, CLOSE);
    assertThat(nose(plant)).isCloseTo(200 - 0.15, EXACT);
    assertThat(speed(plant)).isCloseTo(-1.213, CLOSE);
  }

  /** The same roll-back with an anti-rollback: just to the tooth below, and then at rest. */
  @Test
  void theCatchHoldsTheTrainAtTheToothBelow() {
    Lift lift = lift(0.15, false, 0);
    Plant plant = plant(HILL, frictionless(6000), 200.1, 0, lift);
    plant.advance(5);
    assertThat(speed(plant)).isZero();
    assertThat(nose(plant)).isCloseTo(110 + 600 * 0.15, EXACT);
    plant.change(lift, () -> lift.jamCatch(true));
    plant.advance(7);
    assertThat(nose(plant)).isLessThan(195);
  }

  /** A locked chain holds the train while its drive is off; with the lock failed the train comes down. */
  @Test
  void theLockHoldsTheChain() {
    Lift lift = lift(0, true, 0);
    Plant plant = plant(HILL, frictionless(6000), 200, 0, lift);
    plant.advance(5);
    assertThat(nose(plant)).isEqualTo(200);
    plant.change(lift, () -> lift.failLock(true));
    plant.advance(6);
    assertThat(nose(plant)).isCloseTo(200 - 4.905 / 2, EXACT);
  }

  /** Without friction energy is kept: all along three laps, to one part in a thousand million. */
  @Test
  void energyIsKeptWithoutFriction() {
    Course valley = course(400, new double[] {0, 100, 150, 200, 300}, new double[] {20, 20, 0, 10, 20});
    Train.Kind kind = frictionless(6000);
    Plant plant = plant(valley, kind, 50, 4);
    double most = 0;
    for (double time = 0; nose(plant) < 1250; time += 0.137) {
      plant.advance(time);
      double kinetic = speed(plant) * speed(plant) / 2;
      most = Math.max(most, Math.abs(kinetic + 9.81 * meanHeight(valley, nose(plant), kind.length())
          - (8 + 9.81 * 20)));
    }
    assertThat(most).isLessThan(1e-9 * 9.81 * 20);
  }

  /** Of the mass between tail and nose, by the rule of trapezia between the kinks. */
  private static double meanHeight(Course course, double nose, double length) {
    List<Double> places = new ArrayList<>(List.of(nose - length, nose));
    for (double kink : new double[] {0, 100, 150, 200, 300}) {
      for (int lap = 0; lap < 5; lap++) {
        if (kink + lap * 400 > nose - length && kink + lap * 400 < nose) {
          places.add(kink + lap * 400);
        }
      }
    }
    places.sort(null);
    double sum = 0;
    for (int i = 1; i < places.size(); i++) {
      sum += (course.height(0, places.get(i) % 400) + course.height(0, places.get(i - 1) % 400)) / 2
          * (places.get(i) - places.get(i - 1));
    }
    return sum / length;
  }

  /** Rolling resistance alone: v^2 / (2 c g), at 0.01 (polymer wheels, from memory) from 3 m/s 45.87 m. */
  @Test
  void rollingResistanceStopsInTheDistanceOfTheFormula() {
    Plant plant = plant(FLAT, new Train.Kind(12, 6000, 0.01, 0, 0), 50, 3);
    plant.advance(60);
    assertThat(speed(plant)).isZero();
    assertThat(nose(plant) - 50).isCloseTo(9 / (2 * 0.01 * 9.81), EXACT);
  }

  /** Air alone: 1/v grows by k for each second, k being the air's density times area over twice the mass. */
  @Test
  void airSlowsByTheFormula() {
    Plant plant = plant(FLAT, new Train.Kind(12, 6000, 0, 5, 0), 50, 20);
    plant.advance(10);
    double k = 1.2 * 5 / (2 * 6000);
    assertThat(speed(plant)).isCloseTo(20 / (1 + 20 * k * 10), EXACT);
    assertThat(nose(plant) - 50).isCloseTo(Math.log(1 + 20 * k * 10) / k, EXACT);
  }

  @Test
  void aClosedBrakeHoldsATrainOnASlopeBelowItsFriction() {
    Plant strong = plant(HILL, frictionless(6000), 200, 0, new Brake(new Stretch(0, 150, 250), 0.51, 0, 0, true));
    strong.advance(5);
    assertThat(nose(strong)).isEqualTo(200);
    Plant weak = plant(HILL, frictionless(6000), 200, 0, new Brake(new Stretch(0, 150, 250), 0.49, 0, 0, true));
    weak.advance(5);
    assertThat(nose(weak)).isLessThan(200);
  }

  /** Opening in 1 s, a brake of 1.0 on a slope of 0.5 lets go after 0.5 s. */
  @Test
  void aBrakeThatOpensLetsGoWhenItIsWeakerThanThePull() {
    Brake brake = new Brake(new Stretch(0, 150, 250), 1, 0, 1, true);
    Plant plant = plant(HILL, frictionless(6000), 200, 0, brake);
    plant.close(brake, false);
    plant.advance(0.4999);
    assertThat(speed(plant)).isZero();
    plant.advance(1);
    // dv/dt = g (0.5 - (1 - t))
    assertThat(speed(plant)).isCloseTo(-9.81 * 0.125, EXACT);
    assertThat(brake.isOpen(plant.now())).isTrue();
  }

  @Test
  void drivenTyresBringATrainToTheirSpeedAndBack() {
    Tyres tyres = new Tyres(new Stretch(0, 0, 200), 2, 0.5);
    Plant plant = plant(FLAT, new Train.Kind(12, 6000, 0.01, 3, 0), 50, 0, tyres);
    plant.drive(tyres, 1);
    plant.advance(8);
    assertThat(speed(plant)).isEqualTo(2);
    plant.drive(tyres, -1);
    plant.advance(20);
    assertThat(speed(plant)).isEqualTo(-2);
  }

  /** Two trains of the same mass: 3 m/s into one at rest gives 1.5 m/s, and they go on together. */
  @Test
  void trainsThatTouchGoOnTogether() {
    List<String> told = new ArrayList<>();
    Plant plant = new Plant(FLAT, List.of(), List.of(new Plant.Start("one", frictionless(6000), 0, 50, 3),
        new Plant.Start("two", frictionless(6000), 0, 80, 0)));
    plant.listen(new Told(told));
    plant.advance(10);
    assertThat(told).containsExactly("one touches two at 6.000 s by 3.000 m/s");
    assertThat(plant.trains().get(1).nose(10)).isCloseTo(80 + 4 * 1.5, EXACT);
    assertThat(plant.smallestGap()).isCloseTo(0, within(1e-6));
  }

  /** A train rolls back into another, and is pulled away again by a drive that the other is not on. */
  @Test
  void trainsPartWhereTheOneAheadIsDrivenAway() {
    List<String> told = new ArrayList<>();
    Tyres tyres = new Tyres(new Stretch(0, 100, 400), 4, 1);
    Train.Kind slow = new Train.Kind(12, 6000, 0.02, 0, 0);
    Plant plant = new Plant(FLAT, List.of(tyres), List.of(new Plant.Start("one", slow, 0, 90, 0), new Plant.Start("two", frictionless(6000), 0, 112, -1)));
    plant.listen(new Told(told));
    plant.advance(12);
    assertThat(told).hasSize(1);
    assertThat(told.get(0)).startsWith("one touches two");
    plant.drive(tyres, 1);
    plant.advance(60);
    assertThat(plant.smallestGap()).isGreaterThan(50);
  }

  /** The siding leaves the circuit at 100 m and is 60 m long. */
  @Test
  void aSwitchLeadsATrainOntoItsSidingAndBack() {
    Course course = new Course(List.of(new Course.Track("main", 1000, 0, new double[] {0, 500}, new double[] {0, 0}),
        new Course.Track("storage", 60, 100, new double[] {0, 60}, new double[] {0, 0})));
    Tyres tyres = new Tyres(new Stretch(1, 0, 60), 1, 0.5);
    Tyres before = new Tyres(new Stretch(0, 60, 100), 1, 0.5);
    Plant plant = new Plant(course, List.of(tyres, before), List.of(new Plant.Start("one", frictionless(6000), 0, 90,
        1)));
    plant.turn(1, true, 2);
    plant.drive(tyres, 1);
    plant.advance(40);
    assertThat(plant.trains().get(0).track()).isEqualTo(1);
    assertThat(nose(plant)).isCloseTo(130, EXACT);
    plant.drive(tyres, -1);
    plant.drive(before, -1);
    plant.advance(100);
    assertThat(plant.trains().get(0).track()).isZero();
    assertThat(nose(plant)).isLessThan(100);
  }

  @Test
  void whatTheModelCannotRepresentIsSaidWithItsPlace() {
    Course cliff = course(3000, new double[] {0, 100, 600}, new double[] {300, 300, 0});
    Plant plant = plant(cliff, frictionless(6000), 90, 5);
    assertThatThrownBy(() -> plant.advance(200)).isInstanceOf(BeyondModel.class)
        .hasMessageMatching("one, at \\d+\\.\\d\\d m, runs at \\d\\d m/s, faster than this model is for \\(60 m/s\\)");
    Course course = new Course(List.of(new Course.Track("main", 1000, 0, new double[] {0, 500}, new double[] {0, 0}),
        new Course.Track("storage", 60, 100, new double[] {0, 60}, new double[] {0, 0})));
    Plant under = new Plant(course, List.of(), List.of(new Plant.Start("one", frictionless(6000), 0, 105, 0)));
    assertThatThrownBy(() -> under.turn(1, true, 1)).isInstanceOf(BeyondModel.class)
        .hasMessage("one, at 105.00 m, has a switch thrown under it");
  }

  /** What is told of contacts. */
  private record Told(List<String> lines) implements MotionListener {
    @Override
    public void moved(Train train, double from, double to) {}

    @Override
    public void touched(Train behind, Train ahead, double time, double speed) {
      lines.add(String.format(Locale.ROOT, "%s touches %s at %.3f s by %.3f m/s", behind.name(), ahead.name(),
          time, speed));
    }

    @Override
    public void strayed(Train train, double time, String what) {
      lines.add(train.name() + " " + what);
    }
  }
}
