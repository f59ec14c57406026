package dev.pawl.demo;

import dev.pawl.plant.ChainLift;
import dev.pawl.plant.FrictionBrake;
import dev.pawl.plant.TyreDrive;
import dev.pawl.plant.layout.RideLayout;
import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import java.util.Random;

/** The demo ride between its actuators and its sensors: commands of one scan in, readings of the next out. */
final class DemoRide {

  private static final double VOLTS = 400;
  private static final double POWER_FACTOR_TIMES_EFFICIENCY = 0.77;
  private static final double IDLE_AMPERES_PER_SPEED = 9;
  private static final int CURRENT_EVERY = 20;
  private static final int AIR_EVERY = 100;

  private final RideLayout layout;
  private final RideLayout.Built built;
  private final ChainLift lift;
  private final Map<Tag, Double> flags = new EnumMap<>(Tag.class);
  private final Map<Tag, FrictionBrake> brakeSwitches = new EnumMap<>(Tag.class);
  private final Map<Tag, TyreDrive> tyres = new EnumMap<>(Tag.class);
  private final Random noise;
  private double amperes;
  private double air = 108;
  private boolean compressorRuns;

  DemoRide(RideLayout layout, long seed) {
    this.layout = layout;
    built = layout.build();
    lift = built.lift().orElseThrow();
    noise = new Random(seed);
    layout.flags().forEach((name, place) -> flags.put(tag(name), place));
    built.brakes().forEach((name, brake) -> brakeSwitches.put(tag(name + "_closed"), brake));
    built.tyres().forEach((name, drive) -> tyres.put(tag(name + "_run"), drive));
  }

  private static Tag tag(String name) {
    return Tag.valueOf(name.toUpperCase(Locale.ROOT));
  }

  ChainLift lift() {
    return lift;
  }

  /**
   * Where the train that is on the given stretch of track has its nose, in metres within the lap; NaN where none is.
   */
  double noseBetween(double from, double to) {
    return built.plant().trains().stream().mapToDouble(train -> layout.track().wrap(train.nose()))
        .filter(nose -> nose >= from && nose < to).findFirst().orElse(Double.NaN);
  }

  double smallestGap() {
    return built.plant().smallestGap();
  }

  /** Obeys the image's outputs for one scan. */
  void move(ScanImage image) {
    built.brakes().get("station_brake").commandOpen(image.on(Tag.STATION_RELEASE));
    built.brakes().get("mid_brake").commandOpen(image.on(Tag.MID_BRAKE_OPEN));
    built.brakes().get("final_brake").commandOpen(image.on(Tag.FINAL_BRAKE_OPEN));
    built.brakes().get("ready_brake").commandOpen(image.on(Tag.READY_BRAKE_OPEN));
    tyres.forEach((tag, drive) -> drive.commandRun(image.on(tag)));
    lift.command(image.on(Tag.LIFT_RUN), image.value(Tag.LIFT_REFERENCE));
    built.plant().step(BlockController.SCAN);
  }

  /** Writes all readings into the image. */
  void sense(ScanImage image, int scan) {
    flags.forEach((tag, place) -> image.set(tag, built.plant().covered(place)));
    brakeSwitches.forEach((tag, brake) -> image.set(tag, brake.closed()));
    image.set(Tag.LIFT_SPEED, Math.rint(lift.speed() * 100) / 100);
    senseCurrent(image, scan);
    senseAir(image, scan);
  }

  /** Current of a three-phase drive, smoothed as its display is. */
  private void senseCurrent(ScanImage image, int scan) {
    double drawn = lift.power() / (Math.sqrt(3) * VOLTS * POWER_FACTOR_TIMES_EFFICIENCY) + IDLE_AMPERES_PER_SPEED
        * lift.speed();
    amperes += (Math.min(drawn, 400) - amperes) * 0.03;
    if (scan % CURRENT_EVERY == 0) {
      double reading = Math.max(0, amperes + (lift.speed() > 0 ? noise.nextGaussian() : 0));
      if (Math.abs(reading - image.value(Tag.LIFT_CURRENT)) >= 2 || lift.speed() == 0 && amperes < 0.05) {
        image.set(Tag.LIFT_CURRENT, lift.speed() == 0 && amperes < 0.05 ? 0 : Math.rint(reading * 10) / 10);
      }
    }
  }

  /** Air that brakes use up and a compressor makes good. */
  private void senseAir(ScanImage image, int scan) {
    boolean braking = image.on(Tag.STATION_RELEASE) || image.on(Tag.MID_BRAKE_OPEN) || image.on(Tag.FINAL_BRAKE_OPEN);
    air += (compressorRuns ? 0.006 : 0) - (braking ? 0.002 : 0.0003);
    compressorRuns = air < 96 || compressorRuns && air < 110;
    if (scan % AIR_EVERY == 0) {
      image.set(Tag.BRAKE_AIR, Math.rint(air * 10) / 10);
    }
  }
}
