package dev.pawl.demo;

import dev.pawl.demo.Scenario.Act;
import dev.pawl.demo.Scenario.Trouble;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/**
 * Scenarios that tempt a controller to do what it must not: the interlocks, stops and holds of an ordinary day are
 * there without ever being needed. Four of them are traces of the demo, so that each rule is exercised there; the
 * others are for closed loops only.
 */
final class Drills {

  private static final double HANDS = 0.5;

  private final List<Act> script = new ArrayList<>(Scenarios.startUp());

  private Drills() {}

  static List<Scenario> all() {
    return List.of(new Drills().trial(), new Drills().stopDuringDispatch(), new Drills().stopBeforeMidcourse(),
        new Drills().heldButtons(), new Drills().deadSensors());
  }

  /** Those that are traces of the demo: the ride or its operator is in trouble, and the logic does what it must. */
  static List<Scenario> ofDemo() {
    return List.of(new Drills().slackChain(), new Drills().tailOverFlag(), new Drills().stopsAtOpenBrakes(),
        new Drills().deskMistakes());
  }

  /**
   * An operator's bad ten minutes. The dispatch at 100 s comes while the train before is on the lift, the others meet
   * what is said below.
   */
  private Scenario trial() {
    hold(149.5, 151, Tag.GATES_CLOSED, 0);                // a gate is opened as the buttons are pressed
    hold(164.5, 166, Tag.RESTRAINTS_LOCKED, 0);
    hold(179.88, 181, Tag.DISPATCH_LEFT, 1);              // the second hand comes 720 ms after the first
    act(179.88, Tag.DISPATCH_RIGHT, 0);
    hold(180.6, 181, Tag.DISPATCH_RIGHT, 1);
    close(179, 182);
    act(190, Tag.MODE, OperatingMode.MANUAL.ordinal());   // a dispatch in manual; back to automatic without a start
    act(200, Tag.MODE, OperatingMode.AUTOMATIC.ordinal());
    press(204, Tag.LIFT_START_BUTTON);
    hold(210, 220, Tag.BRAKE_AIR, 80);
    act(262, Tag.ESTOP_CHAIN, 0);                         // with a train on the lift
    press(272, Tag.LIFT_START_BUTTON);
    act(282, Tag.ESTOP_CHAIN, 1);
    press(284, Tag.LIFT_START_BUTTON);                    // before the reset, as is the dispatch at 286 s
    press(290, Tag.RESET_BUTTON);
    press(296, Tag.LIFT_START_BUTTON);
    act(400, Tag.CHAIN_HEALTHY, 0);
    act(400.2, Tag.CHAIN_HEALTHY, 1);
    press(406, Tag.RESET_BUTTON);
    press(410, Tag.LIFT_START_BUTTON);
    act(470, Tag.ESTOP_CHAIN, 0);
    act(480, Tag.ESTOP_CHAIN, 1);
    press(486, Tag.RESET_BUTTON);
    press(494, Tag.LIFT_START_BUTTON);                    // well after the reset
    return scenario("trial", "Everything that a controller must refuse is tried", 560,
        IntStream.of(60, 100, 150, 165, 180, 195, 215, 232, 286, 340, 440).mapToObj(Drills::scan).toList(),
            Trouble.NONE);
  }

  /**
   * Each interlock of the dispatch is asked alone, all others being satisfied; then a dispatch during a stop, and
   * starts and dispatches after it without a reset; at last the left hand late, as the right one was before.
   */
  private Scenario deskMistakes() {
    pressBoth(20);
    pressBoth(93);
    hold(95, 96.2, Tag.GATES_CLOSED, 0);
    pressBoth(95.4);
    hold(97, 99.2, Tag.DISPATCH_LEFT, 1);
    hold(98.7, 99.2, Tag.DISPATCH_RIGHT, 1);
    close(138.5, 141.5);
    pressBoth(140);                                       // with the train before still on the lift
    hold(220.2, 221, Tag.BRAKE_AIR, 80);
    pressBoth(220.4);
    act(221.3, Tag.MODE, OperatingMode.MANUAL.ordinal());
    pressBoth(221.8);
    act(222.5, Tag.MODE, OperatingMode.AUTOMATIC.ordinal());
    press(224.6, Tag.LIFT_START_BUTTON);
    act(330, Tag.ESTOP_CHAIN, 0);
    act(334, Tag.ESTOP_CHAIN, 1);
    close(331, 343);
    pressBoth(332);
    pressBoth(336);
    press(338, Tag.LIFT_START_BUTTON);
    pressBoth(341);
    press(345, Tag.RESET_BUTTON);
    press(350, Tag.LIFT_START_BUTTON);
    hold(355.5, 357.5, Tag.DISPATCH_RIGHT, 1);
    hold(357, 357.5, Tag.DISPATCH_LEFT, 1);
    return scenario("desk-mistakes", "Dispatches and starts that the logic has to refuse", 480,
        List.of(scan(100), scan(226), scan(360)), Trouble.NONE);
  }

  /**
   * The chain tension switch goes off with a train on the lift; a start without a reset must not bring the lift back.
   */
  private Scenario slackChain() {
    act(95, Tag.CHAIN_HEALTHY, 0);
    act(97, Tag.CHAIN_HEALTHY, 1);
    press(100, Tag.LIFT_START_BUTTON);
    press(105, Tag.RESET_BUTTON);
    press(110, Tag.LIFT_START_BUTTON);
    return scenario("slack-chain", "A slack chain with a train on the lift, and a start without a reset", 240,
        List.of(scan(60)),
        Trouble.NONE);
  }

  /**
   * The stop comes while the station brake is open and its tyres run; the train then lies across the station's end, and
   * is asked for again.
   */
  private Scenario stopDuringDispatch() {
    stop(63, 75, 85);
    return scenario("stop-during-dispatch", "An emergency stop while a train is being dispatched", 150,
        List.of(scan(60), scan(100)), Trouble.NONE);
  }

  /** The stop comes while the midcourse brake is open for a train on its way there. */
  private Scenario stopBeforeMidcourse() {
    stop(112, 130, 140);
    return scenario("stop-before-midcourse", "An emergency stop while a train comes to the open midcourse brake", 240,
        List.of(scan(60)),
        Trouble.NONE);
  }

  /**
   * The reset button is held down through one stop and the start button through another. Between them dispatches are
   * asked for in mode off, with the lift at rest, and with the second hand 60 ms late.
   */
  private Scenario heldButtons() {
    act(95, Tag.RESET_BUTTON, 1);
    // with a train on the lift and another on its way to the ready brake
    act(97, Tag.ESTOP_CHAIN, 0);
    act(105, Tag.ESTOP_CHAIN, 1);
    act(107, Tag.RESET_BUTTON, 0);
    press(109, Tag.RESET_BUTTON);
    press(113, Tag.LIFT_START_BUTTON);
    close(160, 220);
    act(165, Tag.MODE, OperatingMode.OFF.ordinal());
    pressBoth(167);
    act(170, Tag.MODE, OperatingMode.AUTOMATIC.ordinal());
    pressBoth(173);
    press(192, Tag.LIFT_START_BUTTON);
    hold(196, 197, Tag.DISPATCH_LEFT, 1);
    hold(196.56, 197, Tag.DISPATCH_RIGHT, 1);
    act(200, Tag.LIFT_START_BUTTON, 1);
    act(202, Tag.ESTOP_CHAIN, 0);
    act(206, Tag.ESTOP_CHAIN, 1);
    press(210, Tag.RESET_BUTTON);
    act(215, Tag.LIFT_START_BUTTON, 0);
    press(218, Tag.LIFT_START_BUTTON);
    return scenario("held-buttons", "Buttons held down through emergency stops, and dispatches that are almost right",
        330,
        List.of(scan(60), scan(240)), Trouble.NONE);
  }

  /** The lift's speed reads 0 though it runs, and then the ready brake's switch still says closed though it is open. */
  private Scenario deadSensors() {
    hold(15, 26, Tag.LIFT_SPEED, 0);
    press(30, Tag.RESET_BUTTON);
    press(34, Tag.LIFT_START_BUTTON);
    hold(66, 76, Tag.READY_BRAKE_CLOSED, 1);
    press(80, Tag.RESET_BUTTON);
    press(92, Tag.LIFT_START_BUTTON);
    return scenario("dead-sensors", "Feedback of the lift's speed and a brake's switch that no longer follow", 200,
        List.of(scan(60)), Trouble.NONE);
  }

  /** The train behind has to wait in the midcourse brake, and the one behind that on the lift. */
  private Scenario tailOverFlag() {
    return scenario("tail-over-flag", "A train stands over the final brake's entry flag, with two more behind it", 420,
        List.of(scan(60), scan(135), scan(210)), Trouble.TAIL_OVER_FLAG);
  }

  /**
   * Three stops, each while another brake is open: as the first train begins to leave the station, as the train behind
   * it moves up from the ready brake, and as the first comes to the midcourse brake. During the first the train is
   * asked for again, and with the lift once more before the reset.
   */
  private Scenario stopsAtOpenBrakes() {
    stop(62, 70, 80);
    close(64, 74);
    pressBoth(66);
    press(71, Tag.LIFT_START_BUTTON);
    pressBoth(72);
    stop(112, 118, 130);
    stop(160, 170, 180);
    return scenario("stops-at-open-brakes",
        "Emergency stops while the station's, the ready and the midcourse brake are open", 240,
        List.of(scan(60), scan(100)), Trouble.NONE);
  }

  private Scenario scenario(String name, String title, int seconds, List<Integer> dispatches, Trouble trouble) {
    script.sort((one, other) -> Integer.compare(one.scan(), other.scan()));
    return new Scenario(name, title, scan(seconds), dispatches, script, Defects.NONE, trouble);
  }

  /** The stop button pressed and released, a reset 5 s later, and at last a start. */
  private void stop(double from, double to, double start) {
    act(from, Tag.ESTOP_CHAIN, 0);
    act(to, Tag.ESTOP_CHAIN, 1);
    press(to + 5, Tag.RESET_BUTTON);
    press(start, Tag.LIFT_START_BUTTON);
  }

  /** Gates and restraints held closed, as for a dispatch. */
  private void close(double from, double to) {
    hold(from, to, Tag.GATES_CLOSED, 1);
    hold(from, to, Tag.RESTRAINTS_LOCKED, 1);
  }

  private void pressBoth(double at) {
    hold(at, at + HANDS, Tag.DISPATCH_LEFT, 1);
    hold(at + 0.1, at + HANDS, Tag.DISPATCH_RIGHT, 1);
  }

  private void press(double at, Tag button) {
    act(at, button, 1);
    act(at + 0.3, button, 0);
  }

  /** A signal held from one time to another, then left to itself. */
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
