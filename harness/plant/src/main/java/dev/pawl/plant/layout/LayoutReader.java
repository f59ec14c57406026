package dev.pawl.plant.layout;

import dev.pawl.grammar.source.Position;
import dev.pawl.grammar.source.Source;
import dev.pawl.plant.Stretch;
import dev.pawl.plant.TrackProfile;
import dev.pawl.plant.TrainKind;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Reads a layout file: one statement a line, {@code --} starts a comment, every quantity bears its unit.
 *
 * <p>The statements are {@code track}, {@code point}, {@code train}, {@code start}, {@code brake}, {@code tyres},
 * {@code lift} and {@code flag}; each takes its words in one fixed order, as the messages say where one is missing.
 */
public final class LayoutReader {

  private final Source source;
  private double length = Double.NaN;
  private final List<Double> stations = new ArrayList<>();
  private final List<Double> heights = new ArrayList<>();
  private TrainKind trainKind;
  private final List<Double> starts = new ArrayList<>();
  private final Map<String, RideLayout.BrakePlan> brakes = new LinkedHashMap<>();
  private final Map<String, RideLayout.TyrePlan> tyres = new LinkedHashMap<>();
  private RideLayout.LiftPlan lift;
  private final Map<String, Double> flags = new LinkedHashMap<>();

  private LayoutReader(Source source) {
    this.source = source;
  }

  /**
   * Reads a whole layout.
   *
   * @throws LayoutException at the first mistake
   */
  public static RideLayout read(Source source) {
    return new LayoutReader(source).readAll();
  }

  private RideLayout readAll() {
    String[] lines = source.text().split("\n", -1);
    for (int i = 0; i < lines.length; i++) {
      StatementWords words = new StatementWords(source.name(), i + 1, lines[i]);
      if (!words.atEnd()) {
        readGuarded(words);
      }
    }
    Position end = new Position(source.name(), lines.length, 1, 1);
    require(!Double.isNaN(length), end, "there is no 'track length … m'");
    require(stations.size() >= 2, end, "a track needs two or more 'point … m height … m'");
    require(trainKind != null, end, "there is no 'train length … m mass … kg rolling … drag … m2 dog … m'");
    return new RideLayout(track(end), trainKind, List.copyOf(starts), brakes, tyres, Optional.ofNullable(lift), flags);
  }

  private TrackProfile track(Position end) {
    try {
      return new TrackProfile(length, stations.stream().mapToDouble(Double::doubleValue).toArray(),
          heights.stream().mapToDouble(Double::doubleValue).toArray());
    } catch (IllegalArgumentException wrong) {
      throw new LayoutException(end, wrong.getMessage());
    }
  }

  private void readGuarded(StatementWords words) {
    try {
      readStatement(words);
      words.finish();
    } catch (IllegalArgumentException wrong) {
      throw new LayoutException(words.position(), wrong.getMessage());
    }
  }

  private void readStatement(StatementWords words) {
    String kind = words.name("a statement");
    switch (kind) {
      case "track" -> length = words.quantity("length", "m");
      case "point" -> {
        stations.add(words.quantity("", "m"));
        heights.add(words.quantity("height", "m"));
      }
      case "train" -> trainKind = new TrainKind(words.quantity("length", "m"), words.quantity("mass", "kg"),
          words.quantity("rolling", ""), words.quantity("drag", "m2"), words.quantity("dog", "m"));
      case "start" -> starts.add(words.quantity("", "m"));
      case "flag" -> add(flags, words, words.name("a flag's name"), words.quantity("at", "m"));
      case "brake" -> add(brakes, words, words.name("a brake's name"),
          new RideLayout.BrakePlan(stretch(words), words.quantity("friction", ""), words.quantity("stroke", "s")));
      case "tyres" -> add(tyres, words, words.name("a name for the tyres"),
          new RideLayout.TyrePlan(stretch(words), words.quantity("speed", "m/s"),
              words.quantity("acceleration", "m/s2")));
      case "lift" -> lift = readLift(words);
      default -> throw new LayoutException(words.position(),
          "'" + kind + "' is no statement; expected track, point, train, start, brake, tyres, lift or flag");
    }
  }

  private static RideLayout.LiftPlan readLift(StatementWords words) {
    Stretch chain = stretch(words);
    words.word("rack");
    return new RideLayout.LiftPlan(chain, stretch(words), words.quantity("pitch", "m"), words.quantity("ramp", "m/s2"));
  }

  private static Stretch stretch(StatementWords words) {
    return new Stretch(words.quantity("from", "m"), words.quantity("to", "m"));
  }

  private static <T> void add(Map<String, T> target, StatementWords words, String name, T value) {
    require(target.put(name, value) == null, words.position(), "'" + name + "' is there twice");
  }

  private static void require(boolean holds, Position position, String message) {
    if (!holds) {
      throw new LayoutException(position, message);
    }
  }
}
