package dev.pawl.run;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.Sampling;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.words.TimeText;
import dev.pawl.trace.sampling.SamplingMeter;
import dev.pawl.trace.sampling.Silences;
import dev.pawl.trace.sampling.StatedSampling;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;

/** How the signals of one source were looked at, as far as it is stated or their rows have shown it. */
final class Sampled {

  private static final long MILLISECOND = 1_000_000L;

  private final RuleBook book;
  private final StatedSampling stated;
  private final int count;
  private long[] measured;
  private SamplingMeter meter;
  private Silences silences;

  Sampled(RuleBook book, StatedSampling stated) {
    this.book = book;
    this.stated = stated;
    this.count = book.signals().size();
    this.measured = new long[count];
  }

  Sampling sampling() {
    return Sampling.of(stated.periods(count, measured));
  }

  /**
   * What passes events on to a judge, and measures those of signals that somebody needs and of which nothing is stated.
   */
  EventSink before(EventSink judge, boolean[] needed) {
    silences = new Silences(stated.limits(stated.periods(count, measured)), judge);
    boolean[] asked = new boolean[count];
    for (int signal = 0; signal < count; signal++) {
      asked[signal] = needed[signal] && !stated.says(signal);
    }
    long finest = Math.max(book.rules().stream().mapToLong(Rule::resolution).min().orElse(0), MILLISECOND);
    meter = new SamplingMeter(book, asked, 2 * finest, silences);
    return meter;
  }

  void finish(long end) {
    silences.finish(end);
  }

  /** Takes over what the rows have shown; false if that is nothing new. */
  boolean measure() {
    measured = meter.periods();
    return IntStream.range(0, count).anyMatch(signal -> measured[signal] > 0);
  }

  /** What a report has to say of it. */
  List<Reading.Counter> counters(TimeBase base) {
    List<Reading.Counter> counters = new ArrayList<>();
    add(counters, "taken as sampled, as stated, with the longest time between two looks", signal ->
        stated.every().containsKey(signal) && !stated.changesOnly().contains(signal));
    add(counters, "taken as sampled and written when changed, as stated, with the longest time between two looks",
        stated.changesOnly()::contains);
    add(counters, "taken as sampled, as the rows show, with the longest time between two looks", signal ->
        measured[signal] > 0);
    holes(counters, base);
    if (meter.coarseGrid() > 0) {
      counters.add(new Reading.Counter("instants, all of them multiples of " + TimeText.duration(meter.coarseGrid())
          + " apart, which is coarser than the resolution stated", meter.instants()));
    }
    return counters;
  }

  /** Signals that were not heard of at the same times are named together. */
  private void holes(List<Reading.Counter> counters, TimeBase base) {
    Map<List<Long>, List<String>> alike = new LinkedHashMap<>();
    for (int signal = 0; signal < count; signal++) {
      if (silences.count(signal) > 0) {
        alike.computeIfAbsent(List.of(silences.count(signal), silences.longest(signal), silences.longestFrom(signal)),
            key -> new ArrayList<>())
            .add(book.signals().get(signal).name());
      }
    }
    alike.forEach((key, names) -> counters.add(new Reading.Counter("hole in the rows of " + SourceJudge.names(names)
        + (names.size() == 1 ? ", which is unknown in it" : ", which are unknown in it") + "; the longest is "
            + TimeText.duration(key.get(1))
        + ", from " + TimeText.at(base, key.get(2)), key.get(0))));
  }

  private void add(List<Reading.Counter> counters, String what, IntPredicate meant) {
    long[] periods = stated.periods(count, measured);
    List<String> names = IntStream.range(0, count).filter(meant)
        .mapToObj(signal -> book.signals().get(signal).name() + " " + TimeText.duration(periods[signal])).toList();
    if (!names.isEmpty()) {
      counters.add(new Reading.Counter((names.size() == 1 ? "signal " : "signals ") + what + ": "
          + SourceJudge.names(names), names.size()));
    }
  }
}
