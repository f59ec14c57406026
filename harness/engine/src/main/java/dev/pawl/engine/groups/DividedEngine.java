package dev.pawl.engine.groups;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.EventSink;
import dev.pawl.engine.Finding;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.engine.evaluation.Arrivals;
import dev.pawl.engine.evaluation.Evaluation;
import dev.pawl.engine.plan.Selection;
import dev.pawl.grammar.rules.model.RuleBook;
import java.io.Closeable;
import java.util.ArrayList;
import java.util.List;

/**
 * The evaluator of one rule book over one recorded trace, on one thread or on several. What it says in the end is what
 * a {@link RuleEngine} says, and sooner, since each {@link Division group} of rules takes its events of a whole block
 * at a time. But it says it later: findings are told when a block is full, so that for a live feed it is not the right
 * one. Its listener is called on any of the threads, one call at a time; the findings of one rule or zone come in their
 * order.
 */
public final class DividedEngine implements EventSink, Closeable {

  private static final int BLOCK_SIZE = 1 << 10;

  private final Arrivals arrivals;
  private final Crew crew;
  private final List<Group> groups = new ArrayList<>();
  /** By signal: the groups that it concerns. */
  private final int[][] concerned;
  private Block filling;

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
   * @param blockSize how many events a group judges at once, at most
   */
  public DividedEngine(RuleBook book, EngineOptions options, FindingListener listener, int threads, int blockSize) {
    arrivals = new Arrivals(book.signals().size());
    FindingListener one = threads == 1 ? listener : new OneAtATime(listener);
    for (Selection selection : Division.of(book)) {
      groups.add(new Group(groups.size(), new Evaluation(book, selection, options, one)));
    }
    concerned = new int[book.signals().size()][];
    for (int signal = 0; signal < concerned.length; signal++) {
      int heard = signal;
      concerned[signal] = groups.stream().filter(group -> group.part.needs(heard)).mapToInt(group -> group.index)
          .toArray();
    }
    crew = new Crew(groups, threads, blockSize, concerned);
    filling = crew.takeEmpty();
  }

  /** Whether any rule or zone rests on a signal, as {@link RuleEngine#needs}. */
  public boolean needs(int signal) {
    return concerned[signal].length > 0;
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    boolean begins = !arrivals.haveBegun();
    boolean changes = arrivals.take(time, signal, value);
    if (begins) {
      begin(time);
    }
    if (changes) {
      filling.event(time, signal, value, line);
      if (filling.isFull()) {
        filling = crew.exchange(filling);
      }
    }
  }

  @Override
  public void advanceTo(long time) {
    boolean begins = !arrivals.haveBegun();
    arrivals.moveTo(time);
    if (begins) {
      begin(time);
    }
  }

  /** All have to know when the trace begins, whether its first event means anything to them or not. */
  private void begin(long time) {
    groups.forEach(group -> group.part.advanceTo(time));
  }

  /** Ends the trace at the last time it was told of, as {@link RuleEngine#finish()}. */
  public TraceOutcome finish() {
    return finish(arrivals.now());
  }

  /**
   * Ends the trace at a stated time, as {@link RuleEngine#finish(long)}.
   *
   * @param end nanoseconds, not before the last event
   */
  public TraceOutcome finish(long end) {
    filling = crew.exchange(filling);
    crew.finish();
    List<Evaluation> parts = groups.stream().map(group -> group.part).toList();
    if (arrivals.haveBegun()) {
      arrivals.moveTo(end);
      parts.forEach(part -> part.finish(end));
    }
    return arrivals.outcome(parts);
  }

  /** Ends the other threads, if they still run: after this nothing more is judged. */
  @Override
  public void close() {
    crew.end();
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
}
