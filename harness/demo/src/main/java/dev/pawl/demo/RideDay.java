package dev.pawl.demo;

import dev.pawl.plant.layout.RideLayout;

/**
 * A scenario with everything but its controller: the ride, the person at the desk, and what goes wrong. Moved on scan
 * by scan.
 */
final class RideDay {

  private static final long SEED = 20260516;

  private final DemoRide ride;
  private final ScanImage image = new ScanImage();
  private final Operator operator;
  private final TroubleMaker trouble;

  RideDay(Scenario scenario, RideLayout layout) {
    ride = new DemoRide(layout, SEED);
    operator = new Operator(scenario);
    trouble = new TroubleMaker(scenario.trouble(), ride);
    image.set(Tag.ESTOP_CHAIN, true);
    image.set(Tag.CHAIN_HEALTHY, true);
  }

  /** Obeys the outputs in the image for one scan, and puts the inputs of the next into it. */
  void move(int scan) {
    if (scan > 0) {
      ride.move(image);
    }
    ride.sense(image, scan);
    trouble.meddle(image, scan);
    operator.act(image, scan);
  }

  ScanImage image() {
    return image;
  }

  double smallestGap() {
    return ride.smallestGap();
  }
}
