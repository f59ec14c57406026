package dev.pawl.plant.ride;

import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.plant.motion.Lift;
import dev.pawl.plant.motion.Stretch;
import dev.pawl.plant.text.Clauses;
import dev.pawl.plant.text.Key;
import dev.pawl.plant.text.Word;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Reads a chain lift. */
final class LiftReader {

  private static final Dimension FORCE = new Dimension(1, 1, -2, 0, 0, 0);
  private static final List<Key> OWN = List.of(Key.quantity("ramp", Key.ACCELERATION, 0.01, 100, "1 m/s2"),
      Key.place("catch from"), Key.place("catch to"), Key.quantity("pitch", Dimension.LENGTH, 0.001, 100, "0.1 m"),
      Key.mark("locked"), Key.number("slip", 0, 0.9, "0.03"), Key.quantity("push", Key.ACCELERATION, 0.1, 1000,
          "10 m/s2"), Key.quantity("drag", FORCE, 0, 1e7, "4.8 kN"), Key.name("runs with", "SIGNAL"),
      Key.name("speed from", "SIGNAL"), Key.name("works with", "SIGNAL"),
      Key.quantity("idle", Dimension.SPEED, 0, 60, "0.3 m/s"),
      Key.quantity("working", Dimension.SPEED, 0.01, 60, "2.7 m/s"),
      Key.quantity("sprocket", Dimension.LENGTH, 0.01, 10, "0.4 m"), Key.number("gearbox", 0.01, 1000, "31.5"));

  private final TrackReader tracks;
  private final Diagnostics diagnostics;

  LiftReader(TrackReader tracks, Diagnostics diagnostics) {
    this.tracks = tracks;
    this.diagnostics = diagnostics;
  }

  Device.ChainLift read(Word name, List<Word> words) {
    List<Key> keys = new ArrayList<>(TrackReader.STRETCH);
    keys.addAll(OWN);
    Clauses clauses = Clauses.read(name, words, keys, diagnostics);
    Stretch stretch = tracks.stretch(clauses);
    boolean racked = clauses.has("catch from") || clauses.has("catch to") || clauses.has("pitch");
    Stretch rack = racked ? tracks.stretch(clauses, "catch from", "catch to") : new Stretch(stretch.track(), 0, 0);
    double pitch = racked ? clauses.number("pitch") : 0;
    Optional<Word> runs = clauses.required("runs with");
    checkSpeed(clauses);
    Lift.Data data = new Lift.Data(clauses.number("ramp"), clauses.has("locked"), clauses.number("slip", 0),
        clauses.number("push", Double.POSITIVE_INFINITY), clauses.number("drag", 0), rack, pitch);
    double motor = clauses.has("gearbox") || clauses.has("sprocket") ? clauses.number("gearbox") / clauses
        .number("sprocket") : 0;
    return new Device.ChainLift(name, stretch, data, runs.orElse(name), clauses.name("speed from"),
        clauses.name("works with"), clauses.number("idle", 0), clauses.number("working", 0), motor);
  }

  private void checkSpeed(Clauses clauses) {
    if (clauses.has("speed from") == clauses.has("working")) {
      diagnostics.error(clauses.position(), "a lift is told its speed by a signal, or has a working speed",
          "write speed from SIGNAL, or working 2.7 m/s and, where it idles, works with SIGNAL idle 0.3 m/s");
    } else if (clauses.has("works with") != clauses.has("idle")) {
      diagnostics.error(clauses.position(), "a lift that idles has a signal for its working speed, and an idle speed",
          "write works with SIGNAL idle 0.3 m/s");
    }
  }
}
