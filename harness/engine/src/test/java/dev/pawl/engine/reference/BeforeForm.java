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
  /** What is required and what it has to come before, with what is unknown left as it is. */
  private final Condition seenRequired;
  private final Condition seenLimit;
  private final Moments moments;
  private final Order order;
  private final long doubled;
  private final long last;

  BeforeForm(Moments moments, Reading reading, Demand.Before demand, Slack slack, Order order, boolean surely) {
    this.moments = moments;
    this.order = order;
    this.seenRequired = reading.of(demand.required());
    this.seenLimit = reading.of(demand.limit());
    this.required = seenRequired.read(surely ? Truth.FALSE : null);
    this.limit = seenLimit.read(surely ? Truth.TRUE : null);
    this.doubled = slack.apart();
    this.last = moments.last();
  }

  @Override
  public Ruling judge(int m0) {
    long response = response(m0);
    long limited = first(limit, Truth.TRUE, m0 + 1L);
    if (response == m0 && !order.contests(seenRequired, m0)) {
      int sure = order.surely(m0, moments, required, Truth.TRUE);
      return falls(m0, sure) ? Ruling.near(sure, m0, m0) : new Ruling(Ruling.Ending.MET, null, sure, m0, m0, false);
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
      if (doubt != Truth.FALSE) {
        return Ruling.doubtful(doubt, decided, decided);
      }
      boolean gone = response <= order.surely(m0, moments) && falls(response, decided);
      return mayHaveBeen(limit, seenLimit, m0) || gone ? Ruling.near(decided, m0, m0) : Ruling.met(decided, decided);
    }
    long decided = Math.min(closes(limited), last);
    Truth doubt = doubt(required, m0, decided);
    if (doubt != Truth.FALSE) {
      return Ruling.doubtful(doubt, decided, limited);
    }
    boolean limitEnded = doubled > 0 && limited == m0 + 1L && ends(m0, decided)
        || limited <= order.surely(m0, moments) && ends(limited, decided);
    return mayHaveBeen(required, seenRequired, m0) || limitEnded ? Ruling.near(decided, m0, limited)
        : Ruling.missed(Kind.OUT_OF_ORDER, decided, limited, limited);
  }

  @Override
  public Truth doubtBefore(int m0, long rise) {
    if (response(m0) == m0 && !order.contests(seenRequired, m0)) {
      return Truth.FALSE;
    }
    Truth doubt = doubt(limit, m0 + 1L, rise - 1);
    return doubt == Truth.FALSE && mayHaveBeen(limit, seenLimit, m0) ? Truth.BORDERLINE : doubt;
  }

  /** Whether what is required is not surely so from a moment on. */
  private boolean falls(long from, long last) {
    return Math.min(first(required, Truth.FALSE, from), first(required, Truth.UNKNOWN, from)) <= last
        || seenRequired.waversIn(from + 1, last);
  }

  /** Whether what it has to come before is not surely so from a moment on. */
  private boolean ends(long from, long last) {
    return Math.min(first(limit, Truth.FALSE, from), first(limit, Truth.UNKNOWN, from)) <= last;
  }

  /** Whether what is not so at a trigger may have been when it happened. */
  private boolean mayHaveBeen(Truth[] table, Condition seen, int m0) {
    return table[m0] != Truth.TRUE && order.contests(seen, m0);
  }

  @Override
  public void measureLateness(int m0, Ruling ruling, Margins margins) {
    measure(m0, ruling, NEVER, margins);
  }

  @Override
  public long response(int m0) {
    return first(required, Truth.TRUE, m0);
  }

  private long closes(long moment) {
    return doubled == 0 ? moment : moment + doubled - 1;
  }

  @Override
  public void measure(int m0, Ruling ruling, long spared, Margins margins) {
    long response = response(m0);
    long limited = first(limit, Truth.TRUE, m0 + 1L);
    boolean answered = response <= limited || response < limited + doubled;
    if (ruling.ending() == Ruling.Ending.CANCELLED || ruling.ending() != Ruling.Ending.MISSED
        && spared <= ruling.decided() || limited == NEVER || !answered
        && (ruling.doubted() || ruling.ending() == Ruling.Ending.BORDERLINE)) {
      return;
    }
    if (response != NEVER) {
      margins.time(limited - response, Math.max(limited, response), m0, false);
    } else {
      margins.time(limited - last, last, m0, true);
    }
  }
}
