package dev.pawl.report.html;

import dev.pawl.engine.Finding;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.report.compare.FindingPair;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.words.FindingWords;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalLong;

/**
 * The instants that are marked in a picture, in order of time.
 *
 * @param origin nanoseconds, from where the axis counts
 * @param marks what is marked
 * @param allowedUntil nanoseconds, end of the time that the rule allowed from the origin
 */
record MarkedInstants(long origin, List<Mark> marks, OptionalLong allowedUntil) {

  /**
   * One marked instant.
   *
   * @param style class of its line
   */
  record Mark(long time, String label, String style) {}

  static MarkedInstants at(long time) {
    return new MarkedInstants(time, List.of(new Mark(time, "seen", "break")), OptionalLong.empty());
  }

  static MarkedInstants of(Rule rule, FindingResult finding) {
    return of(FindingWords.hasTrigger(rule), finding);
  }

  /**
   * Those of two findings on the axis of the earlier one. What is at the same place in both is marked once.
   */
  static MarkedInstants of(FindingPair pair) {
    MarkedInstants before = of(pair.before().kind() != Finding.Kind.FALSE_STATE, pair.before());
    List<Mark> moved = of(pair.after().kind() != Finding.Kind.FALSE_STATE, pair.after()).marks().stream()
        .map(mark -> new Mark(mark.time() + pair.shift(), mark.label(), mark.style())).toList();
    List<Mark> marks = new ArrayList<>(before.marks().stream().map(mark -> moved.contains(mark) ? mark
        : new Mark(mark.time(), "before: " + mark.label(), mark.style())).toList());
    moved.stream().filter(mark -> !before.marks().contains(mark)).forEach(mark -> marks.add(new Mark(mark.time(),
        "after: " + mark.label(), mark.style())));
    marks.sort(Comparator.comparingLong(Mark::time));
    return new MarkedInstants(before.origin(), marks, OptionalLong.empty());
  }

  private static MarkedInstants of(boolean triggered, FindingResult finding) {
    List<Mark> marks = new ArrayList<>();
    boolean state = !triggered;
    boolean missed = finding.kind() == Finding.Kind.NO_RESPONSE;
    boolean same = finding.time() == finding.trigger();
    if (!state) {
      marks.add(new Mark(finding.trigger(), same ? "trigger and " + end(finding) : "trigger", same ? style(finding)
          : "trigger"));
    }
    if (state || !same) {
      marks.add(new Mark(finding.time(), missed ? "deadline missed" : end(finding), style(finding)));
    }
    if (!missed && finding.deadline().isPresent() && finding.deadline().getAsLong() != finding.time()) {
      marks.add(new Mark(finding.deadline().getAsLong(), "deadline", "deadline"));
    }
    finding.lateResponse().ifPresent(time -> marks.add(new Mark(time, "came late", "late")));
    marks.sort(Comparator.comparingLong(Mark::time));
    return new MarkedInstants(state ? finding.time() : finding.trigger(), marks, finding.deadline());
  }

  private static String style(FindingResult finding) {
    return finding.kind().breaks() ? "break" : "doubt";
  }

  private static String end(FindingResult finding) {
    return switch (finding.kind()) {
      case BORDERLINE -> "too close to call";
      case UNKNOWN -> "not decidable";
      case OPEN -> "end of trace";
      case UNKNOWN_TRIGGER -> "possible trigger";
      case NOT_AT_TRIGGER, NO_RESPONSE, NOT_SUSTAINED, NOT_THROUGHOUT, OUT_OF_ORDER, FALSE_STATE -> "break";
    };
  }
}
