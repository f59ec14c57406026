package dev.pawl.demo;

import dev.pawl.demo.Scenario.Act;
import dev.pawl.demo.Scenario.Trouble;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/**
 * Half hours of the demo ride that nobody wrote by hand: when trains are dispatched, what is done wrong at the desk,
 * when somebody stops the ride and for how long is drawn from a day's number, and so the same each time.
 */
final class DrawnDays {

  private static final int SECONDS = 1800;
  /** From here on nothing new is begun, so that trains come to rest before the end. */
  private static final int LAST = 1650;
  private static final double HANDS = 0.5;

  private final Random random;
  private final List<Integer> dispatches = new ArrayList<>();
  private final List<Act> script = new ArrayList<>(Scenarios.startUp());
  private double now = 30;

  private DrawnDays(long seed) {
    random = new Random(seed);
  }

  /** What is wrong on a day, one after another. */
  private enum Wrong {
    NOTHING, LATE_STOPS, NO_IDLE_TIMER, NO_LIFT_INTERLOCK, CHATTER
  }

  /**
   * A day.
   *
   * @param number from 1
   */
  static Scenario day(int number) {
    return new DrawnDays(number).draw(number, Wrong.values()[(number - 1) % Wrong.values().length]);
  }

  private Scenario draw(int number, Wrong wrong) {
    dispatch();
    tooEarlyDispatch();
    stop();
    while (now < LAST) {
      switch (random.nextInt(8)) {
        case 0 -> stop();
        case 1 -> tooEarlyDispatch();
        case 2 -> deskMistake(Tag.GATES_CLOSED, 0);
        case 3 -> deskMistake(Tag.RESTRAINTS_LOCKED, 0);
        case 4 -> deskMistake(Tag.BRAKE_AIR, 80);
        case 5 -> now += between(20, 60);
        default -> dispatch();
      }
    }
    script.sort((one, other) -> Integer.compare(one.scan(), other.scan()));
    int late = wrong == Wrong.LATE_STOPS ? 52 + random.nextInt(6) : 0;
    Defects defects = new Defects(wrong == Wrong.NO_IDLE_TIMER, wrong == Wrong.NO_LIFT_INTERLOCK, late);
    String title = switch (wrong) {
      case NOTHING -> "nothing is wrong";
      case LATE_STOPS -> "stops reach the lift drive " + late * 10 + " ms late";
      case NO_IDLE_TIMER -> "the lift never idles";
      case NO_LIFT_INTERLOCK -> "a dispatch does not wait for the lift to be clear";
      case CHATTER -> "the flag before the midcourse brake chatters once";
    };
    return new Scenario("drawn-day-" + number, "A drawn half hour, in which " + title, scan(SECONDS), dispatches,
        script, defects, wrong == Wrong.CHATTER ? Trouble.CHATTER : Trouble.NONE);
  }

  private void dispatch() {
    dispatches.add(scan(now));
    now += between(62, 110);
  }

  /** While the train before is on the lift. */
  private void tooEarlyDispatch() {
    double early = now + between(32, 42);
    dispatches.add(scan(now));
    hold(early - 1, early + 2, Tag.GATES_CLOSED, 1);
    hold(early - 1, early + 2, Tag.RESTRAINTS_LOCKED, 1);
    pressBoth(early);
    now += between(90, 130);
  }

  /** A dispatch that something at the desk forbids, and then a right one. */
  private void deskMistake(Tag tag, double value) {
    hold(now - 0.5, now + 1, tag, value);
    hold(now - 1, now + 2, tag == Tag.GATES_CLOSED ? Tag.RESTRAINTS_LOCKED : Tag.GATES_CLOSED, 1);
    pressBoth(now);
    now += between(12, 20);
    dispatch();
  }

  /** At any moment of a ride. */
  private void stop() {
    dispatches.add(scan(now));
    double pressed = now + between(0.5, 70);
    double released = pressed + between(2, 15);
    double reset = released + between(1, 6);
    double started = reset + between(1, 6);
    act(pressed, Tag.ESTOP_CHAIN, 0);
    act(released, Tag.ESTOP_CHAIN, 1);
    press(random.nextBoolean() ? released + 0.4 : pressed + 0.4, Tag.LIFT_START_BUTTON);
    press(reset, Tag.RESET_BUTTON);
    press(started, Tag.LIFT_START_BUTTON);
    now = started + between(70, 120);
  }

  private double between(double least, double most) {
    return least + random.nextDouble() * (most - least);
  }

  private void pressBoth(double at) {
    hold(at, at + HANDS, Tag.DISPATCH_LEFT, 1);
    hold(at + 0.1, at + HANDS, Tag.DISPATCH_RIGHT, 1);
  }

  private void press(double at, Tag button) {
    act(at, button, 1);
    act(at + 0.3, button, 0);
  }

  private void hold(double from, double to, Tag tag, double value) {
    act(from, tag, value);
    act(to, tag, Scenario.LET_GO);
  }

  private void act(double at, Tag tag, double value) {
    script.add(new Act(scan(at), tag, value));
  }

  private static int scan(double seconds) {
    return (int) Math.round(seconds / BlockController.SCAN);
  }
}
