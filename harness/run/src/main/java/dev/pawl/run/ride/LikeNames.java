package dev.pawl.run.ride;

import dev.pawl.grammar.source.NearName;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/** How much a tag's name is like a signal's: by the words that names are made of, and by what sites write for them. */
final class LikeNames {

  /** Words that stand for the same thing on a ride; common practice, no source. */
  private static final List<Set<String>> ALIKE = List.of(
      Set.of("estop", "es", "emergency", "emstop", "notaus", "nothalt"),
      Set.of("flag", "prox", "sensor", "ini", "ls", "pe"),
      Set.of("run", "motor", "drive", "enable", "mot", "on"), Set.of("release", "open", "dispatch", "rel", "unlock"),
      Set.of("reset", "ack", "quit", "rst"), Set.of("speed", "spd", "velocity", "v"),
      Set.of("current", "amps", "amp", "i"), Set.of("base", "foot", "bottom"), Set.of("crest", "top", "peak"),
      Set.of("brake", "brk", "brakes"), Set.of("button", "btn", "pb"), Set.of("platform", "station", "load"),
      Set.of("chain", "circuit", "ok", "healthy", "loop"), Set.of("stop", "halt"), Set.of("gate", "gates"));

  private LikeNames() {}

  /** From 0 for nothing in common to 1 for all words of the signal found in the tag. */
  static double likeness(String signal, String tag) {
    List<String> sought = words(signal);
    List<String> there = words(tag);
    double sum = 0;
    for (String word : sought) {
      sum += there.stream().mapToDouble(other -> likeness(word, other, sought.size())).max().orElse(0);
    }
    double covered = sum / Math.max(1, sought.size());
    return covered * (there.size() <= sought.size() + 2 ? 1 : 0.9);
  }

  private static double likeness(String word, String other, int words) {
    if (word.equals(other)) {
      return 1;
    }
    if (ALIKE.stream().anyMatch(set -> set.contains(word) && set.contains(other))) {
      return 0.8;
    }
    if (word.length() >= 3 && other.length() >= 3 && (other.startsWith(word) || word.startsWith(other))) {
      return 0.7;
    }
    Optional<String> near = word.length() >= 4 ? NearName.of(word, List.of(other)) : Optional.empty();
    return near.isPresent() ? 0.6 : 0;
  }

  /** The words of a name, by signs, digits and capitals between them. */
  static List<String> words(String name) {
    List<String> words = new ArrayList<>();
    for (String word : name.replaceAll("([a-z])([A-Z])", "$1 $2").replaceAll("([A-Za-z])([0-9])", "$1 $2")
        .split("[^A-Za-z0-9]+")) {
      if (!word.isEmpty()) {
        words.add(word.toLowerCase(Locale.ROOT));
      }
    }
    return words;
  }
}
