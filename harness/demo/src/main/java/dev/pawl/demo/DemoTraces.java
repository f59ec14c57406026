package dev.pawl.demo;

import dev.pawl.plant.loop.RideMotion;
import dev.pawl.plant.scenario.Scenario;
import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** The maker of the demo's traces: each scenario run through, scan by scan, and logged as a site would log it. */
public final class DemoTraces {

  /** Scans between looks at the gaps between trains; none moves more than 3 m in that time. */
  private static final int GAP_EVERY = 10;
  private static final int STOP_DELAY = 74;

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
   * @param rideFolder the folder that holds {@code kestrel-ridge.ride}
   * @param outFolder where the traces go; made if it is not there
   * @return the traces, the ordinary one first
   * @throws IOException where a file cannot be read or written, or has a mistake
   */
  public static List<DemoTrace> write(Path rideFolder, Path outFolder) throws IOException {
    DemoRide ride = DemoRide.open(rideFolder);
    List<DemoTrace> traces = new ArrayList<>();
    for (String name : DemoRide.RECORDED) {
      traces.add(write(ride, ride.scenario(name), defects(name), outFolder));
    }
    return traces;
  }

  /**
   * Writes the traces of half hours that are drawn at random, the same each time.
   *
   * @param count how many; on each of five something else is wrong, and on the first nothing
   * @throws IOException where a file cannot be read or written
   */
  public static List<DemoTrace> writeDrawn(int count, Path rideFolder, Path outFolder) throws IOException {
    DemoRide ride = DemoRide.open(rideFolder);
    List<DemoTrace> traces = new ArrayList<>();
    for (int number = 1; number <= count; number++) {
      DrawnDays.Day day = DrawnDays.day(number);
      traces.add(write(ride, ride.scenario(day.name(), day.text()), day.defects(), outFolder));
    }
    return traces;
  }

  private static DemoTrace write(DemoRide ride, Scenario scenario, Defects defects, Path folder) throws IOException {
    Files.createDirectories(folder);
    Path trace = folder.resolve(scenario.name() + ".csv");
    try (Writer out = Files.newBufferedWriter(trace, StandardCharsets.UTF_8)) {
      run(ride, scenario, defects, out);
    }
    return new DemoTrace(scenario.name(), scenario.title(), trace);
  }

  /** What is wrong with the controller of a scenario. */
  private static Defects defects(String scenario) {
    return switch (scenario) {
      case "lost-idle-timer" -> new Defects(true, false, 0);
      case "occupied-dispatch" -> new Defects(false, true, 0);
      case "late-drive-stop" -> new Defects(false, false, STOP_DELAY);
      default -> Defects.NONE;
    };
  }

  /** Runs a scenario; returns the smallest gap in metres there ever was between two trains. */
  static double run(DemoRide ride, Scenario scenario, Writer out) throws IOException {
    return run(ride, scenario, defects(scenario.name()), out);
  }

  private static double run(DemoRide ride, Scenario scenario, Defects defects, Writer out) throws IOException {
    RideMotion motion = ride.motion(scenario);
    ScanImage image = new ScanImage(motion, ride.book());
    BlockController controller = new BlockController(defects);
    TraceLog log = new TraceLog(out);
    double gap = Double.POSITIVE_INFINITY;
    long scans = Math.round(scenario.lasts() / BlockController.SCAN);
    for (int scan = 0; scan <= scans; scan++) {
      motion.move(scan);
      controller.scan(image);
      log.scan(image, scan);
      if (scan % GAP_EVERY == 0) {
        gap = Math.min(gap, motion.smallestGap());
      }
    }
    return gap;
  }
}
