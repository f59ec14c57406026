package dev.pawl.demo;

import dev.pawl.demo.Scenario.Act;
import dev.pawl.demo.Scenario.Trouble;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/** The demo's scenarios. What each must give is worked out by hand beside its expected verdicts in the fixtures. */
final class Scenarios {

  private static final int HEADWAY = seconds(75);
  private static final int FIRST_DISPATCH = seconds(60);
  private static final int PRESS = 30;
  private static final int STOP_DELAY = 74;

  private Scenarios() {}

  static List<Scenario> all() {
    List<Scenario> all = new ArrayList<>(List.of(ordinary(), lostIdleTimer(), occupiedDispatch(), lateStop(), chatter(),
        rollBack()));
    all.addAll(Drills.ofDemo());
    return all;
  }

  /** Two hours, 94 dispatches, with one emergency stop drill while a train is on the lift. */
  private static Scenario ordinary() {
    List<Integer> dispatches = new ArrayList<>(timetable(FIRST_DISPATCH, 47));
    dispatches.addAll(timetable(seconds(3660), 47));
    List<Act> script = startUp();
    script.addAll(emergencyStop(seconds(3540), seconds(30)));
    return new Scenario("ordinary-two-hours", "An ordinary two hours with one emergency stop drill", seconds(7200),
        dispatches, script,
        Defects.NONE, Trouble.NONE);
  }

  private static Scenario lostIdleTimer() {
    return new Scenario("lost-idle-timer", "A logic change that lost the lift's idle timer", seconds(600),
        timetable(FIRST_DISPATCH, 7),
        startUp(), new Defects(true, false, 0), Trouble.NONE);
  }

  /** The fourth train is sent 40 s after the third, which is then still on the lift. */
  private static Scenario occupiedDispatch() {
    List<Integer> dispatches = new ArrayList<>(timetable(FIRST_DISPATCH, 3));
    dispatches.add(dispatches.get(2) + seconds(40));
    return new Scenario("occupied-dispatch", "A dispatch while a train is still on the lift", seconds(360), dispatches,
        startUp(),
        new Defects(false, true, 0), Trouble.NONE);
  }

  private static Scenario lateStop() {
    List<Act> script = startUp();
    script.addAll(emergencyStop(seconds(240), seconds(30)));
    return new Scenario("late-drive-stop", "An emergency stop that reaches the lift drive 740 ms late", seconds(360),
        timetable(FIRST_DISPATCH, 3), script, new Defects(false, false, STOP_DELAY), Trouble.NONE);
  }

  private static Scenario chatter() {
    return new Scenario("chattering-flag", "The flag before the midcourse brake chatters once", seconds(480),
        timetable(FIRST_DISPATCH, 5),
        startUp(), Defects.NONE, Trouble.CHATTER);
  }

  /** A start after the roll-back, without a reset, must not bring the lift back. */
  private static Scenario rollBack() {
    List<Act> script = startUp();
    press(script, seconds(255), Tag.LIFT_START_BUTTON);
    return new Scenario("roll-back", "A train rolls back on the lift before the anti-rollback catches it", seconds(270),
        timetable(FIRST_DISPATCH, 3), script, Defects.NONE, Trouble.ROLL_BACK);
  }

  /** The switch through manual to automatic, a reset, a lift start. */
  static List<Act> startUp() {
    List<Act> script = new ArrayList<>();
    script.add(new Act(seconds(1), Tag.MODE, OperatingMode.MANUAL.ordinal()));
    script.add(new Act(seconds(4), Tag.MODE, OperatingMode.AUTOMATIC.ordinal()));
    press(script, seconds(7), Tag.RESET_BUTTON);
    press(script, seconds(8), Tag.LIFT_START_BUTTON);
    return script;
  }

  /** The stop button pressed, released after a while, then a reset and a lift start as separate acts. */
  private static List<Act> emergencyStop(int scan, int duration) {
    List<Act> script = new ArrayList<>();
    script.add(new Act(scan, Tag.ESTOP_CHAIN, 0));
    script.add(new Act(scan + duration, Tag.ESTOP_CHAIN, 1));
    press(script, scan + duration + seconds(5), Tag.RESET_BUTTON);
    press(script, scan + duration + seconds(10), Tag.LIFT_START_BUTTON);
    return script;
  }

  private static void press(List<Act> script, int scan, Tag button) {
    script.add(new Act(scan, button, 1));
    script.add(new Act(scan + PRESS, button, 0));
  }

  private static List<Integer> timetable(int first, int count) {
    return IntStream.range(0, count).mapToObj(i -> first + i * HEADWAY).toList();
  }

  private static int seconds(int seconds) {
    return (int) Math.round(seconds / BlockController.SCAN);
  }
}
