package dev.pawl.engine.divided;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.EventSink;
import dev.pawl.engine.Finding;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.RuleOutcome;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import java.io.Closeable;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * The evaluator of one rule book over one trace on several threads. What it says is what a {@link RuleEngine} says; its listener is called on
 * any of the threads, one call at a time, and the findings of one rule come in their order.
 *
 * <p>The thread that brings the events judges a share of the rules itself, a smaller one, since it has the reading to do as well. With one thread
 * no other is started, and nothing is handed over.
 */
public final class DividedEngine implements EventSink, Closeable {

  private static final int BLOCK_SIZE = 1 << 12;

  /** What reading an event costs, in rules: with forty rules of mixed forms it is a fifth of all. */
  private static final int READING = 10;

  private final RuleEngine own;
  private final Share[] others;
  private boolean begun;

  /**
   * A judge.
   *
   * @param threads on how many threads, the caller's among them; 1 for the caller's alone
   */
  public DividedEngine(RuleBook book, EngineOptions options, FindingListener listener, int threads) {
    this(book, options, listener, threads, BLOCK_SIZE);
  }

  /**
   * A judge.
   *
   * @param threads on how many threads, the caller's among them; 1 for the caller's alone
   * @param blockSize how many events are handed over at once
   */
  public DividedEngine(RuleBook book, EngineOptions options, FindingListener listener, int threads, int blockSize) {
    FindingListener one = threads == 1 ? listener : new OneAtATime(listener);
    List<RuleBook> shares = divide(book, threads);
    own = new RuleEngine(shares.get(0), options, one);
    others = new Share[shares.size() - 1];
    EngineOptions someZones = new EngineOptions(options.share(), options.findingsPerRule(), false);
    for (int share = 1; share < shares.size(); share++) {
      others[share - 1] = new Share(new RuleEngine(shares.get(share), someZones, new RulesOnly(one)), blockSize);
    }
  }

  /** Neighbours stay together as far as may be, since they rest on the same zones and signals. */
  private static List<RuleBook> divide(RuleBook book, int threads) {
    int count = book.rules().size();
    List<RuleBook> shares = new ArrayList<>();
    int from = 0;
    for (int share = 0; share < threads; share++) {
      int to = Math.max(from, (count + READING) * (share + 1) / threads - READING);
      if (share == 0 || to > from) {
        List<Rule> rules = book.rules().subList(from, to);
        shares.add(new RuleBook(book.ride(), book.resolution(), book.signals(), book.zones(), rules));
      }
      from = to;
    }
    return shares;
  }

  /** Whether any rule or zone rests on a signal, as {@link RuleEngine#needs}. */
  public boolean needs(int signal) {
    boolean needed = own.needs(signal);
    for (Share share : others) {
      needed |= share.needs(signal);
    }
    return needed;
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    if (!begun) {
      begin(time);
    }
    for (Share share : others) {
      if (share.needs(signal)) {
        share.events().event(time, signal, value, line);
      }
    }
    own.event(time, signal, value, line);
  }

  @Override
  public void advanceTo(long time) {
    begun = true;
    for (Share share : others) {
      share.events().advanceTo(time);
    }
    own.advanceTo(time);
  }

  /** All shares have to know when the trace begins, whether its first event means anything to them or not. */
  private void begin(long time) {
    begun = true;
    for (Share share : others) {
      share.events().advanceTo(time);
    }
  }

  /** Ends the trace at the last time it was told of, as {@link RuleEngine#finish()}. */
  public TraceOutcome finish() {
    return finish(own.soFar().end());
  }

  /**
   * Ends the trace at a stated time, as {@link RuleEngine#finish(long)}.
   *
   * @param end nanoseconds, not before the last event
   */
  public TraceOutcome finish(long end) {
    TraceOutcome mine = own.finish(end);
    List<RuleOutcome> rules = new ArrayList<>(mine.rules());
    for (Share share : others) {
      rules.addAll(share.join().finish(end).rules());
    }
    rules.sort(Comparator.comparingInt(RuleOutcome::rule));
    return new TraceOutcome(mine.start(), mine.end(), mine.events(), mine.overwritten(), rules, mine.zones());
  }

  /** Ends the other threads, if they still run: after this nothing more is judged. */
  @Override
  public void close() {
    for (Share share : others) {
      share.abandon();
    }
  }

  /** A listener that is called by one thread at a time. */
  private record OneAtATime(FindingListener listener) implements FindingListener {

    @Override
    public synchronized void finding(Finding finding) {
      listener.finding(finding);
    }

    @Override
    public synchronized void tracking(TrackingFinding finding) {
      listener.tracking(finding);
    }

    @Override
    public synchronized void lateResponse(int rule, long trigger, long deadline, long time) {
      listener.lateResponse(rule, trigger, deadline, time);
    }
  }

  /** A listener that is told of rules: what there is to say of a zone says the share that counts them all. */
  private record RulesOnly(FindingListener listener) implements FindingListener {

    @Override
    public void finding(Finding finding) {
      listener.finding(finding);
    }

    @Override
    public void tracking(TrackingFinding finding) {}

    @Override
    public void lateResponse(int rule, long trigger, long deadline, long time) {
      listener.lateResponse(rule, trigger, deadline, time);
    }
  }
}
