package dev.pawl.demo;

/**
 * The controller that ran in the demo's traces: one call is one scan of 10 ms, reading the inputs of an image and
 * writing its outputs.
 *
 * <p>The ride's program is {@code kestrel-ridge.st}. This says the same a second time on purpose: it was written apart
 * from that, and {@code LogicReplayTest} in {@code fixtures} holds the two against one another, output by output over
 * two hours. So it takes nothing from the program, not even how it finds edges and times. It is no model for a real
 * ride.
 */
final class BlockController {

  static final double SCAN = 0.01;
  static final double WORKING_SPEED = 2.7;
  static final double IDLE_SPEED = 0.3;
  private static final int IDLE_SCANS = 2000;
  private static final int TWO_HAND_SCANS = 50;
  private static final int DISPLAY_SCANS = 10;
  /** A train comes into the final brake fast; it is at rest this long after its tail has passed the flag there. */
  private static final int SETTLING_SCANS = 600;
  private static final double LEAST_AIR = 85;

  private final Defects defects;
  private final Blocks blocks = new Blocks();
  private final ScanEdges edges = new ScanEdges();
  private boolean stopped = true;
  private boolean faulted;
  private boolean liftOn;
  private boolean liftIdles;
  private boolean tailPastBackstop;
  private boolean releasing;
  private boolean readyReleasing;
  private boolean midReleasing;
  private boolean finalReleasing;
  private int quietScans;
  private int stopScans;
  private int leftScans;
  private int rightScans;
  private int modeScans;
  private int settledScans = SETTLING_SCANS;

  BlockController(Defects defects) {
    this.defects = defects;
  }

  void scan(ScanImage image) {
    edges.take(image);
    blocks.follow(edges);
    supervise(image);
    boolean running = !stopped && image.mode() == OperatingMode.AUTOMATIC;
    runLift(image, running);
    dispatch(image, running);
    release(image, running);
    show(image);
  }

  private void supervise(ScanImage image) {
    if (!image.on(Tag.ESTOP_CHAIN)) {
      stopped = true;
    } else if (edges.rises(Tag.RESET_BUTTON)) {
      stopped = false;
      faulted = false;
    }
    if (edges.falls(Tag.CREST_FLAG)) {
      tailPastBackstop = false;
    }
    boolean rolledBack = edges.rises(Tag.BACKSTOP_LOW_FLAG) && tailPastBackstop;
    if (edges.falls(Tag.BACKSTOP_HIGH_FLAG)) {
      tailPastBackstop = true;
    }
    faulted |= rolledBack || !image.on(Tag.CHAIN_HEALTHY);
    stopScans = stopped ? stopScans + 1 : 0;
  }

  private void runLift(ScanImage image, boolean running) {
    boolean mayRun = (running || stopped && liftOn && stopScans <= defects.stopDelay()) && !faulted;
    liftOn = mayRun && (liftOn || edges.rises(Tag.LIFT_START_BUTTON));
    quietScans = blocks.approach || blocks.lift ? 0 : quietScans + 1;
    if (quietScans > IDLE_SCANS && !defects.idleTimerLost()) {
      liftIdles = true;
    }
    if (edges.rises(Tag.NEAR_FLAG)) {
      liftIdles = false;
    }
    boolean hold = image.on(Tag.HOLD_FLAG) && (blocks.canyon || blocks.mid);
    image.set(Tag.LIFT_RUN, liftOn);
    image.set(Tag.LIFT_REFERENCE, !liftOn || hold ? 0 : liftIdles ? IDLE_SPEED : WORKING_SPEED);
  }

  private void dispatch(ScanImage image, boolean running) {
    leftScans = image.on(Tag.DISPATCH_LEFT) ? leftScans + 1 : 0;
    rightScans = image.on(Tag.DISPATCH_RIGHT) ? rightScans + 1 : 0;
    boolean bothHands = Math.min(leftScans, rightScans) == 1 && Math.max(leftScans, rightScans) <= TWO_HAND_SCANS;
    boolean ahead = blocks.approach || blocks.lift && !defects.liftInterlockLost();
    boolean safe = image.on(Tag.GATES_CLOSED) && image.on(Tag.RESTRAINTS_LOCKED)
        && image.value(Tag.BRAKE_AIR) >= LEAST_AIR;
    if (running && liftOn && bothHands && safe && !ahead && parked(image)) {
      releasing = true;
    }
    if (!running || edges.falls(Tag.STATION_OUT_FLAG)) {
      releasing = false;
    }
    image.set(Tag.STATION_RELEASE, releasing);
    image.set(Tag.APPROACH_TYRES_RUN, running && (releasing || blocks.approach));
  }

  private void release(ScanImage image, boolean running) {
    boolean midCalls = (blocks.canyon || blocks.mid) && !blocks.helix && !blocks.last;
    midReleasing = running && !edges.falls(Tag.MID_OUT_FLAG) && (midReleasing || midCalls);
    settledScans = edges.falls(Tag.FINAL_IN_FLAG) ? 0 : settledScans + 1;
    boolean settled = settledScans >= SETTLING_SCANS && !image.on(Tag.FINAL_IN_FLAG);
    finalReleasing = running && blocks.last && (finalReleasing || settled && !blocks.ready);
    readyReleasing = running && blocks.ready && (readyReleasing || !blocks.station && image.on(Tag.READY_STOP_FLAG));
    boolean arriving = blocks.station && !image.on(Tag.STATION_STOP_FLAG) && !releasing;
    image.set(Tag.MID_BRAKE_OPEN, midReleasing);
    image.set(Tag.MID_TYRES_RUN, midReleasing && blocks.mid);
    image.set(Tag.FINAL_BRAKE_OPEN, finalReleasing);
    image.set(Tag.FINAL_TYRES_RUN, finalReleasing);
    image.set(Tag.READY_BRAKE_OPEN, readyReleasing);
    image.set(Tag.READY_TYRES_RUN, running && (readyReleasing || blocks.ready && !image.on(Tag.READY_STOP_FLAG)));
    image.set(Tag.STATION_TYRES_RUN, running && (releasing || readyReleasing || arriving));
  }

  private void show(ScanImage image) {
    modeScans = image.value(Tag.MODE_SHOWN) == image.value(Tag.MODE) ? 0 : modeScans + 1;
    if (modeScans > DISPLAY_SCANS) {
      image.set(Tag.MODE_SHOWN, image.value(Tag.MODE));
    }
    image.set(Tag.STOP_LAMP, stopped);
    image.set(Tag.FAULT_LAMP, faulted);
    image.set(Tag.TRAIN_PARKED_LAMP, parked(image));
    image.set(Tag.GATES_UNLOCK, parked(image) && !releasing);
  }

  private boolean parked(ScanImage image) {
    return blocks.station && image.on(Tag.STATION_STOP_FLAG) && image.on(Tag.STATION_BRAKE_CLOSED);
  }
}
