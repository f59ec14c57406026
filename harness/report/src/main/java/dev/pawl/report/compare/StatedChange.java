package dev.pawl.report.compare;

import dev.pawl.grammar.rules.explain.Limit;
import dev.pawl.report.words.TimeText;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * Something that a rule says otherwise in a later report.
 *
 * @param rule the rule's identifier
 * @param title its title, as the later report has it
 * @param what such as {@code limit} or {@code severity}
 * @param before what it was
 * @param after what it is
 * @param way whether the rule asks for less now
 */
public record StatedChange(String rule, String title, String what, String before, String after, Way way) {

  /** Which way a change goes. */
  public enum Way {
    LOOSENED,
    /** Whether it asks for less nobody can tell from its form: a person has to say. */
    UNCLEAR,
    TIGHTENED,
    /** It asks for the same. */
    EQUAL
  }

  /** Whether it may ask for less. */
  public boolean isSuspect() {
    return way == Way.LOOSENED || way == Way.UNCLEAR;
  }

  /** All changes of a rule. */
  static List<StatedChange> of(StatedRule before, StatedRule after) {
    Search search = new Search(before, after);
    search.severity();
    search.limits();
    search.resolution();
    search.trials();
    if (!before.zones().equals(after.zones()) && before.formula().isPresent() && after.formula().isPresent()) {
      search.add("zones", String.join("; ", before.zones()), String.join("; ", after.zones()), Way.UNCLEAR);
    }
    search.same("basis", before.basis(), after.basis());
    search.same("title", Optional.of(before.title()), Optional.of(after.title()));
    return search.found;
  }

  /** The search for changes of one rule. */
  private static final class Search {

    private final StatedRule before;
    private final StatedRule after;
    private final List<StatedChange> found = new ArrayList<>();

    Search(StatedRule before, StatedRule after) {
      this.before = before;
      this.after = after;
    }

    private void add(String what, String earlier, String later, Way way) {
      found.add(new StatedChange(after.id(), after.title(), what, earlier, later, way));
    }

    /** What is of no weight for what the rule asks. */
    private void same(String what, Optional<String> earlier, Optional<String> later) {
      if (earlier.isPresent() && later.isPresent() && !earlier.equals(later)) {
        add(what, earlier.get(), later.get(), Way.EQUAL);
      }
    }

    private void severity() {
      if (before.severity().isPresent() && after.severity().isPresent()) {
        int change = after.severity().get().compareTo(before.severity().get());
        if (change != 0) {
          add("severity", before.severity().get().name().toLowerCase(Locale.ROOT),
              after.severity().get().name().toLowerCase(Locale.ROOT),
              change < 0 ? Way.LOOSENED : Way.TIGHTENED);
        }
      }
    }

    private void resolution() {
      OptionalLong earlier = before.resolutionNs();
      OptionalLong later = after.resolutionNs();
      if (earlier.isPresent() && later.isPresent() && earlier.getAsLong() != later.getAsLong()) {
        add("resolution", TimeText.duration(earlier.getAsLong()), TimeText.duration(later.getAsLong()),
            later.getAsLong() > earlier.getAsLong() ? Way.LOOSENED : Way.TIGHTENED);
      }
    }

    private void trials() {
      before.trials().stream().filter(trial -> !after.trials().contains(trial))
          .forEach(trial -> add("trial", trial, "none", Way.LOOSENED));
      after.trials().stream().filter(trial -> !before.trials().contains(trial))
          .forEach(trial -> add("trial", "none", trial, Way.TIGHTENED));
    }

    private void limits() {
      if (before.formula().isEmpty() || after.formula().isEmpty()) {
        if (before.text().isPresent() && after.text().isPresent() && !before.text().equals(after.text())) {
          add("text", before.text().get(), after.text().get(), Way.UNCLEAR);
        }
        return;
      }
      boolean sameShape = Limit.shape(before.formula().get()).equals(Limit.shape(after.formula().get()))
          && before.limits().size() == after.limits().size();
      if (!sameShape) {
        add("text", before.text().orElse(before.formula().get()), after.text().orElse(after.formula().get()),
            Way.UNCLEAR);
        return;
      }
      int others = found.size();
      for (int i = 0; i < before.limits().size(); i++) {
        limit(before.limits().get(i), after.limits().get(i));
      }
      if (found.size() == others && !before.formula().equals(after.formula())) {
        add("text", before.formula().get(), after.formula().get(), Way.UNCLEAR);
      } else if (found.size() == others) {
        same("text", before.text(), after.text());
      }
    }

    private void limit(Limit earlier, Limit later) {
      if (earlier.value() != later.value()) {
        boolean grew = later.value() > earlier.value();
        Way way = switch (earlier.looser()) {
          case GREATER -> grew ? Way.LOOSENED : Way.TIGHTENED;
          case LESS -> grew ? Way.TIGHTENED : Way.LOOSENED;
          case UNKNOWN -> Way.UNCLEAR;
        };
        add("limit", earlier.text(), later.text(), way);
      }
    }
  }
}
