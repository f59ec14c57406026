package dev.pawl.report.words;

import dev.pawl.report.model.Picture;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** What changed next in a picture, for whoever reads it aloud or does not see it. */
public final class EdgeWords {

  private static final int MOST = 6;

  private EdgeWords() {}

  private record Edge(long time, String signal, String value) {}

  /** The changes after an instant, the first first, such as {@code 250 ms later lift_run became false}. */
  public static List<String> after(Picture picture, long instant) {
    List<Edge> edges = new ArrayList<>();
    for (Picture.Track track : picture.tracks()) {
      for (int i = 1; i < track.times().length; i++) {
        if (track.times()[i] > instant && track.times()[i] <= picture.to()) {
          edges.add(new Edge(track.times()[i], track.signal(), value(track, track.values()[i])));
          if (track.shape() == Picture.Shape.NUMBER) {
            break; // A number moves all the time: its first change says that it does.
          }
        }
      }
    }
    edges.sort(Comparator.comparingLong(Edge::time));
    return edges.stream().limit(MOST).map(edge -> TimeText.duration(edge.time() - instant) + " later " + edge.signal()
        + " became " + edge.value()).toList();
  }

  private static String value(Picture.Track track, double value) {
    if (Double.isNaN(value)) {
      return "unknown";
    }
    return switch (track.shape()) {
      case SWITCH -> value == 0 ? "false" : "true";
      case NAMES -> (int) value < track.names().size() ? track.names().get((int) value) : "member " + (int) value;
      case NUMBER -> ValueText.withUnit(value, track.unit());
    };
  }
}
