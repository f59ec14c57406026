package dev.pawl.demo;

import java.util.Arrays;

/** The person at the desk: opens and closes gates, presses what the timetable and the script say. */
final class Operator {

  private static final int GATES_OPEN_AFTER = 100;
  private static final int GATES_CLOSE_BEFORE = 800;
  private static final int RESTRAINTS_LOCK_BEFORE = 600;
  private static final int LEFT_BEFORE_RIGHT = 12;
  private static final int HOLD_BUTTONS = 50;

  private final Scenario scenario;
  private int nextDispatch;
  private int nextAct;
  private int parkedScans;
  private final double[] held = new double[Tag.all().length];

  Operator(Scenario scenario) {
    this.scenario = scenario;
    Arrays.fill(held, Scenario.LET_GO);
  }

  /** Sets the image's switches and buttons for a scan; lamps still show what the scan before left. */
  void act(ScanImage image, int scan) {
    follow(image, scan);
    load(image, scan);
    while (nextAct < scenario.script().size() && scenario.script().get(nextAct).scan() <= scan) {
      Scenario.Act act = scenario.script().get(nextAct++);
      held[act.tag().ordinal()] = act.value();
    }
    for (Tag tag : Tag.all()) {
      if (!Double.isNaN(held[tag.ordinal()])) {
        image.set(tag, held[tag.ordinal()]);
      }
    }
  }

  /** Presses both dispatch buttons, the right one at the time of the timetable. */
  private void follow(ScanImage image, int scan) {
    if (nextDispatch == scenario.dispatches().size()) {
      return;
    }
    int due = scenario.dispatches().get(nextDispatch);
    image.set(Tag.DISPATCH_LEFT, scan >= due - LEFT_BEFORE_RIGHT && scan < due + HOLD_BUTTONS);
    image.set(Tag.DISPATCH_RIGHT, scan >= due && scan < due + HOLD_BUTTONS);
    if (scan == due + HOLD_BUTTONS) {
      nextDispatch++;
    }
  }

  /** Gates stand open from a little after a train has parked until shortly before its dispatch. */
  private void load(ScanImage image, int scan) {
    parkedScans = image.on(Tag.TRAIN_PARKED_LAMP) && image.on(Tag.GATES_UNLOCK) ? parkedScans + 1 : 0;
    int due = nextDispatch < scenario.dispatches().size() ? scenario.dispatches().get(nextDispatch) : Integer.MAX_VALUE;
    boolean loading = parkedScans > GATES_OPEN_AFTER;
    image.set(Tag.GATES_CLOSED, !loading || scan >= due - GATES_CLOSE_BEFORE);
    image.set(Tag.RESTRAINTS_LOCKED, !loading || scan >= due - RESTRAINTS_LOCK_BEFORE);
  }
}
