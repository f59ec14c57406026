package dev.pawl.report.compare;

import dev.pawl.engine.Finding;
import dev.pawl.report.compare.ReportDigest.RuleDigest;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.Picture;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * A finding that a rule has in both reports, and that is not the same any more. Two findings of a trace are one and the
 * same where their triggers are; where none are, the first of either report stand for the rule.
 *
 * @param id the rule's identifier
 * @param title its title, as the later report has it
 * @param trace the trace, as the later report calls it
 * @param before with its picture
 * @param after with its picture
 */
public record FindingPair(String id, String title, String trace, FindingResult before, FindingResult after) {

  /** The first finding of the rule in a pair of traces that differs; empty where none does, or none is drawn. */
  static Optional<FindingPair> of(RuleChange change) {
    if (change.before().isEmpty() || change.after().isEmpty()) {
      return Optional.empty();
    }
    RuleDigest after = change.after().get();
    List<FindingResult> earlier = change.before().get().findings();
    List<FindingPair> same = new ArrayList<>();
    for (FindingResult later : after.findings()) {
      earlier.stream().filter(it -> it.kind().breaks() == later.kind().breaks() && it.trigger() == later.trigger())
          .findFirst().ifPresent(it -> same.add(new FindingPair(after.id(), after.title(), change.trace(), it, later)));
    }
    if (same.isEmpty() && !earlier.isEmpty() && !after.findings().isEmpty()) {
      same.add(new FindingPair(after.id(), after.title(), change.trace(), earlier.get(0), after.findings().get(0)));
    }
    return same.stream().filter(FindingPair::differs).findFirst();
  }

  /** Nanoseconds to add to a time of the later report for its place on the axis of the earlier one. */
  public long shift() {
    return origin(before) - origin(after);
  }

  /** Nanoseconds, the instant from which a finding is looked at: its trigger, or where it has none, its break. */
  public static long origin(FindingResult finding) {
    return finding.kind() == Finding.Kind.FALSE_STATE ? finding.time() : finding.trigger();
  }

  private boolean differs() {
    return before.kind() != after.kind() || before.time() != after.time() + shift()
        || !before.deadline().equals(moved(after.deadline())) || !before.lateResponse().equals(moved(after
            .lateResponse()))
        || courses(before).stream().anyMatch(track -> courses(after).stream().noneMatch(it -> sameCourse(track, it)));
  }

  private OptionalLong moved(OptionalLong time) {
    return time.isPresent() ? OptionalLong.of(time.getAsLong() + shift()) : time;
  }

  private static List<Picture.Track> courses(FindingResult finding) {
    return finding.picture().orElseThrow().tracks();
  }

  private boolean sameCourse(Picture.Track earlier, Picture.Track later) {
    return earlier.signal().equals(later.signal()) && Arrays.equals(earlier.values(), later.values())
        && Arrays.equals(earlier.times(), Arrays.stream(later.times()).map(time -> time + shift()).toArray());
  }
}
