package dev.pawl.demo;

/** Brings a scenario's trouble about when its train, the third, is where it shall happen. */
final class TroubleMaker {

  private static final int AFFECTED_TRAIN = 3;
  private static final boolean[] BOUNCE = bounce();
  private static final double LET_GO_FROM = 82.25;
  private static final double LET_GO_TO = 84;
  private static final double CAUGHT_BELOW = 81.95;

  private final Scenario.Trouble trouble;
  private final DemoRide ride;
  private boolean flagBefore;
  private int departures;
  private int bounceScan = BOUNCE.length;
  private int liftTrains;
  private boolean baseBefore;
  private boolean letGo;
  private boolean tailOver;

  TroubleMaker(Scenario.Trouble trouble, DemoRide ride) {
    this.trouble = trouble;
    this.ride = ride;
  }

  /** Alters readings of a scan, and the ride itself for the next. */
  void meddle(ScanImage image, int scan) {
    if (trouble == Scenario.Trouble.CHATTER) {
      chatter(image);
    } else if (trouble == Scenario.Trouble.ROLL_BACK) {
      rollBack(image);
    } else if (trouble == Scenario.Trouble.TAIL_OVER_FLAG && scan < Scenario.TAIL_FREE_SCAN) {
      tailOver |= image.on(Tag.FINAL_IN_FLAG);
      image.set(Tag.FINAL_IN_FLAG, tailOver);
    }
  }

  private void chatter(ScanImage image) {
    boolean flag = image.on(Tag.MID_IN_FLAG);
    if (flagBefore && !flag && ++departures == AFFECTED_TRAIN) {
      bounceScan = 0;
    }
    flagBefore = flag;
    if (bounceScan < BOUNCE.length) {
      image.set(Tag.MID_IN_FLAG, BOUNCE[bounceScan++]);
    }
  }

  private void rollBack(ScanImage image) {
    boolean base = image.on(Tag.BASE_FLAG);
    liftTrains += base && !baseBefore ? 1 : 0;
    baseBefore = base;
    if (liftTrains == AFFECTED_TRAIN && !letGo && ride.noseBetween(LET_GO_FROM, LET_GO_TO) > 0) {
      letGo = true;
      ride.lift().letGo(true);
      ride.lift().jamRack(true);
    }
    if (letGo && ride.noseBetween(LET_GO_FROM - 10, CAUGHT_BELOW) > 0) {
      ride.lift().jamRack(false);
    }
  }

  /** Off for 30 ms, on for 20 ms, off for 40 ms, on for 30 ms: two edges too many each way. */
  private static boolean[] bounce() {
    boolean[] pattern = new boolean[12];
    for (int scan : new int[] {3, 4, 9, 10, 11}) {
      pattern[scan] = true;
    }
    return pattern;
  }
}
