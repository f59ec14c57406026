package dev.pawl.engine.duty;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.operator.Recency;
import dev.pawl.grammar.rules.model.Truth;

/** {@code and stay so for D}. */
public final class StayFor extends Stay {

  private final long span;
  private final long slack;

  /** In moments; {@code slack} is twice the resolution in nanoseconds. */
  public StayFor(long span, long slack) {
    this.span = span;
    this.slack = slack;
  }

  @Override
  PossibleResponses.Span span() {
    return new PossibleResponses.Span(span, slack);
  }

  @Override
  BoolNode release() {
    return null;
  }

  @Override
  void beforeFollowing(Recency recency, long moment) {}

  @Override
  void judge(int required, Recency recency, long moment) {
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
    if (!judge.isEarly(triggered)) {
      judge.margins.offerMoments(moment - deadline, moment, triggered);
    }
    boolean borderline = Math.abs(deadline - moment) < slack;
    judge.decide(borderline ? Kind.BORDERLINE : Kind.NOT_SUSTAINED, 0, staying, 0, OWN, triggered, moment, deadline);
  }

  private void stayed(Recency recency, long moment) {
    long triggered = staying.get(0, TRIGGER);
    long response = staying.get(0, RESPONSE);
    long deadline = deadline();
    if (recency.unknownSince(response)) {
      judge.decide(Kind.UNKNOWN, recency.cause(response), staying, 0, OWN, triggered, moment, deadline);
    } else {
      stayed(triggered, moment, deadline);
    }
    staying.removeFirst();
  }

  private long deadline() {
    return Moments.later(staying.get(0, RESPONSE), span);
  }

  private long lastMoment() {
    return Moments.later(deadline(), Math.max(slack - 1, 0));
  }

  @Override
  long nextWake() {
    return staying.isEmpty() ? Moments.FOREVER : lastMoment();
  }

  @Override
  void finish(Recency recency, long last) {
    while (!staying.isEmpty() && deadline() <= last) {
      stayed(recency, last);
    }
    for (; !staying.isEmpty(); staying.removeFirst()) {
      judge.decide(Kind.OPEN, 0, staying, 0, OWN, staying.get(0, TRIGGER), last, deadline());
    }
  }
}
