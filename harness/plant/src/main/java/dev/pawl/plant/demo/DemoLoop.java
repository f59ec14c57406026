package dev.pawl.plant.demo;

import dev.pawl.grammar.source.Source;
import dev.pawl.plant.demo.Scenario.Act;
import dev.pawl.plant.demo.Scenario.Trouble;
import dev.pawl.plant.layout.LayoutReader;
import dev.pawl.plant.layout.RideLayout;
import java.io.IOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The demo ride with any logic in place of its reference controller: what the logic commands moves the trains, and what they do is what it
 * reads next. The trial that is run is an operator's bad ten minutes, in which everything is tried that a controller must refuse.
 */
public final class DemoLoop {

  private static final long SEED = 20260517;
  private static final int LENGTH = 560;

  /** Commands that hold for a stretch of time, whatever the operator does: seconds from and to, signal, value. */
  private record Meddling(double from, double to, Tag tag, double value) {}

  private static final List<Meddling> TRIAL = List.of(
      // 150 s: a gate is opened as the buttons are pressed; 165 s: restraints are
      new Meddling(149.5, 151, Tag.GATES_CLOSED, 0),
      new Meddling(164.5, 166, Tag.RESTRAINTS_LOCKED, 0),
      // 180 s: the second hand comes 0.7 s late, 720 ms after the first
      new Meddling(179.88, 181, Tag.DISPATCH_LEFT, 1),
      new Meddling(179.88, 180.6, Tag.DISPATCH_RIGHT, 0),
      new Meddling(180.6, 181, Tag.DISPATCH_RIGHT, 1),
      new Meddling(179, 182, Tag.GATES_CLOSED, 1),
      new Meddling(179, 182, Tag.RESTRAINTS_LOCKED, 1),
      // 195 s: a dispatch in manual; back to automatic without a start
      new Meddling(190, 200, Tag.MODE, OperatingMode.MANUAL.ordinal()),
      // 215 s: too little air
      new Meddling(210, 220, Tag.BRAKE_AIR, 80),
      // 262 s: emergency stop with a train on the lift; a start while it stands, and a start and a dispatch before the reset
      new Meddling(262, 282, Tag.ESTOP_CHAIN, 0),
      // 400 s: the chain goes slack for a moment while the lift runs
      new Meddling(400, 400.2, Tag.CHAIN_HEALTHY, 0),
      // 470 s: another emergency stop, followed by a reset and, only later, a start
      new Meddling(470, 480, Tag.ESTOP_CHAIN, 0));

  /** A dispatch at 100 s comes while the train before is on the lift; those from 150 to 215 s and at 286 s meet the trial's troubles. */
  private static final List<Integer> DISPATCHES = List.of(60, 100, 150, 165, 180, 195, 215, 232, 286, 340, 440);

  private DemoLoop() {}

  /** Logic under trial. */
  public interface Logic {

    /** Runs one scan: reads inputs from the image and writes outputs to it. */
    void scan(Image image);
  }

  /** The values of all signals: 0 or 1, the index of an operating mode, or a number in the unit of the trace. */
  public interface Image {

    double value(int signal);

    void set(int signal, double value);
  }

  /** The names of the signals in the order of the image. */
  public static List<String> signals() {
    return Arrays.stream(Tag.all()).map(Tag::label).toList();
  }

  /** The demo's reference controller, as logic under trial. */
  public static Logic reference() {
    BlockController controller = new BlockController(Defects.NONE);
    return image -> controller.scan(((TagImage) image).image());
  }

  /**
   * Runs the trial and writes its trace.
   *
   * @param rideFolder the folder that holds {@code kestrel-ridge.track}
   * @return the smallest gap in metres there ever was between two trains; negative where they ran into one another
   */
  public static double trial(Path rideFolder, Logic logic, Writer out) throws IOException {
    Path file = rideFolder.resolve("kestrel-ridge.track");
    RideLayout layout = LayoutReader.read(new Source(file.toString(), Files.readString(file)));
    DemoRide ride = new DemoRide(layout, SEED);
    ScanImage image = new ScanImage();
    image.set(Tag.ESTOP_CHAIN, true);
    image.set(Tag.CHAIN_HEALTHY, true);
    Operator operator = new Operator(scenario());
    TagImage shown = new TagImage(image);
    TraceLog log = new TraceLog(out);
    double gap = Double.POSITIVE_INFINITY;
    for (int scan = 0; scan <= scans(LENGTH); scan++) {
      if (scan > 0) {
        ride.move(image);
      }
      ride.sense(image, scan);
      double air = image.value(Tag.BRAKE_AIR);
      operator.act(image, scan);
      meddle(image, scan);
      logic.scan(shown);
      log.scan(image, scan);
      image.set(Tag.BRAKE_AIR, air);
      gap = Math.min(gap, ride.smallestGap());
    }
    return gap;
  }

  private static void meddle(ScanImage image, int scan) {
    image.set(Tag.ESTOP_CHAIN, true);
    image.set(Tag.CHAIN_HEALTHY, true);
    if (scan >= scans(190)) {
      image.set(Tag.MODE, OperatingMode.AUTOMATIC.ordinal());
    }
    for (Meddling meddling : TRIAL) {
      if (scan >= scans(meddling.from()) && scan < scans(meddling.to())) {
        image.set(meddling.tag(), meddling.value());
      }
    }
  }

  private static Scenario scenario() {
    List<Act> script = new ArrayList<>();
    script.add(new Act(scans(1), Tag.MODE, OperatingMode.MANUAL.ordinal()));
    script.add(new Act(scans(4), Tag.MODE, OperatingMode.AUTOMATIC.ordinal()));
    press(script, 7, Tag.RESET_BUTTON);
    press(script, 8, Tag.LIFT_START_BUTTON);
    press(script, 204, Tag.LIFT_START_BUTTON);
    press(script, 272, Tag.LIFT_START_BUTTON);
    press(script, 284, Tag.LIFT_START_BUTTON);
    press(script, 290, Tag.RESET_BUTTON);
    press(script, 296, Tag.LIFT_START_BUTTON);
    press(script, 406, Tag.RESET_BUTTON);
    press(script, 410, Tag.LIFT_START_BUTTON);
    press(script, 486, Tag.RESET_BUTTON);
    press(script, 494, Tag.LIFT_START_BUTTON);
    return new Scenario("trial", "Everything that a controller must refuse is tried", scans(LENGTH),
        DISPATCHES.stream().map(DemoLoop::scans).toList(), script, Defects.NONE, Trouble.NONE);
  }

  private static void press(List<Act> script, double seconds, Tag button) {
    script.add(new Act(scans(seconds), button, 1));
    script.add(new Act(scans(seconds + 0.3), button, 0));
  }

  private static int scans(double seconds) {
    return (int) Math.round(seconds / BlockController.SCAN);
  }

  /** The scan image by number of signal. */
  private record TagImage(ScanImage image) implements Image {
    @Override
    public double value(int signal) {
      return image.value(Tag.all()[signal]);
    }

    @Override
    public void set(int signal, double value) {
      image.set(Tag.all()[signal], value);
    }
  }
}
