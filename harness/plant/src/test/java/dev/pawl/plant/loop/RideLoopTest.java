package dev.pawl.plant.loop;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.source.Source;
import dev.pawl.plant.SmallRide;
import dev.pawl.plant.ride.Ride;
import dev.pawl.plant.ride.RideLanguage;
import dev.pawl.plant.scenario.ScenarioLanguage;
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

  /** As without a fault, but for what the fault does. */
  @Test
  void aFlagFailsAsAScenarioSays() {
    assertThat(turns(motion("lasts 60 s\nat 0 s fault in_flag missed 1"), "in_flag", 1200, "run", "brake_open"))
        .isEmpty();
    assertThat(turns(motion("lasts 60 s\nat 7 s fault in_flag missed 1"), "in_flag", 1200, "run", "brake_open"))
        .as("a train that is seen already is not missed").containsExactly("6.11 1.0", "11.11 0.0");
    assertThat(turns(motion("lasts 60 s\nat 0 s fault in_flag late 500 ms\nat 8 s mend in_flag late"), "in_flag", 1200,
        "run", "brake_open")).containsExactly("6.61 1.0", "11.11 0.0");
    assertThat(turns(motion("lasts 60 s\nat 0 s fault in_flag chattering 70 ms"), "in_flag", 700, "run", "brake_open"))
        .containsExactly("6.11 1.0", "6.13 0.0", "6.15 1.0", "6.17 0.0", "6.19 1.0");
    assertThat(turns(motion("lasts 60 s\nat 0 s fault out_flag chattering 70 ms"), "out_flag", 1300, "run",
        "brake_open")).as("a filter lets through what has come to rest").containsExactly("11.29 1.0");
  }

  /** The wires of two flags, of two outputs, and the same put right; the brake obeys what runs the tyres. */
  @Test
  void swappedWiresLeadToOneAnother() {
    String swap = "lasts 60 s\nat 0 s fault in_flag swapped with out_flag\n";
    assertThat(turns(motion(swap), "out_flag", 1200, "run", "brake_open")).containsExactly("6.11 1.0", "11.11 0.0");
    assertThat(turns(motion(swap + "at 8 s mend out_flag swapped with in_flag"), "in_flag", 1200, "run", "brake_open"))
        .containsExactly("8.01 1.0", "11.11 0.0");
    assertThat(turns(motion("lasts 60 s\nat 0 s fault run swapped with brake_open"), "brake_shut", 100, "run"))
        .containsExactly("0.01 0.0");
  }

  /** Without a fault the flag is on from 6.11 s to 11.11 s. What was lost is told when messages come again. */
  @Test
  void messagesAreLostOrLate() {
    assertThat(turns(motion("lasts 60 s\nat 5 s fault in_flag silent\nat 8 s mend in_flag silent"), "in_flag", 1200,
        "run", "brake_open")).containsExactly("8.00 1.0", "11.11 0.0");
    assertThat(turns(motion("lasts 60 s\nat 9 s fault in_flag silent"), "in_flag", 1200, "run", "brake_open"))
        .as("it stays on").containsExactly("6.11 1.0");
    assertThat(turns(motion("lasts 60 s\nat 0 s fault brake_shut late 250 ms"), "brake_shut", 100, "brake_open"))
        .containsExactly("0.26 0.0");
    assertThat(turns(motion("lasts 60 s\nat 0 s fault run late 500 ms"), "in_flag", 1200, "run", "brake_open"))
        .as("the train starts as late as its command comes").containsExactly("6.61 1.0", "11.61 0.0");
    assertThat(turns(motion("lasts 60 s\nat 0 s fault run silent"), "in_flag", 1200, "run", "brake_open")).isEmpty();
  }

  /** What a link carries is lost together; a rule book's other signals are not. */
  @Test
  void whatALinkCarriesIsLostTogether() {
    Ride ride = SmallRide.ride(SmallRide.RIDE + "link cabinet carries in_flag brake_shut\n");
    String text = "lasts 60 s\nat 0 s fault cabinet silent\nat 9 s mend cabinet silent";
    for (String input : List.of("in_flag", "brake_shut", "out_flag")) {
      RideMotion motion = new RideMotion(ride, SmallRide.scenario(SmallRide.RIDE
          + "link cabinet carries in_flag brake_shut\n", text), BOOK, 0.01);
      assertThat(turns(motion, input, 1200, "run", "brake_open")).as(input).containsExactlyElementsOf(
          switch (input) {
            case "in_flag" -> List.of("9.00 1.0", "11.11 0.0");
            case "brake_shut" -> List.of("9.00 0.0");
            default -> List.of("11.21 1.0");
          });
    }
  }

  /** A train that no flag has told of yet is a hazard where nothing behind it keeps others out. */
  @Test
  void aTrainThatIsCountedInTheZoneBehindIsNoHazard() {
    RuleBook two = SmallRide.book("zone first enter rises(out_flag) leave falls(in_flag) starts with 1\n");
    RideMotion motion = new RideMotion(SmallRide.ride(), SmallRide.scenario("lasts 60 s\nat 0 s in_flag = false"), two,
        0.01);
    turns(motion, "in_flag", 1200, "run", "brake_open");
    assertThat(motion.truth().happenings()).filteredOn(it -> it.kind() == Truth.Kind.FOOLED).isNotEmpty()
        .noneMatch(Truth.Happening::hazard);
  }

  /** A drive whose contactor is welded runs on when it is told to stop, and one without power never runs. */
  @Test
  void aDriveRunsOnOrNotAtAll() {
    RideMotion welded = motion("lasts 60 s\nat 2 s fault chain welded\nat 0 s fault all dead");
    turns(welded, "in_flag", 300, "lift_run", "run");
    for (int scan = 301; scan < 900; scan++) {
      welded.set(signal("lift_run"), 0);
      welded.move(scan);
    }
    assertThat(welded.value(signal("speed_read"))).isEqualTo(2);
    assertThat(welded.value(signal("in_flag"))).isZero();
    assertThat(turns(motion("lasts 60 s\nat 0 s fault chain dead"), "speed_read", 300, "lift_run")).isEmpty();
  }

  @Test
  void airThatIsLostComesBackWhenThatIsMended() {
    String air = SmallRide.RIDE + "air supply starts 100 psi low 90 psi high 110 psi fills 10 psi/s needed 60 psi\n";
    Ride ride = RideLanguage.read(new Source("small.ride", air)).ride().orElseThrow();
    String scenario = "lasts 60 s\nat 5 s fault supply lost\nat 10 s mend supply lost";
    RideMotion motion = new RideMotion(ride, ScenarioLanguage.read("small", new Source("small.scenario", scenario),
        name -> null, ride, BOOK).scenario().orElseThrow(), BOOK, 0.01);
    assertThat(turns(motion, "brake_shut", 2000, "brake_open")).as("shut a stroke after it, open again at 60 psi")
        .containsExactly("0.01 0.0", "5.50 1.0", "16.01 0.0");
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

  private static RideMotion guarded(String scenario) {
    return new RideMotion(SmallRide.ride(SmallRide.GUARDED), SmallRide.scenario(SmallRide.GUARDED, scenario), BOOK,
        0.01);
  }

  /** What a run tells of one kind, with the tyres on and the brake open up to a scan, and neither after it. */
  private static List<String> told(RideMotion motion, int until, Truth.Kind kind) {
    turns(motion, "in_flag", until, "run", "brake_open");
    motion.set(signal("run"), 0);
    motion.set(signal("brake_open"), 0);
    for (int scan = until + 1; scan < 3000; scan++) {
      motion.move(scan);
    }
    return motion.truth().happenings().stream().filter(it -> it.kind() == kind).map(it -> String.format(Locale.ROOT,
        "%.2f %s", it.seconds(), it.words())).toList();
  }

  /** Both trains run at 2 m/s as the stop is demanded at 5 s; its 2 s are over at 7 s, and 100 mm take 50 ms. */
  @Test
  void aTrainThatIsDrivenUnderAStopIsAHazard() {
    String stop = "lasts 60 s\nat 5 s button = true for 1 s\n";
    assertThat(told(guarded(stop), 1000, Truth.Kind.UNDER_STOP)).containsExactly(
        "7.06 a train moved under a stop: one in all, 2.1 s after it was demanded",
        "7.06 a train moved under a stop: ten in all, 2.1 s after it was demanded");
    assertThat(told(guarded(stop), 680, Truth.Kind.UNDER_STOP)).as("it has its time, and rolling on is none").isEmpty();
    assertThat(told(guarded(stop + "at 6.5 s switch = auto"), 1000, Truth.Kind.UNDER_STOP)).as("released").isEmpty();
    assertThat(told(guarded(stop + "at 5.5 s switch = auto"), 1000, Truth.Kind.UNDER_STOP)).as("released too soon")
        .hasSize(2);
  }

  /** The first train rolls into the brake, which is stuck open as the stop comes. */
  @Test
  void aTrainThatNoBrakeHoldsUnderAStopIsAHazard() {
    assertThat(told(guarded("lasts 60 s\nat 11 s button = true\nat 3 s fault stop stuck"), 1150,
        Truth.Kind.UNDER_STOP)).singleElement().asString().endsWith("a train moved under a stop: one in stop, 2.1 s "
            + "after it was demanded");
  }

  /** The one at 100 m leaves the stretch from 30 m to 98 m with its tail at once, the other comes through it. */
  @Test
  void aTrainThatMovesBesidePeopleIsAHazard() {
    assertThat(told(guarded("lasts 60 s\nat 5 s lamp_seen = true for 30 ms\nat 9 s lamp_seen = true for 1 s"), 1000,
        Truth.Kind.BOARDING)).containsExactly(
            "9.05 a train moved where people were getting on: one, by 2.0 m/s");
  }

  /** Lines between few points stay within half a metre of where the trains were. */
  @Test
  void pathsAreDrawnByFewPointsThatAreNowhereFarOff() {
    RideMotion motion = motion("lasts 60 s");
    TrainPaths paths = motion.newPaths();
    List<Double> noses = new ArrayList<>();
    for (int scan = 0; scan <= 6000; scan++) {
      motion.move(scan);
      motion.set(signal("run"), scan < 2000 ? 1 : 0);
      motion.set(signal("brake_open"), 1);
      paths.look(scan / 100.0);
      TrainPaths now = motion.newPaths();
      now.look(scan / 100.0);
      noses.add(now.paths().get(0).points().get(0).place());
    }
    TrainPaths.Path one = paths.paths().get(0);
    assertThat(one.train()).isEqualTo("one");
    assertThat(one.points()).hasSizeLessThan(30);
    assertThat(one.points().get(one.points().size() - 1).seconds()).isEqualTo(60);
    for (int i = 0; i + 1 < one.points().size(); i++) {
      TrainPaths.Point from = one.points().get(i);
      TrainPaths.Point to = one.points().get(i + 1);
      for (int scan = (int) Math.round(from.seconds() * 100); scan <= Math.round(to.seconds() * 100); scan++) {
        double share = (scan / 100.0 - from.seconds()) / (to.seconds() - from.seconds());
        assertThat(from.place() + share * (to.place() - from.place())).isCloseTo(noses.get(scan), within(0.51));
      }
    }
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
