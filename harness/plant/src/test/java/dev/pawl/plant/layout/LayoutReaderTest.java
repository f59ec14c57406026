package dev.pawl.plant.layout;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.pawl.grammar.source.Source;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LayoutReaderTest {

  private static final String GOOD = """
      track length 100 m -- a comment
      point 0 m height 1 m
      point 50 m height 3.5 m
      train length 10 m mass 1000 kg rolling 0.01 drag 2 m2 dog 5 m
      start 20 m
      """;

  @Test
  void readsWhatIsThere() {
    RideLayout layout = read(GOOD + "flag gate at 7 m\nbrake b from 90 m to 104 m friction 0.3 stroke 0.5 s\n");
    assertThat(layout.track().height(25)).isEqualTo(2.25);
    assertThat(layout.flags()).containsEntry("gate", 7.0);
    assertThat(layout.brakes().get("b").stretch().contains(2, 100)).isTrue();
    assertThat(layout.lift()).isEmpty();
    assertThat(layout.build().plant().trains()).hasSize(1);
  }

  /** Line 6 is the wrong one each time. */
  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "flag gate at 7 ft          | ride.track:6:16: expected 'm', found 'ft'",
      "flag gate at seven m       | ride.track:6:14: expected a number, found 'seven'",
      "flag gate at NaN m         | ride.track:6:14: expected a number, found 'NaN'",
      "flag gate                  | ride.track:6:10: expected 'at', found the end of the line",
      "flag gate at 7 m m         | ride.track:6:18: nothing more was expected on this line, found 'm'",
      "flags gate at 7 m          | ride.track:6:1: 'flags' is no statement; expected track, point, train, start, "
          + "brake, tyres, lift or flag",
      "brake b from 9 m to 4 m friction 0.3 stroke 1 s | ride.track:6:23: a stretch must run forward: from 9.0 m to "
          + "4.0 m does not",
      "point 40 m height 2 m      | ride.track:7:1: track points must rise along the track: 40.0 m does not",
      "train length 0 m mass 1 kg rolling 0 drag 0 m2 dog 0 m | "
          + "ride.track:6:54: a train needs a positive length and mass, and its dog between nose and tail"})
  void saysWhereAndWhatIsWrong(String line, String message) {
    assertThatThrownBy(() -> read(GOOD + line.strip() + "\n")).isInstanceOf(LayoutException.class)
        .hasMessage(message.strip());
  }

  @Test
  void saysWhatIsMissing() {
    assertThatThrownBy(() -> read("")).hasMessage("ride.track:1:1: there is no 'track length … m'");
    assertThatThrownBy(() -> read(GOOD.replaceAll("(?m)^train.*$", "")))
        .hasMessage("ride.track:6:1: there is no 'train length … m mass … kg rolling … drag … m2 dog … m'");
  }

  @Test
  void refusesANameTwice() {
    assertThatThrownBy(() -> read(GOOD + "flag gate at 7 m\nflag gate at 8 m\n"))
        .hasMessageStartingWith("ride.track:7:").hasMessageEndingWith("'gate' is there twice");
  }

  private static RideLayout read(String text) {
    return LayoutReader.read(new Source("ride.track", text));
  }
}
