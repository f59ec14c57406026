package dev.pawl.report.words;

import dev.pawl.report.model.TimeBase;
import dev.pawl.report.model.Truth;
import java.util.ArrayList;
import java.util.List;

/** What truly happened, as reports say it: hazards that no rule noticed first, then what kinds of things happened. */
public final class TruthWords {

  public static final String UNNOTICED = "A hazard that no rule noticed";

  private TruthWords() {}

  /** A line for each hazard that no rule noticed, the first one of each kind. */
  public static List<String> unnoticed(Truth truth, TimeBase base) {
    List<String> lines = new ArrayList<>();
    for (Truth.Kind kind : Truth.Kind.values()) {
      List<Truth.Happening> all = truth.unnoticed().stream().filter(it -> it.kind() == kind).toList();
      if (!all.isEmpty()) {
        lines.add(at(all.get(0), base) + more(all.size()));
      }
    }
    return lines;
  }

  /** A line for contacts and one for tracking, always; for each other kind if there was any. */
  public static List<String> lines(Truth truth, TimeBase base) {
    List<String> lines = new ArrayList<>();
    for (Truth.Kind kind : Truth.Kind.values()) {
      List<Truth.Happening> all = truth.of(kind);
      if (!all.isEmpty()) {
        lines.add(at(all.get(0), base) + more(all.size()));
      } else if (kind == Truth.Kind.CONTACT || kind == Truth.Kind.FOOLED) {
        lines.add(kind.words() + (kind == Truth.Kind.FOOLED && truth.paths().filter(it -> it.zones().isEmpty())
            .isPresent() ? ": not looked at, for no zone of the rules lies between two flags of the ride" : ": never"));
      }
    }
    return lines;
  }

  private static String at(Truth.Happening happening, TimeBase base) {
    return happening.words() + ", at " + TimeText.at(base, happening.time());
  }

  private static String more(int count) {
    return count == 1 ? "" : ", and " + ValueText.count(count - 1) + " more";
  }
}
