package dev.pawl.plant.ride;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.source.DiagnosticRenderer;
import dev.pawl.grammar.source.Source;
import dev.pawl.plant.SmallRide;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** RIDE.md as a newcomer follows it: every statement of a ride that it shows is one, with all that may be added to it. */
class RideGuideTest {

  private static final Pattern ROW = Pattern.compile("\\| `([^`]+)`(?: with lines `([^`]+)`)? \\|.*");

  /** The examples of the guide as one ride; what is said to stand instead of something else is left out. */
  private static String shown() throws IOException {
    StringBuilder ride = new StringBuilder();
    for (String line : Files.readAllLines(Path.of("RIDE.md"))) {
      if (line.startsWith("## Scenarios")) {
        break;
      }
      Matcher row = ROW.matcher(line);
      if (row.matches() && !row.group(1).contains("working")) {
        boolean more = row.group(1).startsWith("\u2026");
        ride.append(more ? "  " + row.group(1).substring(1).strip() : row.group(1)).append('\n');
        ride.append(row.group(2) == null ? "" : "  " + row.group(2) + "\n");
        ride.append(row.group(1).startsWith("point 26 m") ? "point 0 m height 3 m\n" : "");
      }
    }
    // The first point is the one at 0 m, which the guide says beside its example.
    return ride.toString().replace("point 26 m height 3 m\npoint 0 m height 3 m", "point 0 m height 3 m\npoint 26 m "
        + "height 3 m");
  }

  @Test
  void everyStatementThatItShowsIsOne() throws IOException {
    Source source = new Source("guide.ride", shown());
    RideLanguage.Reading reading = RideLanguage.read(source);
    assertThat(new DiagnosticRenderer(List.of(source)).render(reading.diagnostics())).isEmpty();
    assertThat(source.text().lines().count()).isGreaterThan(30);
    assertThat(reading.ride().orElseThrow().devices()).hasSizeGreaterThanOrEqualTo(6);
  }

  @Test
  void whatItShowsOfTheSmallRideFits() {
    assertThat(SmallRide.misfits(SmallRide.RIDE)).isEmpty();
  }
}
