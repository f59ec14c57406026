package dev.pawl.plant.ride;

import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import dev.pawl.plant.motion.Course;
import dev.pawl.plant.motion.Stretch;
import dev.pawl.plant.text.Clauses;
import dev.pawl.plant.text.Key;
import dev.pawl.plant.text.Statement;
import dev.pawl.plant.text.Word;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Reads the circuit, the sidings and their points, and knows whether a place lies on them. */
final class TrackReader {

  /** Where equipment lies. */
  static final List<Key> STRETCH = List.of(Key.place("from"), Key.place("to"), Key.name("on", "SIDING"));

  private static final Key HEIGHT = Key.quantity("height", Dimension.LENGTH, -1000, 1000, "3 m");
  private static final double STEEPEST = 0.999;

  private final Diagnostics diagnostics;
  private final List<Track> tracks = new ArrayList<>(List.of(new Track("main", 0)));

  /** A track while it is read. */
  private static final class Track {
    final String name;
    final double at;
    double length = Double.NaN;
    final List<Double> places = new ArrayList<>();
    final List<Double> heights = new ArrayList<>();
    boolean sound = true;

    Track(String name, double at) {
      this.name = name;
      this.at = at;
    }
  }

  TrackReader(Diagnostics diagnostics) {
    this.diagnostics = diagnostics;
  }

  /** Takes a siding; returns its number. */
  int addSiding(Word name, double length, double at) {
    Track track = new Track(name.text(), at);
    track.length = length;
    tracks.add(track);
    return tracks.size() - 1;
  }

  Course read(List<Statement> statements, Position end) {
    for (Statement statement : statements) {
      if (statement.keyword().is("track")) {
        readTrack(statement);
      } else if (statement.keyword().is("point")) {
        readPoint(statement);
      }
    }
    if (Double.isNaN(tracks.get(0).length) && tracks.get(0).sound) {
      diagnostics.error(end, "this ride has no track", "add track length 540 m");
    }
    for (Track track : tracks.subList(1, tracks.size())) {
      if (track.at >= tracks.get(0).length || track.at <= 0) {
        diagnostics.error(end, "the siding '" + track.name + "' begins beyond the track",
            "its switch lies between 0 m and the track's length");
      }
    }
    checkPoints(end);
    return diagnostics.hasErrors() ? new Course(List.of(new Course.Track("main", 1, 0, new double[] {0},
        new double[] {0}))) : course();
  }

  private Course course() {
    return new Course(tracks.stream().map(track -> new Course.Track(track.name, track.length, track.at,
        track.places.stream().mapToDouble(it -> it).toArray(),
        track.heights.stream().mapToDouble(it -> it).toArray())).toList());
  }

  private void readTrack(Statement statement) {
    Track main = tracks.get(0);
    if (!Double.isNaN(main.length) || !main.sound) {
      diagnostics.error(statement.keyword().position(), "a ride has one track",
          "what leaves it at a switch is a siding");
      return;
    }
    Clauses clauses = Clauses.read(statement.keyword(), statement.words(),
        List.of(Key.quantity("length", Dimension.LENGTH, 1, 100_000, "540 m")), diagnostics);
    main.length = clauses.number("length");
    main.sound = !Double.isNaN(main.length);
  }

  /** The place stands behind the word point itself. */
  private void readPoint(Statement statement) {
    List<Word> words = new ArrayList<>(statement.words());
    words.add(0, new Word("point", false, statement.keyword().position()));
    Clauses clauses = Clauses.read(statement.keyword(), words, List.of(Key.place("point"), HEIGHT, Key.name("on",
        "SIDING")), diagnostics);
    Track track = tracks.get(on(clauses));
    double place = clauses.number("point");
    double height = clauses.number("height");
    if (Double.isNaN(place) || Double.isNaN(height)) {
      track.sound = false;
      return;
    }
    int last = track.places.size() - 1;
    if (last < 0 && place != 0 && track == tracks.get(0)) {
      diagnostics.error(statement.keyword().position(), "the first point of a track is at 0 m",
          "say how high it is there");
    } else if (last >= 0 && place <= track.places.get(last)) {
      diagnostics.error(statement.keyword().position(), "points go along the track; the one before is at "
          + track.places.get(last) + " m", "put them in their order");
    } else if (last >= 0 && Math.abs(height - track.heights.get(last)) > STEEPEST * (place
        - track.places.get(last))) {
      diagnostics.error(statement.keyword().position(), "this is higher or lower than the track is long from the "
          + "point before", "lengths are along the track, not on the map");
    }
    track.places.add(place);
    track.heights.add(height);
  }

  private void checkPoints(Position end) {
    for (Track track : tracks) {
      boolean main = track == tracks.get(0);
      int least = main ? 2 : 1;
      if (track.sound && track.places.size() < least) {
        diagnostics.error(end, main ? "a track has two points or more" : "the siding '" + track.name
            + "' has no point", main ? "add point " + (track.places.isEmpty() ? "0 m height 3 m"
                : "60 m height 5 m") : "add point 10 m height 3 m on " + track.name);
      } else if (track.sound && !track.places.isEmpty() && track.places.get(track.places.size() - 1)
          > track.length - (main ? 1e-6 : -1e-6)) {
        diagnostics.error(end, "a point of '" + track.name + "' lies beyond its end",
            main ? "the track closes on its first point by itself" : "a siding ends at its length");
      }
    }
  }

  /** The number of the track that a clause names, or the circuit. */
  int on(Clauses clauses) {
    Optional<Word> name = clauses.name("on");
    if (name.isEmpty()) {
      return 0;
    }
    List<String> sidings = tracks.subList(1, tracks.size()).stream().map(track -> track.name).toList();
    int found = sidings.indexOf(name.get().text());
    if (found < 0) {
      diagnostics.error(name.get().position(), "there is no siding '" + name.get().text() + "'",
          NearName.hint(name.get().text(), sidings).orElse("describe it: siding " + name.get().text() + " ..."));
    }
    return found + 1;
  }

  /** Whether a place lies on a track; that it does not is told. */
  boolean lies(Clauses clauses, int track, double place) {
    double length = tracks.get(track).length;
    if (place > length) {
      diagnostics.error(clauses.position(), "'" + tracks.get(track).name + "' is " + length + " m long, and this lies "
          + "beyond it", "places are metres along the track");
    }
    return place <= length;
  }

  /** Where equipment lies; on the circuit it may run on past the end of the lap. */
  Stretch stretch(Clauses clauses) {
    return stretch(clauses, "from", "to");
  }

  Stretch stretch(Clauses clauses, String begins, String ends) {
    int track = on(clauses);
    double from = clauses.number(begins);
    double to = clauses.number(ends);
    double length = tracks.get(track).length;
    if (from >= to) {
      diagnostics.error(clauses.position(), "a stretch runs forward: from " + from + " m to " + to + " m does not",
          "past the end of the lap count on: from 530 m to 550 m");
    } else if (from > length || to > (track == 0 ? from + length : length)) {
      diagnostics.error(clauses.position(), "this stretch lies beyond the " + length + " m of '"
          + tracks.get(track).name + "'", "places are metres along the track");
    }
    return new Stretch(track, from, to);
  }
}
