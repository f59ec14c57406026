package dev.pawl.plant.loop;

import dev.pawl.plant.motion.Plant;
import dev.pawl.plant.motion.Train;
import java.util.ArrayList;
import java.util.List;

/** Where trains were on the circuit, for a picture: so many points that lines between them are nowhere far off. */
public final class TrainPaths {

  /** Metres by which a line may be off. */
  private static final double OFF = 0.5;

  private final Plant plant;
  private final Pen[] pens;
  private final List<Path> paths = new ArrayList<>();

  /**
   * A train on the circuit, from when it came there until it left it.
   *
   * @param points in order of time
   */
  public record Path(String train, List<Point> points) {}

  /** Seconds since the start, and metres along the circuit, counting laps. */
  public record Point(double seconds, double place) {}

  /** A part of the circuit that rules call a zone, in metres; one that runs over the end of the lap counts on. */
  public record Zone(String name, double from, double to) {}

  /** What has been drawn of one train. */
  private static final class Pen {
    List<Point> points;
    Point last;
    double least;
    double most;
  }

  TrainPaths(Plant plant) {
    this.plant = plant;
    pens = new Pen[plant.trains().size()];
  }

  /** Looks where all trains are. */
  void look(double time) {
    for (Train train : plant.trains()) {
      int index = train.index();
      if (train.track() != 0) {
        lift(index);
      } else if (pens[index] == null) {
        pens[index] = new Pen();
        pens[index].points = new ArrayList<>();
        paths.add(new Path(train.name(), pens[index].points));
        keep(pens[index], new Point(time, train.nose(time)));
      } else {
        draw(pens[index], new Point(time, train.nose(time)));
      }
    }
  }

  private static void keep(Pen pen, Point point) {
    pen.points.add(point);
    pen.last = point;
    pen.least = Double.NEGATIVE_INFINITY;
    pen.most = Double.POSITIVE_INFINITY;
  }

  /** Goes on as long as one line from the point kept last comes near all points since. */
  private static void draw(Pen pen, Point point) {
    Point from = pen.points.get(pen.points.size() - 1);
    if (!fits(pen, from, point)) {
      keep(pen, pen.last);
      from = pen.last;
    }
    double span = point.seconds - from.seconds;
    pen.least = Math.max(pen.least, (point.place - OFF - from.place) / span);
    pen.most = Math.min(pen.most, (point.place + OFF - from.place) / span);
    pen.last = point;
  }

  private static boolean fits(Pen pen, Point from, Point point) {
    double slope = (point.place - from.place) / (point.seconds - from.seconds);
    return slope >= pen.least && slope <= pen.most;
  }

  private void lift(int index) {
    if (pens[index] != null) {
      if (pens[index].points.get(pens[index].points.size() - 1) != pens[index].last) {
        pens[index].points.add(pens[index].last);
      }
      pens[index] = null;
    }
  }

  /** All paths, each up to where its train was seen last. */
  public List<Path> paths() {
    for (int index = 0; index < pens.length; index++) {
      lift(index);
    }
    return List.copyOf(paths);
  }
}
