package dev.pawl.run.ride;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.run.ExampleCheck;
import dev.pawl.run.RunException;
import dev.pawl.run.files.RuleFiles;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a layout becomes, and what is said of one that cannot become anything. */
class NewRideTest {

  private static final String LAYOUT = """
      ride "Gannet Cliff"
      resolution 10 ms
      zone platform  begins at platform_flag  released by gate_release
      zone lift      begins at foot_flag      driven by lift_run
      zone gorge     begins at top_flag
      zone brakes    begins at brake_flag     released by brake_open
      stop estop_chain within 500 ms reset reset_button
      input chain_speed m/s
      """;
  private static final String LIBRARY = """
      needs group places            -- (zone, open command, section ahead, brake)
      needs group entries
      needs gates_closed : bool     -- at the platform
      needs chain_limit  : m/s
      needs chain_speed  : m/s
      for each (zone z, signal open, signal ahead_occupied, signal closed) in places
      rule BRAKE-01-{z} "t"
        basis practice
        when falls(open)
        must closed or ahead_occupied within 1 s
      for each (zone z, signal flag) in entries
      rule FLAG-01-{z} "t"
        basis practice
        never flag and chain_speed > chain_limit and not gates_closed
      """;

  @TempDir
  private Path folder;

  @BeforeEach
  void library() throws IOException {
    Files.writeString(Files.createDirectory(folder.resolve("library")).resolve("brakes.rules"), LIBRARY);
  }

  private NewRide ride(String layout) throws IOException {
    return NewRide.of(Files.writeString(folder.resolve("a.layout"), layout), folder.resolve("ride"),
        folder.resolve("library"));
  }

  private RuleFiles written(NewRide ride) {
    ride.writeTo(folder.resolve("ride"));
    return RuleFiles.load(List.of(folder.resolve("ride").toString()), List.of(),
        Optional.of(folder.resolve("library")));
  }

  @Test
  void zonesJoinAtTheirFlagsAndTheFirstRulesHoldTheirExamples() throws IOException {
    NewRide ride = ride(LAYOUT);
    RuleFiles rules = written(ride);
    assertThat(ride.files()).containsOnlyKeys("gannet-cliff.rules", "gannet-cliff.bindings");
    assertThat(ride.files().get("gannet-cliff.rules"))
        .contains("zone brakes   enter rises(brake_flag)    leave falls(platform_flag) holds 1",
            "define platform_ahead_occupied = occupied(lift)", "define brakes_ahead_occupied   = occupied(platform)");
    assertThat(rules.book().rules()).extracting(Rule::id).containsExactly("RIDE-01-platform", "RIDE-01-lift",
        "RIDE-01-gorge", "RIDE-01-brakes", "RIDE-02-platform", "RIDE-02-brakes", "RIDE-03-gate_release",
        "RIDE-03-lift_run", "RIDE-03-brake_open");
    assertThat(rules.compilation().examples()).hasSize(2)
        .allSatisfy(example -> assertThat(ExampleCheck.difference(example, rules.book())).isEmpty());
    assertThat(ride.offered()).containsExactly("brakes.rules");
  }

  @Test
  void whatTheLibraryNeedsIsABlankUntilItIsSaidWhatItIs() throws IOException {
    NewRide blank = ride(LAYOUT + "adopt brakes.rules\n");
    assertThat(blank.blanks()).containsExactlyInAnyOrder("gates_closed", "chain_limit", "platform_closed",
        "brakes_closed");
    assertThat(blank.files().get("adopted.to-fill")).contains("? gates_closed : bool -- at the platform\n",
        "group entries = ((platform, platform_flag),\n  (lift, foot_flag),",
        "use \"../library/brakes.rules\"");
    assertThat(written(blank).book().rules()).hasSize(9);

    Files.delete(folder.resolve("ride/adopted.to-fill"));
    Files.delete(folder.resolve("ride/gannet-cliff.rules"));
    Files.delete(folder.resolve("ride/gannet-cliff.bindings"));
    NewRide whole = ride(LAYOUT + """
        input platform_closed
        adopt brakes.rules
        means
          gates_closed = not gate_release   -- an invented ride
          chain_limit = 2.5 m/s
          brakes_closed = not brake_open
        """);
    assertThat(whole.blanks()).isEmpty();
    assertThat(whole.files().get("adopted.rules")).contains(
        "define gates_closed = not gate_release  -- at the platform",
        "constant chain_limit = 2.5 m/s", "define brakes_closed = not brake_open");
    assertThat(written(whole).book().rules()).hasSize(9 + 2 + 4);
  }

  @Test
  void nothingIsWrittenOverAnythingThatIsThere() throws IOException {
    NewRide ride = ride(LAYOUT);
    Files.writeString(Files.createDirectory(folder.resolve("ride")).resolve("notes.txt"), "mine");
    assertThat(catchThrowableOfType(RunException.class, () -> ride.writeTo(folder.resolve("ride"))).getMessage())
        .endsWith("ride: is there already, and nothing is written over it; name another folder");
    assertThat(folder.resolve("ride")).isDirectoryContaining("glob:**notes.txt");
    assertThat(Files.list(folder.resolve("ride"))).hasSize(1);
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', textBlock = """
      zone lift begins at foot_flag | a.layout:1:1 | the ride has no name
      ride "x" | a.layout:1:1 | there is no zone
      ride "x"; zon lift begins at foot_flag | a.layout:2:1 | did you mean zone?
      ride "x"; zone | a.layout:2:1 | 'zone' says nothing
      ride "x"; zone lift | a.layout:2:6 | zone lift does not say where it begins
      ride "x"; zone lift begin at foot_flag | a.layout:2:11 | did you mean begins?
      ride "x"; zone lift begins at | a.layout:2:11 | 'begins' is followed by 'at' and a name
      ride "x"; zone lift begins at a holds 0 | a.layout:2:29 | '0' is no number of trains
      ride "x"; zone lift begins at a begins at b | a.layout:2:23 | 'begins' is said twice of zone lift
      ride "x"; zone lift begins at when | a.layout:2:21 | 'when' is a word of the rule language
      ride "x"; zone 2nd begins at a | a.layout:2:6 | '2nd' cannot be a name
      ride "x"; zone a begins at a | a.layout:2:18 | the name a stands for something else already, in line 2
      ride "x"; zone b begins at a; zone c begins at a | a.layout:3:18 | zone b begins at a already
      ride "x"; zone b begins at a released by a | a.layout:2:32 | a is an input of bool already
      ride "x"; zone b begins at a; stop chain 500 ms | a.layout:3:6 | the emergency stop is stated in another way
      ride "x"; zone b begins at a; adopt brake.rules | a.layout:3:7 | did you mean brakes.rules?
      ride "x"; zone b begins at a; means limit | a.layout:3:7 | an entry of 'means' says
      ride "x"; zone b begins at a; adopt brakes.rules; means chain_limt = 1 m/s | a.layout:4:7 | did you mean chain_limit?
      """)
  void everyMistakeIsToldWithItsPlace(String layout, String place, String message) {
    RunException problem = catchThrowableOfType(RunException.class, () -> ride(layout.replace("; ", "\n")));
    assertThat(problem.getMessage()).contains(place + ": error: ", message, "nothing was written");
  }
}
