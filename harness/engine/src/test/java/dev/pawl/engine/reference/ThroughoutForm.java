package dev.pawl.engine.reference;

import static dev.pawl.engine.reference.Search.NEVER;
import static dev.pawl.engine.reference.Search.doubt;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Truth;
import java.util.Optional;

/** {@code must P after D1 throughout D2}. */
final class ThroughoutForm implements Form {
  private final Truth[] required;
  /** What is required, with what is unknown left as it is. */
  private final Condition seen;
  private final Optional<Distance> distance;
  private final long after;
  private final long duration;
  private final Slack slack;
  private final Moments moments;
  private final Order order;
  private final long last;

  ThroughoutForm(Moments moments, Reading reading, Demand.Throughout demand, Slack slack, Order order,
      boolean surely) {
    this.seen = reading.of(demand.required());
    this.required = seen.toStay(surely ? Truth.FALSE : null);
    this.distance = Distance.of(moments, demand.required());
    this.after = 2 * demand.after();
    this.duration = 2 * demand.duration();
    this.slack = slack;
    this.moments = moments;
    this.order = order;
    this.last = moments.last();
  }

  private Opening opening(int m0) {
    return Opening.of(required, Truth.FALSE, m0, after, duration, slack,
        order.surely(m0, moments, required, Truth.FALSE));
  }

  @Override
  public Ruling judge(int m0) {
    Opening fall = opening(m0);
    long deadline = fall.deadline();
    boolean contested = after == 0 && order.contests(seen, m0);
    if (after == 0 && fall.at() == m0 && !contested || fall.isInTime(slack)) {
      return Ruling.missed(Kind.NOT_THROUGHOUT, fall.seen(), fall.at(), deadline);
    }
    if (after == 0 && fall.at() == m0 || fall.isInTimeOrNear(slack)) {
      return Ruling.near(fall.seen(), fall.at(), deadline);
    }
    long decided = Slack.closes(deadline, slack.shorter());
    if (decided > last) {
      return Ruling.open(last, deadline);
    }
    long near = fall.nearOpening(required, Truth.FALSE, decided);
    if (near != NEVER) {
      return Ruling.near(decided, near, deadline);
    }
    Truth doubt = doubt(required, fall.early(), decided);
    if (doubt != Truth.FALSE) {
      return Ruling.doubtful(doubt, decided, deadline);
    }
    return contested ? Ruling.near(decided, m0, deadline) : Ruling.met(decided, deadline);
  }

  @Override
  public Truth doubtBefore(int m0, long rise) {
    Opening fall = opening(m0);
    long until = Math.min(rise - 1, Slack.closes(fall.deadline(), slack.shorter()));
    Truth doubt = doubt(required, fall.early(), until);
    boolean contested = after == 0 && order.contests(seen, m0);
    boolean fell = Search.first(required, Truth.FALSE, fall.early()) <= until;
    return doubt == Truth.UNKNOWN ? doubt : fell || contested ? Truth.BORDERLINE : doubt;
  }

  @Override
  public void measure(int m0, Ruling ruling, long spared, Margins margins) {
    if (ruling.ending() == Ruling.Ending.CANCELLED || spared <= ruling.decided()) {
      return;
    }
    Opening fall = opening(m0);
    if (distance.isPresent()) {
      for (long m = m0 + after; m <= ruling.decided(); m++) {
        margins.quantity(distance.get().values()[(int) m], distance.get().unit(), m, m0);
      }
    } else if (after == 0 && fall.at() == m0 || fall.isInTimeOrNear(slack)) {
      margins.time(fall.at() - fall.deadline(), fall.at(), m0, false);
    }
  }
}
