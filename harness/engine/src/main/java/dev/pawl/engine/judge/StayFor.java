package dev.pawl.engine.judge;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.operator.LastMoments;
import dev.pawl.grammar.rules.model.Truth;

/** {@code and stay so for D}. */
public final class StayFor extends Stay {

  private final long span;
  private final long slack;

  /** In moments; {@code slack} is how near to its end something can be. */
  public StayFor(long span, long slack) {
    this.span = span;
    this.slack = slack;
  }

  @Override
  long span() {
    return span;
  }

  @Override
  long slack() {
    return slack;
  }

  @Override
  BoolNode release() {
    return null;
  }

  @Override
  void beforeFollowing(LastMoments recency, long moment) {}

  @Override
  void judge(int required, LastMoments recency, long moment) {
    if (required == Truth.F) {
      for (; !staying.isEmpty(); staying.removeFirst()) {
        fell(moment);
      }
    }
    while (!staying.isEmpty() && lastMoment() <= moment) {
      stayed(recency, moment);
    }
  }

  private void fell(long moment) {
    long triggered = staying.get(0, TRIGGER);
    long deadline = deadline();
    if (!judge.isAside(triggered)) {
      judge.margins.offerMoments(moment - deadline, moment, triggered);
    }
    boolean borderline = Math.abs(deadline - moment) < slack;
    decide(staying, borderline ? Kind.BORDERLINE : Kind.NOT_SUSTAINED, 0, moment, deadline);
  }

  private void stayed(LastMoments recency, long moment) {
    long response = staying.get(0, RESPONSE);
    if (recency.unknownSince(response)) {
      decide(staying, Kind.UNKNOWN, recency.cause(response), moment, deadline());
    } else {
      stayed(staying, moment, deadline());
    }
    staying.removeFirst();
  }

  private long deadline() {
    long opening = Moments.later(staying.get(0, TRIGGER), judge.window.opens());
    return Moments.later(Math.max(opening, staying.get(0, RESPONSE)), span);
  }

  private long lastMoment() {
    return Slack.closes(deadline(), slack);
  }

  @Override
  long nextWake() {
    return staying.isEmpty() ? Moments.FOREVER : lastMoment();
  }

  @Override
  void finish(LastMoments recency, long last) {
    while (!staying.isEmpty() && lastMoment() <= last) {
      stayed(recency, last);
    }
    for (; !staying.isEmpty(); staying.removeFirst()) {
      decide(staying, Kind.OPEN, 0, last, deadline());
    }
  }
}
