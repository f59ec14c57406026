package dev.pawl.bench.logic;

/**
 * The yardstick for the speed of Structured Text: the equations of {@code kestrel-ridge.st} as a Java programmer would
 * write them, with fields, small methods and no harness. Statement for statement the same, timers and edges included,
 * since times of two programs can be compared only where both give the same outputs scan by scan; {@link LogicTable}
 * stops where they do not. Nothing but that benchmark uses it.
 */
final class HandWrittenRide {

  private static final long MILLISECOND = 1_000_000;

  // inputs
  boolean stationIn, stationStop, stationOut, near, base, backstopLow, backstopHigh, hold, crest, midIn, midOut,
      finalIn, finalOut, readyStop, estopChain, resetButton, liftStart, dispatchLeft, dispatchRight, gatesClosed,
      restraintsLocked, chainHealthy, stationClosed, midClosed, finalClosed, readyClosed;
  int mode;
  float brakeAir, liftSpeed;

  // outputs
  boolean liftRun, stationRelease, midOpen, finalOpen, readyOpen, stationTyres, approachTyres, midTyres, finalTyres,
      readyTyres, gatesUnlock, stopLamp, faultLamp, parkedLamp;
  float liftReference;
  int modeShown;

  private final Section station = new Section(true);
  private final Section approach = new Section(false);
  private final Section lift = new Section(false);
  private final Section canyon = new Section(false);
  private final Section mid = new Section(false);
  private final Section helix = new Section(false);
  private final Section last = new Section(true);
  private final Section ready = new Section(true);
  private final Rising reset = new Rising();
  private final Rising lowFlag = new Rising();
  private final Falling highFlag = new Falling();
  private final Falling crestLeft = new Falling();
  private final OnDelay noDrive = new OnDelay();
  private final OnDelay[] watches = {new OnDelay(), new OnDelay(), new OnDelay(), new OnDelay()};
  private final Rising started = new Rising();
  private final Rising comes = new Rising();
  private final OnDelay quiet = new OnDelay();
  private final Rising firstHand = new Rising();
  private final Rising bothHands = new Rising();
  private final Pulse window = new Pulse();
  private final Falling stationLeft = new Falling();
  private final Falling midLeft = new Falling();
  private final Falling finalEntered = new Falling();
  private final OffDelay finalSettled = new OffDelay();
  private final OnDelay display = new OnDelay();
  private boolean stopped = true, rollBack, chain, tracking, driveFault, switchFault, pastBackstop, idling, used, armed;

  void scan(long now) {
    station.scan(stationIn, stationOut);
    approach.scan(stationOut, base);
    lift.scan(base, crest);
    canyon.scan(crest, midIn);
    mid.scan(midIn, midOut);
    helix.scan(midOut, finalIn);
    last.scan(finalIn, finalOut);
    ready.scan(finalOut, stationIn);
    supervise(now);
    boolean running = !stopped && mode == 2;
    boolean fault = rollBack || chain || tracking || driveFault || switchFault;
    drive(now, running && !fault);
    boolean brakes = running && !tracking && !switchFault;
    boolean parked = station.occupied && stationStop && stationClosed;
    dispatch(now, running, brakes, parked);
    release(now, running, brakes);
    if (display.scan(modeShown != mode, 100 * MILLISECOND, now)) {
      modeShown = mode;
    }
    stopLamp = stopped;
    faultLamp = fault;
    parkedLamp = parked;
    gatesUnlock = parked && !stationRelease;
    armed = true;
  }

  private void supervise(long now) {
    boolean resets = reset.scan(resetButton);
    if (!estopChain) {
      stopped = true;
    } else if (resets) {
      stopped = rollBack = chain = tracking = driveFault = switchFault = false;
    }
    boolean low = lowFlag.scan(backstopLow);
    boolean high = highFlag.scan(backstopHigh);
    if (crestLeft.scan(crest)) {
      pastBackstop = false;
    }
    rollBack |= low && pastBackstop;
    pastBackstop |= high && armed;
    chain |= !chainHealthy;
    tracking |= station.implausible || approach.implausible || lift.implausible || canyon.implausible || mid.implausible
        || helix.implausible || last.implausible || ready.implausible;
    driveFault |= noDrive.scan(liftRun && liftReference > 0.05f && liftSpeed <= 0.05f, 3500 * MILLISECOND, now);
    switchFault |= watches[0].scan(stationRelease && stationClosed, 900 * MILLISECOND, now)
        | watches[1].scan(midOpen && midClosed, 900 * MILLISECOND, now)
        | watches[2].scan(finalOpen && finalClosed, 900 * MILLISECOND, now)
        | watches[3].scan(readyOpen && readyClosed, 900 * MILLISECOND, now);
  }

  private void drive(long now, boolean mayRun) {
    boolean starts = started.scan(liftStart);
    boolean nears = comes.scan(near);
    boolean still = quiet.scan(!(approach.occupied || lift.occupied), 20_000 * MILLISECOND, now);
    liftRun = mayRun && (liftRun || starts);
    idling = !nears && (idling || still);
    boolean mustHold = hold && (canyon.occupied || mid.occupied);
    liftReference = !liftRun || mustHold ? 0f : idling ? 0.3f : 2.7f;
  }

  private void dispatch(long now, boolean running, boolean brakes, boolean parked) {
    boolean any = dispatchLeft || dispatchRight;
    boolean first = firstHand.scan(any);
    boolean inTime = window.scan(any, 500 * MILLISECOND, now);
    boolean both = bothHands.scan(dispatchLeft && dispatchRight);
    boolean go = both && (inTime || first) && !used;
    used = (used || both) && any;
    boolean left = stationLeft.scan(stationOut) && armed;
    boolean wanted = liftRun && go && gatesClosed && restraintsLocked && brakeAir >= 85f && !approach.occupied
        && !lift.occupied && parked;
    stationRelease = brakes && !left && (stationRelease || wanted);
    approachTyres = running && (stationRelease || approach.occupied);
  }

  private void release(long now, boolean running, boolean brakes) {
    boolean left = midLeft.scan(midOut) && armed;
    midOpen = brakes && !left && (midOpen || (canyon.occupied || mid.occupied) && !helix.occupied && !last.occupied);
    midTyres = midOpen && mid.occupied;
    boolean settling = finalSettled.scan(finalEntered.scan(finalIn) && armed, 5990 * MILLISECOND, now);
    finalOpen = brakes && last.occupied && (finalOpen || last.occupied && !settling && !finalIn && !ready.occupied);
    finalTyres = finalOpen;
    readyOpen = brakes && ready.occupied && (readyOpen || !station.occupied && readyStop);
    readyTyres = running && (readyOpen || ready.occupied && !readyStop);
    stationTyres = running && (stationRelease || readyOpen || station.occupied && !stationStop && !stationRelease);
  }

  private static final class Section {
    private final Rising enters = new Rising();
    private final Falling leaves = new Falling();
    private boolean occupied, implausible, armed;

    Section(boolean occupied) {
      this.occupied = occupied;
    }

    void scan(boolean entry, boolean exit) {
      boolean in = enters.scan(entry);
      boolean out = leaves.scan(exit);
      implausible = armed && (in && occupied || out && !occupied && !in);
      if (armed) {
        occupied = in || occupied && !out;
      }
      armed = true;
    }
  }

  private static final class Rising {
    private boolean before;

    boolean scan(boolean now) {
      boolean rises = now && !before;
      before = now;
      return rises;
    }
  }

  private static final class Falling {
    private boolean wasLow;

    boolean scan(boolean now) {
      boolean falls = !now && !wasLow;
      wasLow = !now;
      return falls;
    }
  }

  private static final class OnDelay {
    private boolean runs, done;
    private long start;

    boolean scan(boolean in, long preset, long now) {
      if (!in) {
        runs = done = false;
      } else if (!runs) {
        runs = true;
        start = now;
      } else {
        done |= now - start >= preset;
      }
      return done;
    }
  }

  private static final class OffDelay {
    private boolean on, timing;
    private long start;

    boolean scan(boolean in, long preset, long now) {
      if (in) {
        on = true;
        timing = false;
      } else if (on && !timing) {
        timing = true;
        start = now;
      } else if (on && now - start >= preset) {
        on = timing = false;
      }
      return on;
    }
  }

  private static final class Pulse {
    private boolean on, spent;
    private long start;

    boolean scan(boolean in, long preset, long now) {
      if (on) {
        if (now - start >= preset) {
          on = false;
          spent = in;
        }
      } else if (spent) {
        spent = in;
      } else if (in) {
        on = true;
        start = now;
      }
      return on;
    }
  }
}
