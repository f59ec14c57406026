package dev.pawl.report.html;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.report.model.Reading;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.model.TrainPaths;
import dev.pawl.report.model.Truth;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Trains on a circuit of 100 m over 100 s: the plot is 800 wide from 118 on, and 300 high. */
class PathDiagramTest {

  private static final long SECOND = 1_000_000_000L;

  private static TrainPaths.Point at(long seconds, double place) {
    return new TrainPaths.Point(seconds * SECOND, place);
  }

  private static String drawn(List<TrainPaths.Path> paths, List<TrainPaths.Done> done,
      List<Truth.Happening> happenings) {
    Truth truth = new Truth(happenings, happenings.size(), Optional.of(new TrainPaths(100, List.of(
        new TrainPaths.Zone("station", 90, 110), new TrainPaths.Zone("lift", 10, 50)), paths, done)));
    TraceResult trace = new TraceResult("run", TimeBase.START, 0, 100 * SECOND, 1, 1, 0, false, Reading.CLEAN,
        List.of(), List.of()).withTruth(truth);
    Markup html = new Markup();
    new PathDiagram(html, trace, truth, truth.paths().orElseThrow()).write();
    return html.take();
  }

  /** From 50 m at rest, then 100 m in 50 s: over the end of the lap after 75 s. */
  @Test
  void aLineGoesOnAtTheOtherEndWhereALapEnds() {
    assertThat(drawn(List.of(new TrainPaths.Path("red", List.of(at(0, 50), at(50, 50), at(100, 150)))), List.of(),
        List.of())).contains("d=\"M118.0 154.0L518.0 154.0L718.0 4.0M718.0 304.0L918.0 154.0\"");
  }

  @Test
  void trainsDifferByTheirDashesAndAZoneOverTheEndLiesAtBoth() {
    String svg = drawn(List.of(new TrainPaths.Path("red", List.of(at(0, 20), at(100, 20))), new TrainPaths.Path("green",
        List.of(at(0, 60), at(100, 60)))), List.of(), List.of());
    assertThat(svg).contains("stroke-dasharray=\"none\"", "stroke-dasharray=\"9 4\"", ">red<", ">green<");
    assertThat(svg.split("class=\"ground\"", -1)).as("the station's two ends").hasSize(3);
    assertThat(svg.split("class=\"ground bare\"", -1)).hasSize(2);
  }

  /** A fault, two acts too near for their numbers, and a hazard: each kind has its lane, and the list says them all. */
  @Test
  void whatFailedAndHappenedIsMarkedAndListed() {
    String svg = drawn(List.of(new TrainPaths.Path("red", List.of(at(0, 20), at(100, 20)))), List.of(
        new TrainPaths.Done(10 * SECOND, "press reset", false), new TrainPaths.Done(12 * SECOND, "press start", false),
        new TrainPaths.Done(40 * SECOND, "fault <lift> parted", true)), List.of(new Truth.Happening(Truth.Kind.CONTACT,
            60 * SECOND, "trains touched", true, false)));
    assertThat(svg).contains("mark fault", "mark hand", "mark truth", ">2\u20133<", "fault &lt;lift&gt; parted",
        "<b>happened</b> at 60.000 s: trains touched").doesNotContain("mark rule", "<lift>");
  }

  @Test
  void aRunWithoutTrainsOnTheCircuitHasNoPicture() {
    assertThat(drawn(List.of(), List.of(), List.of())).isEmpty();
  }
}
