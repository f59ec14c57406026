package dev.pawl.run.live;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.mqtt.evidence.EvidenceLog;
import dev.pawl.mqtt.live.LiveResult;
import dev.pawl.mqtt.replay.PaceQuality;
import dev.pawl.report.model.Reading;
import dev.pawl.run.SourceJudge;
import dev.pawl.run.source.BegunSource;
import dev.pawl.trace.bindings.StatedBeginning;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.TreeSet;

/** What a session over a broker met, in words. */
public final class EvidenceWords {

  private EvidenceWords() {}

  /**
   * One counter for each kind of doubt, with the rules that rest on the signals it touched left to the reader of the
   * names.
   */
  public static List<Reading.Counter> counters(List<EvidenceLog.Item> items, List<String> signals) {
    List<Reading.Counter> counters = new ArrayList<>();
    for (EvidenceLog.Item item : items) {
      String touched = item.signals().isEmpty() ? "" : item.signals().size() == signals.size() ? "; all signals"
          : "; " + String.join(", ", item.signals().stream().map(signals::get).toList());
      counters.add(new Reading.Counter(item.anomaly().label() + " (first: " + item.firstDetail() + touched + "): "
          + item.anomaly().treatment(), item.count()));
    }
    return counters;
  }

  /** What was taken to be so although nobody has heard it, and what a live feed cannot show. */
  static List<String> beginning(StatedBeginning stated, RuleBook book) {
    List<String> said = new ArrayList<>();
    BegunSource.taken("so until something came of it", stated.values(), book)
        .ifPresent(counter -> said.add(counter.count() + " x " + counter.label()));
    if (!stated.others().isEmpty()) {
      List<String> names = new TreeSet<>(stated.others()).stream().map(book.signals()::get).map(Signal::name).toList();
      said.add("first values that the bindings state to be changes are none in a live feed, where they may have been "
          + "kept: " + SourceJudge.names(names));
    }
    return said;
  }

  public static String pace(PaceQuality quality) {
    if (quality.factor() == 0) {
      return quality.untimed() == 0 ? "step by step; times are the trace's own, no resolution is widened"
          : "step by step; " + quality.untimed()
              + " answers stated no time and are taken at the instant of their step; every resolution is"
              + " widened by the longest step, " + ms(quality.longestStep());
    }
    return "inputs went out late by " + ms(quality.median()) + " (median), " + ms(quality.high()) + " (99 of 100), "
        + ms(quality.worst())
        + " (worst), the longest way to the broker took " + ms(quality.worstDelay())
            + ", this machine stalled for up to "
        + ms(quality.longestStall()) + "; every resolution is widened by "
        + ms(quality.uncertainty());
  }

  public static String clock(LiveResult.ClockState clock, List<String> signals) {
    return "the clock of " + String.join(", ", clock.signals().stream().map(signals::get).toList()) + " is "
        + ms(Math.abs(clock.offset()))
        + (clock.offset() < 0 ? " ahead of" : " behind") + " this machine's, delay included, unsteady by "
            + ms(clock.spread()) + " ("
        + clock.samples() + " stated times); times are told by this machine's";
  }

  /** Rules that compare times of clocks of which each is only estimated. */
  public static String mixed(long uncertainty, List<String> rules, boolean judged) {
    return "times by different clocks can be off each other by " + ms(uncertainty) + (judged
        ? "; the resolution is widened by that for "
        : " (--window); a check of this recording needs a resolution no less for ") + String.join(", ", rules);
  }

  public static String ms(long nanoseconds) {
    return String.format(Locale.ROOT, "%.1f ms", nanoseconds / 1e6);
  }
}
