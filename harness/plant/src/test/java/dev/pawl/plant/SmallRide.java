package dev.pawl.plant;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Source;
import dev.pawl.plant.loop.RideCheck;
import dev.pawl.plant.ride.Ride;
import dev.pawl.plant.ride.RideLanguage;
import dev.pawl.plant.scenario.Scenario;
import dev.pawl.plant.scenario.ScenarioLanguage;
import java.io.IOException;
import java.nio.file.NoSuchFileException;
import java.util.List;

/** A flat ride of 200 m with two trains, a brake and tyres all along it, for tests. */
public final class SmallRide {

  public static final String RULES = """
      type mode = one of (off, auto)
      input  in_flag : bool
      input  out_flag : bool
      input  brake_shut : bool
      input  button : bool
      input  lamp_seen : bool
      input  switch : mode
      input  speed_read : m/s
      output run : bool
      output brake_open : bool
      output lamp : bool
      output lift_run : bool
      zone middle enter rises(in_flag) leave falls(out_flag) starts with 1
      rule X-1 "none" basis practice severity minor when rises(run) must run
      """;

  public static final String RIDE = """
      ride "Small"
      track length 200 m
      point 0 m height 1 m
      point 100 m height 1 m
      cars two length 10 m mass 2000 kg rolling 0.01 drag 0 m2 dog 5 m
      train one of two at 40 m
      train ten of two at 100 m
      tyres all from 0 m to 200 m speed 2 m/s acceleration 1 m/s2 runs with run
      brake stop from 60 m to 80 m friction 0.5 stroke 0.5 s opens with brake_open
      lift chain from 150 m to 160 m ramp 1 m/s2 runs with lift_run working 2 m/s
      flag in_flag at 50 m
      flag out_flag at 120 m filter 100 ms
      sensor brake_shut shows closed of stop
      sensor speed_read shows speed of chain step 0.1 m/s
      desk button = false
      habit lamp_seen = true while lamp = true for 1 s
      act push
        from -1 s to 1 s button = true
      """;

  /** The same, and what protects people. */
  public static final String GUARDED = RIDE + """
      stop while button = true until switch = auto within 2 s
      boarding from 30 m to 88 m shut while lamp_seen = false
      """;

  private SmallRide() {}

  public static RuleBook book() {
    return book("");
  }

  /** The rules with a further declaration. */
  public static RuleBook book(String more) {
    return RuleLanguage.compile(List.of(new Source("small.rules", RULES + more)), name -> {
      throw new NoSuchFileException(name);
    }).book().orElseThrow();
  }

  public static Ride ride() {
    return ride(RIDE);
  }

  /** A ride of another text. */
  public static Ride ride(String text) {
    RideLanguage.Reading reading = RideLanguage.read(new Source("small.ride", text));
    assertThat(reading.diagnostics()).isEmpty();
    return reading.ride().orElseThrow();
  }

  /** What does not fit between a ride and the rules. */
  public static List<String> misfits(String ride) {
    RideLanguage.Reading reading = RideLanguage.read(new Source("small.ride", ride));
    assertThat(reading.diagnostics()).isEmpty();
    return words(RideCheck.check(reading.ride().orElseThrow(), book(), "small.ride"));
  }

  public static List<String> problems(String text) {
    return words(reading(RIDE, text).diagnostics());
  }

  public static Scenario scenario(String text) {
    return scenario(RIDE, text);
  }

  /** A scenario of a ride of another text. */
  public static Scenario scenario(String ride, String text) {
    assertThat(words(reading(ride, text).diagnostics())).isEmpty();
    return reading(ride, text).scenario().orElseThrow();
  }

  /** What is wrong with what a ride says of the desk. */
  public static List<String> deskProblems(String ride) {
    return words(reading(ride, "lasts 60 s\n").diagnostics());
  }

  private static ScenarioLanguage.Reading reading(String ride, String text) {
    return ScenarioLanguage.read("small", new Source("small.scenario", text), name -> part(name), ride(ride), book());
  }

  private static Source part(String name) throws IOException {
    if (!name.equals("some.part")) {
      throw new NoSuchFileException(name);
    }
    return new Source("some.part", "seed 3\nuse \"some.part\"\n");
  }

  private static List<String> words(List<Diagnostic> diagnostics) {
    return diagnostics.stream().map(it -> it.position() + ": " + it.message() + " (" + it.hint() + ")").toList();
  }
}
