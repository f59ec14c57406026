package dev.pawl.plant.loop;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.source.Source;
import dev.pawl.plant.SmallRide;
import dev.pawl.plant.ride.Ride;
import dev.pawl.plant.ride.RideLanguage;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;

/** A small ride between outputs that a test sets and inputs that it reads. */
class RideLoopTest {

  private static final RuleBook BOOK = SmallRide.book();

  private static RideMotion motion(String scenario) {
    return new RideMotion(SmallRide.ride(), SmallRide.scenario(scenario), BOOK, 0.01);
  }

  private static int signal(String name) {
    return BOOK.signals().stream().filter(it -> it.name().equals(name)).mapToInt(Signal::index).findFirst()
        .orElseThrow();
  }

  /** When an input turned, with what it turned to, as long as some outputs are on. */
  private static List<String> turns(RideMotion motion, String input, int scans, String... outputs) {
    List<String> turns = new ArrayList<>();
    double before = Double.NaN;
    for (int scan = 0; scan <= scans; scan++) {
      motion.move(scan);
      double value = motion.value(signal(input));
      if (scan > 0 && value != before) {
        turns.add(String.format(Locale.ROOT, "%.2f %.1f", scan * 0.01, value));
      }
      before = value;
      for (String output : outputs) {
        motion.set(signal(output), 1);
      }
    }
    return turns;
  }

  /**
   * From 40 m by 1 m/s^2 less 0.0981 m/s^2 that rolling takes: 2 m/s after 2.218 s and 2.218 m, and 7.782 m more by
   * 2 m/s. The nose is at 50 m after 6.109 s, the tail 5 s later.
   */
  @Test
  void aFlagIsTrueWhileATrainIsBesideIt() {
    assertThat(turns(motion("lasts 60 s"), "in_flag", 1200, "run", "brake_open")).containsExactly("6.11 1.0",
        "11.11 0.0");
  }

  /** The second train comes to 120 m after 11.109 s, its tail leaves 5 s later, and the filter takes 100 ms. */
  @Test
  void aFilterMakesAFlagLate() {
    assertThat(turns(motion("lasts 60 s"), "out_flag", 1800, "run", "brake_open")).containsExactly("11.21 1.0",
        "16.21 0.0");
  }

  /** Targets of 4 m with 2 m between: by 2 m/s seen for 2 s, not for 1 s, and seen for 2 s again. */
  @Test
  void aFlagSeesTheTargetsOfATrainAndNotTheGapsBetween() {
    Ride ride = RideLanguage.read(new Source("small.ride", SmallRide.RIDE.replace("dog 5 m",
        "dog 5 m target 4 m gap 2 m"))).ride().orElseThrow();
    RideMotion motion = new RideMotion(ride, SmallRide.scenario("lasts 60 s"), BOOK, 0.01);
    assertThat(turns(motion, "in_flag", 1200, "run", "brake_open")).containsExactly("6.11 1.0", "8.11 0.0", "9.11 1.0",
        "11.11 0.0");
  }

  @Test
  void aBrakesSwitchShowsTheEndOfItsStroke() {
    assertThat(turns(motion("lasts 60 s"), "brake_shut", 100, "brake_open")).containsExactly("0.01 0.0");
  }

  @Test
  void aChainsSpeedIsReadInItsSteps() {
    assertThat(turns(motion("lasts 60 s"), "speed_read", 300, "lift_run")).hasSize(20).startsWith("0.05 0.1")
        .endsWith("1.95 2.0");
  }

  @Test
  void anActAHoldAndAHabitTakeTheirTime() {
    assertThat(turns(motion("lasts 60 s\nat 5 s do push"), "button", 800)).containsExactly("4.00 1.0", "6.00 0.0");
    assertThat(turns(motion("lasts 60 s\nat 5 s do push\nat 5 s button = false for 500 ms"), "button", 800))
        .containsExactly("4.00 1.0", "5.00 0.0", "5.50 1.0", "6.00 0.0");
    assertThat(turns(motion("lasts 60 s"), "lamp_seen", 300, "lamp")).containsExactly("1.01 1.0");
    assertThat(turns(motion("lasts 60 s\nwhen lamp = true for 2 s\n  press button"), "button", 300, "lamp"))
        .containsExactly("2.01 1.0", "2.31 0.0");
    assertThat(turns(motion("lasts 60 s\nwhen train at 41 m\n  after 1 s press button"), "button", 300, "run"))
        .hasSize(2).startsWith("2.49 1.0");
  }

  /** A flag that sticks while a train goes by: zone middle then holds a train that nobody told of. */
  @Test
  void theTruthSaysWhereTrackingWasFooledAndThatTrainsTouched() {
    RideMotion motion = motion("lasts 60 s\nat 0 s in_flag = false");
    turns(motion, "in_flag", 2000, "run");
    assertThat(motion.truth().happenings()).extracting(Truth.Happening::words).contains(
        "tracking was fooled: flags told of one train in zone middle, where there were 2");
    assertThat(motion.truth().happenings()).anyMatch(Truth.Happening::hazard);
    RideMotion crash = new RideMotion(SmallRide.ride(), SmallRide.scenario(
        "lasts 200 s\nat 0 s fault all stuck\nat 3 s mend all stuck"), BOOK, 0.01);
    turns(crash, "in_flag", 100);
    assertThat(crash.truth().count()).isZero();
  }

  @Test
  void theSameCallGivesTheSame() {
    assertThat(turns(motion("lasts 60 s\nseed 3"), "speed_read", 900, "run", "lift_run")).isEqualTo(turns(
        motion("lasts 60 s\nseed 3"), "speed_read", 900, "run", "lift_run"));
  }

  @Test
  void whatDoesNotFitTheRulesIsSaidWithItsPlace() {
    assertThat(SmallRide.misfits(SmallRide.RIDE.replace("runs with run", "runs with rnu").replace("flag in_flag",
        "flag lamp").replace("sensor speed_read shows speed", "sensor button shows speed").replace(
            "opens with brake_open", "opens with button"))).containsExactly(
        "small.ride:8:71: the rules declare no signal 'rnu' (did you mean run?)",
        "small.ride:9:67: 'button' is declared as an input, but it commands the ride (declare it as an output in the "
            + "rules, or name another)",
        "small.ride:11:6: 'lamp' is declared as an output, but it reports on the ride (declare it as an input in the "
            + "rules, or name another)",
        "small.ride:14:8: 'button' is no speed, but here it has to be one (declare it as a speed in the rules, or name "
            + "another)");
  }
}
