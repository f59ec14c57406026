package dev.pawl.report.html;

import dev.pawl.report.compare.FindingPair;
import dev.pawl.report.model.Picture;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/** One picture out of those of two findings, on the axis of the earlier one. */
final class PicturePair {

  private final Picture before;
  private final Picture after;
  private final long from;
  private final long to;

  private PicturePair(Picture before, Picture after) {
    this.before = before;
    this.after = after;
    this.from = Math.min(before.from(), after.from());
    this.to = Math.max(before.to(), after.to());
  }

  /** A signal that ran as before has one row, any other one for each side, the one below the other. */
  static Picture of(FindingPair pair) {
    PicturePair both = new PicturePair(pair.before().picture().orElseThrow(), moved(pair.after().picture()
        .orElseThrow(), pair.shift()));
    return new Picture(both.from, both.to, both.tracks());
  }

  private List<Picture.Track> tracks() {
    List<Picture.Track> rows = new ArrayList<>();
    for (Picture.Track track : before.tracks()) {
      Optional<Picture.Track> later = like(track, after);
      if (later.isPresent() && sameCourse(track, later.get())) {
        rows.add(joined(track, later.get()));
      } else {
        rows.add(side("before: ", track, before));
        later.ifPresent(it -> rows.add(side("after: ", it, after)));
      }
    }
    after.tracks().stream().filter(track -> like(track, before).isEmpty())
        .forEach(track -> rows.add(side("after: ", track, after)));
    return rows;
  }

  private static Optional<Picture.Track> like(Picture.Track track, Picture in) {
    return in.tracks().stream().filter(it -> it.signal().equals(track.signal())).findFirst();
  }

  /** Whether two tracks are the same as far as both pictures reach. */
  private boolean sameCourse(Picture.Track one, Picture.Track other) {
    return overlap(one).equals(overlap(other));
  }

  private SortedMap<Long, Double> overlap(Picture.Track track) {
    long begin = Math.max(before.from(), after.from());
    long end = Math.min(before.to(), after.to());
    SortedMap<Long, Double> points = new TreeMap<>();
    for (int i = 0; i < track.times().length && track.times()[i] <= end; i++) {
      points.put(Math.max(begin, track.times()[i]), track.values()[i]);
    }
    return points;
  }

  /** One track out of two with the same course, each of which may reach farther than the other. */
  private static Picture.Track joined(Picture.Track one, Picture.Track other) {
    SortedMap<Long, Double> points = new TreeMap<>();
    for (Picture.Track track : List.of(one, other)) {
      for (int i = 0; i < track.times().length; i++) {
        points.put(track.times()[i], track.values()[i]);
      }
    }
    return with(one, one.signal(), points.keySet().stream().mapToLong(it -> it).toArray(),
        points.values().stream().mapToDouble(it -> it).toArray());
  }

  private static Picture moved(Picture picture, long by) {
    return new Picture(picture.from() + by, picture.to() + by, picture.tracks().stream().map(track -> with(track, track
        .signal(), Arrays.stream(track.times()).map(time -> time + by).toArray(), track.values())).toList());
  }

  /** The row of one side. Nothing is known of its signal before its own picture begins, and after that ends. */
  private Picture.Track side(String side, Picture.Track track, Picture own) {
    boolean ends = own.to() < to;
    long[] times = Arrays.copyOf(track.times(), track.times().length + (ends ? 1 : 0));
    double[] values = Arrays.copyOf(track.values(), times.length);
    for (int i = 0; i < track.times().length; i++) {
      times[i] = Math.max(times[i], own.from());
    }
    if (ends) {
      times[times.length - 1] = own.to();
      values[times.length - 1] = Double.NaN;
    }
    return with(track, side + track.signal(), times, values);
  }

  private static Picture.Track with(Picture.Track like, String signal, long[] times, double[] values) {
    return new Picture.Track(signal, like.shape(), like.unit(), like.names(), times, values, like.bounds(), like.cut());
  }
}
