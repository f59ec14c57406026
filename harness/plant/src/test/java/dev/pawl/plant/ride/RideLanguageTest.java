package dev.pawl.plant.ride;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.source.Source;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class RideLanguageTest {

  private static final String GOOD = """
      ride "Small"
      track length 100 m -- a comment
      point 0 m height 1 m
      point 50 m height 3.5 m
      siding shed at 60 m length 40 m thrown by shed_switch
      point 40 m height 3 m on shed
      cars four length 10 m mass 1000 kg rolling 0.01 drag 2 m2
      train one of four at 20 m
      """;

  private static List<String> problems(String text) {
    return RideLanguage.read(new Source("small.ride", text)).diagnostics().stream()
        .map(it -> it.position() + ": " + it.message() + " (" + it.hint() + ")").toList();
  }

  private static Ride read(String text) {
    assertThat(problems(text)).isEmpty();
    return RideLanguage.read(new Source("small.ride", text)).ride().orElseThrow();
  }

  @Test
  void readsWhatIsThere() {
    Ride ride = read(GOOD + """
        brake end from 90 m to 104 m stroke 500 ms friction 0.3 opens with end_open
        lift hill from 1 ft to 10 m ramp 1 m/s2 runs with up working 2 m/s sprocket 0.5 m gearbox 20
        flag gate at 7m filter 20 ms
        flag in_shed at 3 m on shed
        """);
    assertThat(ride.name()).isEqualTo("Small");
    assertThat(ride.course().height(0, 25)).isEqualTo(2.25);
    assertThat(ride.course().height(1, 20)).isBetween(3.0, 3.01);
    assertThat(ride.trains()).singleElement().satisfies(train -> assertThat(train.nose()).isEqualTo(20));
    assertThat(ride.flags().get(0).filter()).isEqualTo(0.02);
    assertThat(ride.flags().get(1).track()).isEqualTo(ride.siding("shed")).isEqualTo(1);
    assertThat(ride.devices()).filteredOn(Device.ChainLift.class::isInstance).singleElement()
        .satisfies(it -> assertThat(((Device.ChainLift) it).speedOfMotor()).isEqualTo(40));
    assertThat(ride.devices()).filteredOn(Device.FrictionBrake.class::isInstance).singleElement()
        .satisfies(it -> assertThat(((Device.FrictionBrake) it).actuator().stroke()).isEqualTo(0.5));
  }

  /** The one wrong line is line 9 each time. */
  @ParameterizedTest
  @CsvSource(delimiter = '|', quoteCharacter = '`', value = {
      "flag gate at 7 kg | 9:14: 'at 7 kg' is of another kind of quantity (write at 12 m)",
      "flag gate at 7 mm/m/kx | 9:16: 'mm/m/kx' is no unit (write at 12 m)",
      "flag gate at seven m | 9:14: 'seven' is no number (write at 12 m)",
      "flag gate at -7 m | 9:14: 'at' has to be from 0 to 100000 m (write at 12 m)",
      "flag gate at 7 | 9:15: the unit is missing (write at 12 m)",
      "flag gate at | 9:13: something is missing behind 'at' (write at 12 m)",
      "flag gate | 9:6: 'gate' lacks its 'at' (add at 12 m)",
      "flag gate at 7 m m | 9:18: 'm' says nothing about 'gate' (it can have: at, delay, filter, on)",
      "flag gate at 7 m fliter 1 ms | 9:18: 'fliter' says nothing about 'gate' (did you mean filter?)",
      "flag gate at 7 m at 8 m | 9:18: 'at' is said twice of 'gate' (keep one)",
      "flag gate at 107 m | 9:6: 'main' is 100.0 m long, and this lies beyond it (places are metres along the track)",
      "flag gate at 7 m on shde | 9:21: there is no siding 'shde' (did you mean shed?)",
      "link bus | 9:6: a link says which signals it carries (write link bus carries SIGNAL SIGNAL ...)",
      "flags gate at 7 m | 9:1: 'flags' begins no statement of a ride (did you mean flag?)",
      "flag 7 | 9:6: here stands the flag's signal (write a name, such as flag north ...)",
      "brake b from 9 m to 4 m friction 0.3 opens with s | 9:7: a stretch runs forward: from 9.0 m to 4.0 m does not "
          + "(past the end of the lap count on: from 530 m to 550 m)",
      "brake b from 9 m to 14 m friction 0.3 | 9:7: a brake is opened by one signal or closed by one (write opens with"
          + " SIGNAL or closes with SIGNAL)",
      "point 40 m height 2 m | 9:1: points go along the track; the one before is at 50.0 m (put them in their order)",
      "point 60 m height 20 m | 9:1: this is higher or lower than the track is long from the point before (lengths are "
          + "along the track, not on the map)",
      "train two of fuor at 40 m | 9:14: there are no cars 'fuor' (did you mean four?)",
      "train two of four at 25 m | 9:7: 'two' stands in 'one' (a train reaches from its nose back by its length)",
      "train one of four at 45 m | 9:7: 'one' is the name of something else already (it stands in line 8; choose "
          + "another)",
      "sensor s shows speed of hill | 9:25: there is no equipment 'hill' (describe it in this file)",
      "sensor s shows sped of shed | 9:16: there is no 'sped' to show (did you mean speed?)",
      "sensor s shows speed of shed | 9:25: 'shed' has no speed to show (name equipment of another kind, or show "
          + "something else of it)",
      "lift l from 1 m to 9 m ramp 1 m/s2 runs with r | 9:6: a lift is told its speed by a signal, or has a working "
          + "speed (write speed from SIGNAL, or working 2.7 m/s and, where it idles, works with SIGNAL idle 0.3 m/s)",
      "`  nonsense` | 9:3: 'nonsense' says nothing about 'one' (it can have: at, of, on)",
      "ride Small | 9:1: a ride has one name, in double quotes (write ride \"My ride\")"})
  void saysWhereAndWhatIsWrong(String line, String problem) {
    List<String> problems = problems(GOOD + line + "\n");
    assertThat(problems).containsExactly("small.ride:" + problem);
  }

  @Test
  void tellsEveryMistakeAndTwoOfAKindTwice() {
    assertThat(problems(GOOD + "flag a at 7 ft at 3 m\nflag b at 7 kg\nflag b at 9 m\nbrake c from 1 m\n"))
        .extracting(it -> it.substring(0, it.indexOf(": "))).containsExactly("small.ride:9:16", "small.ride:10:11",
            "small.ride:11:6", "small.ride:12:7", "small.ride:12:7", "small.ride:12:7");
  }

  @Test
  void saysWhatIsMissing() {
    assertThat(problems("")).containsExactly("small.ride:1:1: this ride has no track (add track length 540 m)",
        "small.ride:1:1: a track has two points or more (add point 0 m height 3 m)");
    assertThat(problems(GOOD.replaceAll("(?m)^train.*\n", ""))).containsExactly(
        "small.ride:8:1: this ride has no train (add train NAME of CARS at 20 m)");
  }

  static Stream<Path> files() throws IOException {
    List<Path> files = new ArrayList<>();
    try (Stream<Path> all = Files.walk(Path.of("..", "..", "fixtures"), 3)) {
      all.filter(it -> it.toString().endsWith(".ride")).forEach(files::add);
    }
    return files.stream();
  }

  /** What is cut off or scrambled is told of, and never throws. */
  @ParameterizedTest
  @MethodSource("files")
  void survivesEveryCutAndEveryLostLine(Path file) throws IOException {
    String text = Files.readString(file);
    assertThat(problems(text)).isEmpty();
    for (int cut = 0; cut < text.length(); cut += 7) {
      RideLanguage.read(new Source("cut.ride", text.substring(0, cut)));
      RideLanguage.read(new Source("cut.ride", text.substring(0, cut) + "\u00a7 9 " + text.substring(cut)));
    }
  }
}
