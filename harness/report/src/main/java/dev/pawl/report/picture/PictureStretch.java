package dev.pawl.report.picture;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.rules.model.Zone;
import dev.pawl.report.model.Picture;
import dev.pawl.report.words.ValueText;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/** A stretch of time being recorded for one picture. Memory is bounded by {@link #MOST_POINTS} per track. */
final class PictureStretch {

  /** More changes than this on one signal cannot be told apart on paper. */
  static final int MOST_POINTS = 500;

  private final long from;
  private final long to;
  private final List<Signal> signals;
  private final List<double[]> bounds;
  private final List<Zone> zones;
  private final int[] trackOfSignal;
  private final long[][] times;
  private final long[][] values;
  private final int[] sizes;
  private final boolean[] cut;
  private final boolean isWide;
  /** Of each track how far apart its points have to be, nanoseconds; 0 where all are kept. */
  private final long[] thinned;

  /**
   * A window with nothing recorded.
   *
   * @param signals what is drawn, in that order
   * @param bounds per signal the numbers, in SI, that it is compared with
   * @param zones whose occupancy is drawn below the signals, in that order
   * @param signalCount number of signals of the rule book
   * @param isWide whether a number that changes too often is thinned out rather than cut
   */
  PictureStretch(long from, long to, List<Signal> signals, List<double[]> bounds, List<Zone> zones, int signalCount,
      boolean isWide) {
    this.isWide = isWide;
    this.from = from;
    this.to = to;
    this.signals = signals;
    this.bounds = bounds;
    this.zones = zones;
    this.trackOfSignal = new int[signalCount];
    Arrays.fill(trackOfSignal, -1);
    for (int track = 0; track < signals.size(); track++) {
      trackOfSignal[signals.get(track).index()] = track;
    }
    int tracks = signals.size() + zones.size();
    this.times = new long[tracks][16];
    this.values = new long[tracks][16];
    this.sizes = new int[tracks];
    this.cut = new boolean[tracks];
    this.thinned = new long[tracks];
  }

  long from() {
    return from;
  }

  long to() {
    return to;
  }

  /** The same signals and zones over another stretch of time. */
  PictureStretch widened(long otherFrom, long otherTo) {
    return new PictureStretch(otherFrom, otherTo, signals, bounds, zones, trackOfSignal.length, true);
  }

  List<Signal> signals() {
    return signals;
  }

  List<Zone> zones() {
    return zones;
  }

  void add(long time, int signal, long value) {
    if (trackOfSignal[signal] >= 0) {
      append(trackOfSignal[signal], time, value);
    }
  }

  /** Whether a zone, by its index, is occupied from a time on; nothing where it is not drawn. */
  void addOccupancy(long time, int zone, long value) {
    for (int i = 0; i < zones.size(); i++) {
      if (zones.get(i).index() == zone) {
        append(signals.size() + i, time, value);
      }
    }
  }

  private void append(int track, long time, long value) {
    int size = sizes[track];
    if (size > 0 && values[track][size - 1] == value) {
      return;
    }
    if (thinned[track] > 0 && time - times[track][size - 1] < thinned[track]) {
      return;
    }
    if (size == MOST_POINTS) {
      if (!isWide || track >= signals.size() || !signals.get(track).type().isNumber()) {
        cut[track] = true;
        return;
      }
      size = thin(track);
    }
    if (size == times[track].length) {
      times[track] = Arrays.copyOf(times[track], size * 2);
      values[track] = Arrays.copyOf(values[track], size * 2);
    }
    times[track][size] = time;
    values[track][size] = value;
    sizes[track]++;
  }

  /** Every other point of a number goes, and from now on there are none closer than what is left: its shape stays. */
  private int thin(int track) {
    int kept = 0;
    for (int i = 0; i < sizes[track]; i += 2) {
      times[track][kept] = times[track][i];
      values[track][kept++] = values[track][i];
    }
    thinned[track] = Math.max(1, (times[track][kept - 1] - times[track][0]) / kept);
    sizes[track] = kept;
    return kept;
  }

  Picture picture() {
    return picture(Optional.empty());
  }

  Picture picture(Optional<Picture> wide) {
    List<Picture.Track> tracks = new ArrayList<>();
    for (int track = 0; track < signals.size(); track++) {
      tracks.add(track(track));
    }
    for (int zone = 0; zone < zones.size(); zone++) {
      tracks.add(occupancy(signals.size() + zone, "occupied(" + zones.get(zone).name() + ")"));
    }
    return new Picture(from, to, tracks, wide);
  }

  private Picture.Track occupancy(int track, String name) {
    double[] shown = Arrays.stream(values[track], 0, sizes[track])
        .mapToDouble(value -> shown(new ValueType.Bool(), value))
        .toArray();
    return new Picture.Track(name, Picture.Shape.SWITCH, "", List.of(), Arrays.copyOf(times[track], sizes[track]),
        shown,
        new double[0], cut[track]);
  }

  private Picture.Track track(int track) {
    Signal signal = signals.get(track);
    double[] shown = new double[sizes[track]];
    for (int i = 0; i < shown.length; i++) {
      shown[i] = shown(signal.type(), values[track][i]);
    }
    long[] kept = Arrays.copyOf(times[track], sizes[track]);
    return signal.type().match(
        bool -> new Picture.Track(signal.name(), Picture.Shape.SWITCH, "", List.of(), kept, shown, new double[0],
            cut[track]),
        enumeration -> new Picture.Track(signal.name(), Picture.Shape.NAMES, "", enumeration.names(), kept, shown,
            new double[0], cut[track]),
        quantity -> new Picture.Track(signal.name(), Picture.Shape.NUMBER, quantity.unit(), List.of(), kept, shown,
            Arrays.stream(bounds.get(track)).map(bound -> ValueText.written(quantity, bound)).toArray(), cut[track]));
  }

  private static double shown(ValueType type, long value) {
    if (value == EventSink.UNKNOWN) {
      return Double.NaN;
    }
    return type instanceof ValueType.Quantity quantity ? ValueText.written(quantity, Double.longBitsToDouble(value))
        : value;
  }
}
