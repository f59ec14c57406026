package dev.pawl.run.source;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.report.model.Reading;
import dev.pawl.report.words.TimeText;
import dev.pawl.run.SourceJudge;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.TraceReader;
import dev.pawl.trace.Traces;
import dev.pawl.trace.bindings.StatedSession.Clock;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.LongStream;

/**
 * The clocks of a session's files: how far each is ahead, as it is stated, or as bools tell that its files and others
 * have. What is estimated is known to some time only, and a signal that both have is taken from the others.
 */
final class SessionClocks {

  private static final String REMEDY = "; state it: clock \"%1$s\" ahead 1.5 s, or behind";

  private final TraceOptions options;
  private final Map<Clock, Estimate> estimates = new LinkedHashMap<>();
  private Optional<String> failure = Optional.empty();

  private SessionClocks(TraceOptions options) {
    this.options = options;
  }

  /**
   * A clock that is estimated.
   *
   * @param names bools that told it
   * @param own signals that its files alone have
   */
  private record Estimate(ClockMatch match, List<String> names, Set<Integer> own) {}

  /** Looks through all traces if a clock is to be estimated; whoever reads them next says what is wrong with them. */
  static SessionClocks of(List<Path> traces, TraceOptions options) {
    SessionClocks clocks = new SessionClocks(options);
    try {
      clocks.estimate(traces);
      return clocks;
    } catch (IOException e) {
      return new SessionClocks(options);
    }
  }

  /** Nanoseconds by which the times of a trace are too late. */
  long aheadOf(Path trace) {
    return clock(trace).map(clock -> estimates.containsKey(clock) ? estimates.get(clock).match.ahead() : clock.ahead())
        .orElse(0L);
  }

  private Optional<Clock> clock(Path trace) {
    return options.bindings().session().clockOf(trace.getFileName().toString());
  }

  /** By signal index, whether events of it are taken from a trace. */
  boolean[] taken(Path trace, boolean[] needed) {
    boolean[] taken = needed.clone();
    clock(trace).map(estimates::get).ifPresent(estimate -> {
      for (int signal = 0; signal < taken.length; signal++) {
        taken[signal] &= estimate.own.contains(signal);
      }
    });
    return taken;
  }

  /** Nanoseconds by which times of some signals can be off each other because of what is estimated. */
  long uncertainty(Set<Integer> signals) {
    long off = 0;
    int clocks = 0;
    Set<Integer> left = new TreeSet<>(signals);
    for (Estimate estimate : estimates.values()) {
      if (left.removeAll(estimate.own)) {
        off += estimate.match.off();
        clocks++;
      }
    }
    return clocks + (left.isEmpty() ? 0 : 1) > 1 ? off : 0;
  }

  /** Why a clock that is to be estimated cannot be. */
  Optional<String> failure() {
    return failure;
  }

  /** What a result says of estimated clocks. */
  List<Reading.Counter> counters() {
    List<Reading.Counter> counters = new ArrayList<>();
    estimates.forEach((clock, estimate) -> {
      ClockMatch match = estimate.match;
      counters.add(new Reading.Counter("changes that other files have too, of " + SourceJudge.names(estimate.names)
          + ", by which the clock of " + clock.files() + " is taken to be " + TimeText.duration(Math.abs(match.ahead()))
          + (match.ahead() < 0 ? " behind" : " ahead") + ", give or take " + TimeText.duration(match.off())
          + "; where a rule needs signals of both, its resolution is wider by that", match.changes()));
      if (match.lonely() > 0) {
        counters.add(new Reading.Counter("changes of these that only one side has", match.lonely()));
      }
    });
    return counters;
  }

  private void estimate(List<Path> traces) throws IOException {
    List<Clock> asked = traces.stream().map(this::clock).flatMap(Optional::stream).filter(Clock::estimated).distinct()
        .toList();
    if (asked.isEmpty()) {
      return;
    }
    Changes others = new Changes(options.book());
    for (Path trace : traces) {
      if (clock(trace).filter(Clock::estimated).isEmpty()) {
        others.read(trace, options, aheadOf(trace));
      }
    }
    for (Clock clock : asked) {
      Changes own = new Changes(options.book());
      for (Path trace : traces) {
        if (clock(trace).equals(Optional.of(clock))) {
          own.read(trace, options, 0);
        }
      }
      estimate(clock, own, others);
    }
  }

  private void estimate(Clock clock, Changes own, Changes others) {
    List<Integer> told = own.told(others);
    String remedy = String.format(REMEDY, clock.files());
    if (told.isEmpty()) {
      fail("the clock of " + clock.files() + " cannot be estimated, since no bool changes " + ClockMatch.FEWEST
          + " times or more both there and in the files whose clocks are right" + remedy);
      return;
    }
    List<ClockMatch.Seen> seen = new ArrayList<>();
    told.forEach(signal -> seen.addAll(own.pairs(signal, others)));
    ClockMatch.of(seen).ifPresentOrElse(
        match -> estimates.put(clock, new Estimate(match, names(told), own.without(others))),
        () -> fail("the clock of " + clock.files() + " cannot be estimated: by no offset, or by several, do most"
            + " changes of " + SourceJudge.names(names(told)) + " agree" + remedy));
  }

  private List<String> names(List<Integer> signals) {
    return signals.stream().map(options.book().signals()::get).map(Signal::name).toList();
  }

  private void fail(String why) {
    failure = Optional.of(failure.orElse(why));
  }

  /** What files have of each signal, and when bools went on and off. */
  private static final class Changes implements EventSink {

    private final RuleBook book;
    private final boolean[] any;
    private final long[] last;
    private final List<LongStream.Builder> on = new ArrayList<>();
    private final List<LongStream.Builder> off = new ArrayList<>();
    private final List<long[]> rises = new ArrayList<>();
    private final List<long[]> falls = new ArrayList<>();
    private long ahead;

    Changes(RuleBook book) {
      this.book = book;
      this.any = new boolean[book.signals().size()];
      this.last = new long[any.length];
      for (int signal = 0; signal < any.length; signal++) {
        on.add(LongStream.builder());
        off.add(LongStream.builder());
      }
    }

    void read(Path trace, TraceOptions options, long clockAhead) throws IOException {
      boolean[] all = new boolean[any.length];
      Arrays.fill(all, true);
      Arrays.fill(last, UNKNOWN);
      ahead = clockAhead;
      try (TraceReader reader = Traces.open(trace, options.withLenient(true).withNeeded(all).withAhead(false))) {
        if (reader.readTo(this, (bytes, lines) -> true).isRejected()) {
          throw new IOException(trace + " is no trace");
        }
      }
    }

    @Override
    public void event(long time, int signal, long value, long line) {
      any[signal] = true;
      if (book.signals().get(signal).type().isBool()) {
        if (last[signal] != UNKNOWN && value != UNKNOWN && value != last[signal]) {
          (value == 1 ? on : off).get(signal).add(time - ahead);
        }
        last[signal] = value;
      }
    }

    @Override
    public void advanceTo(long time) {
      // Events bear their own times.
    }

    private void sort() {
      if (rises.isEmpty()) {
        on.forEach(times -> rises.add(times.build().sorted().toArray()));
        off.forEach(times -> falls.add(times.build().sorted().toArray()));
      }
    }

    private boolean isTelling(int signal) {
      sort();
      return rises.get(signal).length + falls.get(signal).length >= ClockMatch.FEWEST;
    }

    /** Bools with enough changes here and there. */
    List<Integer> told(Changes others) {
      List<Integer> told = new ArrayList<>();
      for (int signal = 0; signal < any.length; signal++) {
        if (isTelling(signal) && others.isTelling(signal)) {
          told.add(signal);
        }
      }
      return told;
    }

    List<ClockMatch.Seen> pairs(int signal, Changes others) {
      return List.of(new ClockMatch.Seen(rises.get(signal), others.rises.get(signal)),
          new ClockMatch.Seen(falls.get(signal), others.falls.get(signal)));
    }

    /** Signals that the others do not have. */
    Set<Integer> without(Changes others) {
      Set<Integer> own = new TreeSet<>();
      for (int signal = 0; signal < any.length; signal++) {
        if (any[signal] && !others.any[signal]) {
          own.add(signal);
        }
      }
      return own;
    }
  }
}
