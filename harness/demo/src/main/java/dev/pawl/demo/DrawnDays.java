package dev.pawl.demo;

import java.util.Locale;
import java.util.Random;

/**
 * Half hours of the demo ride that nobody wrote by hand: when trains are dispatched, what is done wrong at the desk,
 * when somebody stops the ride and for how long is drawn from a day's number, and so the same each time.
 */
final class DrawnDays {

  private static final int SECONDS = 1800;
  /** From here on nothing new is begun, so that trains come to rest before the end. */
  private static final int LAST = 1650;

  private final Random random;
  private final StringBuilder script = new StringBuilder();
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
   * @param text its scenario
   * @param defects what is wrong with its controller
   */
  record Day(String name, String text, Defects defects) {}

  /**
   * A day.
   *
   * @param number from 1
   */
  static Day day(int number) {
    return new DrawnDays(number).draw(number, Wrong.values()[(number - 1) % Wrong.values().length]);
  }

  private Day draw(int number, Wrong wrong) {
    dispatch();
    tooEarlyDispatch();
    stop();
    while (now < LAST) {
      switch (random.nextInt(8)) {
        case 0 -> stop();
        case 1 -> tooEarlyDispatch();
        case 2 -> deskMistake("gates_closed", "false");
        case 3 -> deskMistake("restraints_locked", "false");
        case 4 -> deskMistake("brake_air", "80");
        case 5 -> now += between(20, 60);
        default -> dispatch();
      }
    }
    int late = wrong == Wrong.LATE_STOPS ? 52 + random.nextInt(6) : 0;
    Defects defects = new Defects(wrong == Wrong.NO_IDLE_TIMER, wrong == Wrong.NO_LIFT_INTERLOCK, late);
    String title = switch (wrong) {
      case NOTHING -> "nothing is wrong";
      case LATE_STOPS -> "stops reach the lift drive " + late * 10 + " ms late";
      case NO_IDLE_TIMER -> "the lift never idles";
      case NO_LIFT_INTERLOCK -> "a dispatch does not wait for the lift to be clear";
      case CHATTER -> "the flag before the midcourse brake chatters once";
    };
    if (wrong == Wrong.CHATTER) {
      script.append("when 3rd fall of mid_in_flag\n  after 30 ms mid_in_flag = true for 20 ms\n"
          + "  after 90 ms mid_in_flag = true for 30 ms\n");
    }
    String head = "scenario \"A drawn half hour, in which " + title + "\"\nlasts " + SECONDS
        + " s\nuse \"day.part\"\nuse \"start-up.part\"\n";
    return new Day("drawn-day-" + number, head + script, defects);
  }

  private void dispatch() {
    at(now, "do dispatch");
    now += between(62, 110);
  }

  /** While the train before is on the lift. */
  private void tooEarlyDispatch() {
    double early = now + between(32, 42);
    at(now, "do dispatch");
    hold(early - 1, early + 2, "gates_closed", "true");
    hold(early - 1, early + 2, "restraints_locked", "true");
    at(early, "do press_both");
    now += between(90, 130);
  }

  /** A dispatch that something at the desk forbids, and then a right one. */
  private void deskMistake(String signal, String value) {
    hold(now - 0.5, now + 1, signal, value);
    hold(now - 1, now + 2, signal.equals("gates_closed") ? "restraints_locked" : "gates_closed", "true");
    at(now, "do press_both");
    now += between(12, 20);
    dispatch();
  }

  /** At any moment of a ride. */
  private void stop() {
    at(now, "do dispatch");
    double pressed = now + between(0.5, 70);
    double released = pressed + between(2, 15);
    double reset = released + between(1, 6);
    double started = reset + between(1, 6);
    at(pressed, "estop_chain = false");
    at(released, "estop_chain = true");
    at(random.nextBoolean() ? released + 0.4 : pressed + 0.4, "press lift_start_button");
    at(reset, "press reset_button");
    at(started, "press lift_start_button");
    now = started + between(70, 120);
  }

  private double between(double least, double most) {
    return least + random.nextDouble() * (most - least);
  }

  private void hold(double from, double to, String signal, String value) {
    at(from, String.format(Locale.ROOT, "%s = %s for %.2f s", signal, value, to - from));
  }

  private void at(double seconds, String what) {
    script.append(String.format(Locale.ROOT, "at %.2f s %s%n", seconds, what));
  }
}
