package dev.pawl.run.ride;

import dev.pawl.grammar.source.Position;
import dev.pawl.trace.bindings.Token;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A ride as a person describes it: its zones in the order of the track, and what stops a train in each.
 *
 * @param ride its name
 * @param resolution how far a logged time can be off, as written; empty where it is not stated
 * @param places its zones in order
 * @param stop its emergency stop
 * @param signals what else it has, with their types as written, by name
 * @param adopted files of the rule library
 * @param meanings what names of the library mean on this ride, as written, by name
 */
record Layout(String ride, String resolution, List<Place> places, Optional<Stop> stop, Map<String, Declared> signals,
    List<Token> adopted, Map<String, Meaning> meanings) {

  /**
   * A zone.
   *
   * @param flag at which a train enters it
   * @param end the flag at which it ends, where that is not the one of the zone behind it
   * @param released the output that lets a train go from it; true lets go
   * @param driven the output that drives a train through it
   * @param holds how many trains may be in it
   * @param starts how many are in it when a log begins, where that is stated
   */
  record Place(Token zone, String flag, Optional<String> end, Optional<String> released, Optional<String> driven,
      int holds, Optional<Integer> starts) {

    String name() {
      return zone.text();
    }

    /** Whether a train can be held in it. */
    boolean stops() {
      return released.isPresent() || driven.isPresent();
    }
  }

  /**
   * The emergency stop.
   *
   * @param circuit true while it is healthy
   * @param limit within what time it stops what drives and releases, as written
   * @param reset the button that ends it
   */
  record Stop(String circuit, String limit, String reset) {}

  /** A signal: which way it runs, and its type as written. */
  record Declared(boolean output, String type) {}

  /** The text after the name, and where it stands. */
  record Meaning(String text, Position position) {}

  /** The flag at which a zone ends. */
  String end(int place) {
    return places.get(place).end().orElse(places.get((place + 1) % places.size()).flag());
  }

  /** The zones behind one, up to and with the next in which a train can be held. */
  List<String> ahead(int place) {
    List<String> ahead = new ArrayList<>();
    for (int next = (place + 1) % places.size(); next != place; next = (next + 1) % places.size()) {
      ahead.add(places.get(next).name());
      if (places.get(next).stops()) {
        break;
      }
    }
    return ahead;
  }

  /** The zones from which a train is released. */
  List<Integer> releasing() {
    List<Integer> releasing = new ArrayList<>();
    for (int place = 0; place < places.size(); place++) {
      if (places.get(place).released().isPresent() && !ahead(place).isEmpty()) {
        releasing.add(place);
      }
    }
    return releasing;
  }
}
