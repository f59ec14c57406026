package dev.pawl.demo;

import dev.pawl.grammar.source.Source;
import dev.pawl.plant.layout.LayoutReader;
import dev.pawl.plant.layout.RideLayout;
import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/** The maker of the demo's traces: each scenario run through, scan by scan, and logged as a site would log it. */
public final class DemoTraces {

  /** Scans between looks at the gaps between trains; none moves more than 3 m in that time. */
  private static final int GAP_EVERY = 10;
  private static final String LAYOUT = "kestrel-ridge.track";

  private DemoTraces() {}

  /**
   * A trace that was written.
   *
   * @param name its scenario's name, which is also the file's without extension
   * @param title what happens in it
   * @param file where it is
   */
  public record DemoTrace(String name, String title, Path file) {}

  /**
   * Writes every scenario's trace, about 4 MB in all, over what is there.
   *
   * @param rideFolder the folder that holds {@code kestrel-ridge.track}
   * @param outFolder where the traces go; made if it is not there
   * @return the traces, the ordinary one first
   * @throws IOException where a file cannot be read or written
   * @throws dev.pawl.plant.layout.LayoutException where the layout has a mistake
   */
  public static List<DemoTrace> write(Path rideFolder, Path outFolder) throws IOException {
    return write(Scenarios.all(), rideFolder, outFolder);
  }

  /**
   * Writes the traces of half hours that are drawn at random, the same each time.
   *
   * @param count how many; on each of five something else is wrong, and on the first nothing
   * @throws IOException where a file cannot be read or written
   * @throws dev.pawl.plant.layout.LayoutException where the layout has a mistake
   */
  public static List<DemoTrace> writeDrawn(int count, Path rideFolder, Path outFolder) throws IOException {
    return write(IntStream.rangeClosed(1, count).mapToObj(DrawnDays::day).toList(), rideFolder, outFolder);
  }

  private static List<DemoTrace> write(List<Scenario> scenarios, Path rideFolder, Path outFolder) throws IOException {
    RideLayout layout = layout(rideFolder);
    Files.createDirectories(outFolder);
    List<DemoTrace> traces = new ArrayList<>();
    for (Scenario scenario : scenarios) {
      Path trace = outFolder.resolve(scenario.name() + ".csv");
      try (Writer out = Files.newBufferedWriter(trace, StandardCharsets.UTF_8)) {
        run(scenario, layout, out);
      }
      traces.add(new DemoTrace(scenario.name(), scenario.title(), trace));
    }
    return traces;
  }

  /** The layout of the demo ride. */
  static RideLayout layout(Path rideFolder) throws IOException {
    Path file = rideFolder.resolve(LAYOUT);
    return LayoutReader.read(new Source(file.toString(), Files.readString(file)));
  }

  /** Runs a scenario; returns the smallest gap in metres there ever was between two trains. */
  static double run(Scenario scenario, RideLayout layout, Writer out) throws IOException {
    RideDay day = new RideDay(scenario, layout);
    BlockController controller = new BlockController(scenario.defects());
    TraceLog log = new TraceLog(out);
    double gap = Double.POSITIVE_INFINITY;
    for (int scan = 0; scan <= scenario.scans(); scan++) {
      day.move(scan);
      controller.scan(day.image());
      log.scan(day.image(), scan);
      if (scan % GAP_EVERY == 0) {
        gap = Math.min(gap, day.smallestGap());
      }
    }
    return gap;
  }
}
