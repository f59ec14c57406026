package dev.pawl.engine.reference;

import static dev.pawl.engine.reference.Search.NEVER;
import static dev.pawl.engine.reference.Search.doubt;
import static dev.pawl.engine.reference.Search.first;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Truth;

/** {@code must P before Q}. */
final class BeforeForm implements Form {
  private final Truth[] required;
  private final Truth[] limit;
  private final long doubled;
  private final long last;

  BeforeForm(Moments moments, TruthTables truths, Demand.Before demand, Slack slack, boolean surely) {
    this.required = truths.of(demand.required(), surely ? Truth.FALSE : null);
    this.limit = truths.of(demand.limit(), surely ? Truth.TRUE : null);
    this.doubled = slack.apart();
    this.last = moments.last();
  }

  @Override
  public Ruling judge(int m0) {
    long response = first(required, Truth.TRUE, m0);
    long limited = first(limit, Truth.TRUE, m0 + 1L);
    if (response == m0) {
      return Ruling.met(m0, m0);
    }
    if (response == NEVER && limited == NEVER) {
      return Ruling.open(last, last);
    }
    if (response != NEVER && limited != NEVER && Math.abs(response - limited) < doubled) {
      long later = Math.max(response, limited);
      return Ruling.near(later, later, limited);
    }
    if (response <= limited) {
      long decided = Math.min(closes(response), last);
      Truth doubt = doubt(limit, m0 + 1L, doubled == 0 ? response - 1 : decided);
      return doubt == Truth.FALSE ? Ruling.met(decided, decided) : Ruling.doubtful(doubt, decided, decided);
    }
    long decided = Math.min(closes(limited), last);
    Truth doubt = doubt(required, m0, decided);
    return doubt == Truth.FALSE ? Ruling.missed(Kind.OUT_OF_ORDER, decided, limited, limited)
        : Ruling.doubtful(doubt, decided, limited);
  }

  @Override
  public void measureLateness(int m0, Ruling ruling, Margins margins) {
    measure(m0, ruling, margins);
  }

  @Override
  public long response(int m0) {
    return first(required, Truth.TRUE, m0);
  }

  private long closes(long moment) {
    return doubled == 0 ? moment : moment + doubled - 1;
  }

  @Override
  public void measure(int m0, Ruling ruling, Margins margins) {
    long response = first(required, Truth.TRUE, m0);
    long limited = first(limit, Truth.TRUE, m0 + 1L);
    boolean answered = response <= limited || response < limited + doubled;
    if (ruling.ending() == Ruling.Ending.CANCELLED || limited == NEVER || !answered && ruling.doubted()) {
      return;
    }
    if (response != NEVER) {
      margins.time(limited - response, Math.max(limited, response), m0, false);
    } else {
      margins.time(limited - last, last, m0, true);
    }
  }
}
