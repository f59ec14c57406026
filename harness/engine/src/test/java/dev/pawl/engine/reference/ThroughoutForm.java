package dev.pawl.engine.reference;

import static dev.pawl.engine.reference.Search.doubt;
import static dev.pawl.engine.reference.Search.first;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Truth;
import java.util.Optional;

/** {@code must P after D1 throughout D2}. */
final class ThroughoutForm implements Form {
  private final Truth[] required;
  private final Optional<Distance> distance;
  private final long after;
  private final long duration;
  private final long doubled;
  private final long last;

  ThroughoutForm(Moments moments, Demand.Throughout demand, long resolution, boolean surely) {
    this.required = moments.truths.of(demand.required(), surely ? Truth.FALSE : null);
    this.distance = Distance.of(moments, demand.required());
    this.after = 2 * demand.after();
    this.duration = 2 * demand.duration();
    this.doubled = 2 * resolution;
    this.last = moments.last();
  }

  @Override
  public Ruling judge(int m0) {
    long opened = m0 + after;
    long deadline = opened + duration;
    long fell = first(required, Truth.FALSE, opened);
    if (fell == opened || (doubled == 0 ? fell <= deadline : fell <= deadline - doubled)) {
      return Ruling.missed(Kind.NOT_THROUGHOUT, fell, fell, deadline);
    }
    if (Math.abs(fell - deadline) < doubled) {
      return Ruling.near(fell, fell, deadline);
    }
    if (deadline > last) {
      return Ruling.open(last, deadline);
    }
    long decided = Math.min(closes(deadline), last);
    Truth doubt = doubt(required, opened, decided);
    return doubt == Truth.FALSE ? Ruling.met(decided, deadline) : Ruling.doubtful(doubt, decided, deadline);
  }

  private long closes(long deadline) {
    return doubled == 0 ? deadline : deadline + doubled - 1;
  }

  @Override
  public void measure(int m0, Ruling ruling, Margins margins) {
    if (ruling.ending() == Ruling.Ending.CANCELLED) {
      return;
    }
    long opened = m0 + after;
    long deadline = opened + duration;
    if (distance.isPresent()) {
      for (long m = opened; m <= ruling.decided(); m++) {
        margins.quantity(distance.get().values()[(int) m], distance.get().unit(), m, m0);
      }
    } else {
      long fell = first(required, Truth.FALSE, opened);
      if (fell == opened || fell <= closes(deadline)) {
        margins.time(fell - deadline, fell, m0, false);
      }
    }
  }
}
