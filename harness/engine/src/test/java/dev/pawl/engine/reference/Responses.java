package dev.pawl.engine.reference;

import static dev.pawl.engine.reference.Search.NEVER;
import static dev.pawl.engine.reference.Search.doubt;
import static dev.pawl.engine.reference.Search.first;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Truth;
import java.util.Optional;

/** {@code must P} and {@code must P after D1 within D2}, each with what has to stay afterwards. */
final class Responses {
  private final Truth[] required;
  /** The same as it has to stay so. */
  private final Truth[] staying;
  /** What is required, with what is unknown left as it is. */
  private final Condition seen;
  private final Optional<Distance> distance;
  private final Optional<Demand.Stay> stay;
  private final Truth[] release;
  private final Moments moments;
  private final long last;
  private final Slack slack;
  private final Order order;
  private final boolean surely;
  /** Whether the values of one instant are no image. */
  private final boolean scattered;

  private Responses(Moments moments, Reading reading, BoolExpr required, boolean surely, Optional<Distance> distance,
      Optional<Demand.Stay> stay, Slack slack, Order order, boolean scattered) {
    this.moments = moments;
    this.order = order;
    this.surely = surely;
    Truth unknownAs = surely ? Truth.FALSE : null;
    this.seen = reading.of(required);
    this.required = seen.read(unknownAs);
    this.staying = seen.toStay(unknownAs);
    this.distance = distance;
    this.stay = stay;
    this.release = stay.isPresent() && stay.get() instanceof Demand.StayUntil until
        ? reading.of(until.release()).read(unknownAs) : null;
    this.last = moments.last();
    this.scattered = scattered;
    this.slack = slack;
  }

  static Form of(Moments moments, Reading reading, Demand.AtOnce demand, Slack slack, Order order, boolean surely,
      boolean scattered) {
    return new Responses(moments, reading, demand.required(), surely, Distance.of(moments, demand.required()),
        demand.stay(), slack, order, scattered)
        .new AtOnce();
  }

  static Form of(Moments moments, Reading reading, Demand.Within demand, Slack slack, Order order, boolean surely,
      boolean scattered) {
    return new Responses(moments, reading, demand.required(), surely, Optional.empty(), demand.stay(), slack, order,
        scattered)
        .new Within(2 * demand.after(), 2 * demand.within());
  }

  private final class AtOnce implements Form {
    @Override
    public Ruling judge(int m0) {
      int sure = order.surely(m0, moments);
      if (stay.isEmpty()) {
        return atTrigger(m0, sure);
      }
      if (required[sure] != Truth.TRUE) {
        return unanswered(m0, sure);
      }
      int began = began(m0, sure);
      Truth doubt = doubt(required, m0, began - 1L);
      if (doubt != Truth.FALSE) {
        return Ruling.doubtful(doubt, sure, m0);
      }
      if (first(required, Truth.TRUE, m0) < began) {
        return Ruling.near(sure, lastTrue(began - 1), m0);
      }
      boolean near = began > m0 || order.contests(seen, m0);
      if (stay.get() instanceof Demand.StayUntil && release[sure] != Truth.TRUE) {
        long released = lastReleased(began, sure);
        if (released != NEVER) {
          return Ruling.near(sure, released, m0);
        }
      }
      Ruling stayed = stays(began, began, sure);
      return near && stayed.ending() == Ruling.Ending.MET ? Ruling.near(stayed.decided(), stayed.decided(),
          stayed.deadline()) : stayed;
    }

    @Override
    public Truth doubtBefore(int m0, long rise) {
      int sure = order.surely(m0, moments);
      boolean contested = order.contests(seen, m0);
      if (rise <= sure) {
        Truth doubt = doubt(required, m0, rise - 1);
        boolean wasFalse = first(required, Truth.FALSE, m0) < rise;
        return doubt == Truth.UNKNOWN ? doubt : wasFalse || contested ? Truth.BORDERLINE : doubt;
      }
      int began = began(m0, sure);
      Truth doubt = doubt(staying, began, rise - 1);
      return doubt == Truth.FALSE && (began > m0 || contested) ? Truth.BORDERLINE : doubt;
    }

    private int began(int m0, int sure) {
      int began = sure;
      while (began > m0 && required[began - 1] == Truth.TRUE) {
        began--;
      }
      return began;
    }

    private int lastTrue(int from) {
      int m = from;
      while (required[m] != Truth.TRUE) {
        m--;
      }
      return m;
    }

    private Ruling unanswered(int m0, int sure) {
      if (first(required, Truth.TRUE, m0) < sure) {
        return Ruling.near(sure, lastTrue(sure), m0);
      }
      Truth doubt = doubt(required, m0, sure);
      if (doubt != Truth.FALSE) {
        return Ruling.doubtful(doubt, sure, m0);
      }
      return order.contests(seen, m0) ? Ruling.near(sure, m0, m0) : Ruling.missed(Kind.NOT_AT_TRIGGER, sure, m0, m0);
    }

    /** Where nothing has to stay so. */
    private Ruling atTrigger(int m0, int sure) {
      boolean shown = order.shows(required, Truth.TRUE, m0) || order.shows(required, Truth.FALSE, m0);
      if (shown && seen.waversIn(m0 + 1L, sure)) {
        return Ruling.near(sure, m0, m0);
      } else if (shown) {
        return required[m0] == Truth.TRUE ? new Ruling(Ruling.Ending.MET, null, sure, m0, m0, false)
            : Ruling.missed(Kind.NOT_AT_TRIGGER, sure, m0, m0);
      }
      if (first(required, Truth.UNKNOWN, m0) <= sure) {
        return new Ruling(Ruling.Ending.UNKNOWN, Kind.UNKNOWN, sure, m0, m0, true);
      }
      boolean wasTrue = first(required, Truth.TRUE, m0) <= sure;
      boolean wasFalse = first(required, Truth.FALSE, m0) <= sure;
      if (required[m0] == Truth.BORDERLINE || wasTrue && wasFalse || order.contests(seen, m0)
          || seen.waversIn(m0 + 1L, sure)) {
        return Ruling.near(sure, m0, m0);
      }
      return wasTrue ? new Ruling(Ruling.Ending.MET, null, sure, m0, m0, false)
          : Ruling.missed(Kind.NOT_AT_TRIGGER, sure, m0, m0);
    }

    @Override
    public long cancellable(int m0, Ruling ruling) {
      return stay.isEmpty() ? m0 : ruling.decided();
    }

    @Override
    public long[] staying(int m0) {
      int sure = order.surely(m0, moments);
      if (stay.isEmpty() || required[sure] != Truth.TRUE) {
        return null;
      }
      int began = began(m0, sure);
      boolean another = first(required, Truth.TRUE, m0) < began || doubt(required, m0, began - 1L) != Truth.FALSE;
      return another || releasedNear(began, sure) ? null : new long[] {sure, stayEnds(began, began, sure)};
    }

    private boolean releasedNear(int began, int sure) {
      return release != null && release[sure] != Truth.TRUE && lastReleased(began, sure) != NEVER;
    }

    @Override
    public void measure(int m0, Ruling ruling, long spared, Margins margins) {
      if (ruling.ending() == Ruling.Ending.CANCELLED) {
        return;
      }
      if (distance.isPresent() && stay.isEmpty()) {
        margins.quantity(distance.get().values()[m0], distance.get().unit(), m0, m0);
      } else if (staying(m0) != null) {
        measureStay(m0, began(m0, order.surely(m0, moments)), spared, margins);
      }
    }
  }

  private final class Within implements Form {
    private final long after;
    private final long within;

    private Within(long after, long within) {
      this.after = after;
      this.within = within;
    }

    private Opening opening(int m0) {
      return Opening.of(required, Truth.TRUE, m0, after, within, slack,
          order.surely(m0, moments, required, Truth.TRUE));
    }

    @Override
    public Ruling judge(int m0) {
      Opening response = opening(m0);
      long deadline = response.deadline();
      if (!response.isInTimeOrNear(slack)) {
        return unanswered(m0, response);
      }
      boolean near = !response.isInTime(slack) && !isSoAtTrigger(m0, response);
      if (stay.isEmpty()) {
        return near ? Ruling.near(response.seen(), response.at(), deadline)
            : wasSo(m0, response.at()) ? Ruling.alreadySo(response.seen())
            : new Ruling(Ruling.Ending.MET, null, response.seen(), response.at(), deadline, false);
      }
      Truth doubt = doubt(required, response.early(), response.began() - 1);
      if (doubt != Truth.FALSE) {
        return Ruling.doubtful(doubt, response.seen(), deadline);
      }
      long another = response.nearOpening(required, Truth.TRUE, response.began() - 1);
      if (another != NEVER) {
        return Ruling.near(response.seen(), another, deadline);
      }
      if (mayHaveComeBefore(m0, response)) {
        return Ruling.near(response.seen(), m0, deadline);
      }
      long release = releaseNearOpening(response);
      if (release != NEVER) {
        return Ruling.near(response.seen(), release, deadline);
      }
      Ruling stayed = stays(Math.max(response.early(), response.began()), response.at(), response.seen());
      if (stayed.ending() != Ruling.Ending.MET) {
        return stayed;
      }
      return near ? Ruling.near(stayed.decided(), stayed.decided(), stayed.deadline())
          : wasSo(m0, response.at()) ? Ruling.alreadySo(stayed.decided()) : stayed;
    }

    @Override
    public long[] staying(int m0) {
      Opening response = opening(m0);
      boolean stays = stay.isPresent() && response.isInTimeOrNear(slack)
          && !((response.isInTime(slack) || isSoAtTrigger(m0, response)) && wasSo(m0, response.at()))
          && doubt(required, response.early(), response.began() - 1) == Truth.FALSE
          && response.nearOpening(required, Truth.TRUE, response.began() - 1) == NEVER
              && !mayHaveComeBefore(m0, response)
          && releaseNearOpening(response) == NEVER;
      return stays ? new long[] {response.seen(), stayEnds(Math.max(response.early(), response.began()), response.at(),
          response.seen())} : null;
    }

    @Override
    public Truth doubtBefore(int m0, long rise) {
      Opening response = opening(m0);
      if (stay.isEmpty() || response.seen() >= rise) {
        return Truth.FALSE;
      }
      boolean near = !response.isInTime(slack) && !isSoAtTrigger(m0, response);
      Truth doubt = doubt(staying, Math.max(response.early(), response.began()), rise - 1);
      return doubt == Truth.FALSE && near ? Truth.BORDERLINE : doubt;
    }

    /** Whether the response was there already when the trigger happened. */
    private boolean isSoAtTrigger(int m0, Opening response) {
      return !surely && after == 0 && response.began() == m0
          && TruthTables.before(seen.expression(), required, m0) == Truth.TRUE
          && !order.contests(seen, m0);
    }

    /** Whether there may have been a response that seems to have ended before the trigger. */
    private boolean mayHaveComeBefore(int m0, Opening response) {
      return after == 0 && response.began() > m0 && order.contests(seen, m0);
    }

    /** Whether nothing shows that the demand was ever otherwise, from before the trigger up to the response. */
    private boolean wasSo(int m0, long response) {
      return first(required, Truth.FALSE, Math.max(m0 - Math.max(slack.longer(), 1), 0)) > response;
    }

    @Override
    public long response(int m0) {
      return opening(m0).at();
    }

    @Override
    public void measureLateness(int m0, Ruling ruling, Margins margins) {
      Opening response = opening(m0);
      if (!response.isInTimeOrNear(slack) && Slack.closes(response.deadline(), slack.shorter()) <= last
          && !ruling.doubted()
          && ruling.ending() != Ruling.Ending.BORDERLINE) {
        long place = Math.min(response.at(), last);
        margins.time(response.deadline() - place, place, m0, response.at() == NEVER);
      }
    }

    private Ruling unanswered(int m0, Opening response) {
      long deadline = response.deadline();
      long decided = Slack.closes(deadline, slack.shorter());
      if (decided > last) {
        return Ruling.open(last, deadline);
      }
      long near = response.nearOpening(required, Truth.TRUE, decided);
      if (near != NEVER) {
        return Ruling.near(decided, near, deadline);
      }
      Truth doubt = doubt(required, response.early(), decided);
      if (doubt != Truth.FALSE) {
        return Ruling.doubtful(doubt, decided, deadline);
      }
      return after == 0 && order.contests(seen, m0) ? Ruling.near(decided, m0, deadline)
          : Ruling.missed(Kind.NO_RESPONSE, decided, deadline, deadline);
    }

    @Override
    public void measure(int m0, Ruling ruling, long spared, Margins margins) {
      Opening response = opening(m0);
      boolean inTimeOrNear = response.isInTimeOrNear(slack);
      if (ruling.ending() == Ruling.Ending.CANCELLED && response.seen() >= ruling.decided()) {
        return;
      }
      if (!inTimeOrNear) {
        measureLateness(m0, ruling, margins);
      } else if (!wasSo(m0, response.at()) && response.seen() < spared) {
        margins.time(response.deadline() - response.at(), response.at(), m0, false);
      }
      boolean cancelled = ruling.ending() == Ruling.Ending.CANCELLED;
      if (inTimeOrNear && !cancelled && stay.isPresent() && doubt(required, response.early(),
          response.began() - 1) == Truth.FALSE && response.nearOpening(required, Truth.TRUE,
          response.began() - 1) == NEVER && !mayHaveComeBefore(m0, response)) {
        measureStay(m0, response.at(), spared, margins);
      }
    }
  }

  /**
   * When what ends the staying was so, near the opening, before it is known that the response came;
   * {@link Search#NEVER} where it ends it anyway.
   */
  private long releaseNearOpening(Opening response) {
    boolean asks = stay.isPresent() && stay.get() instanceof Demand.StayUntil
        && release[(int) response.seen()] != Truth.TRUE;
    return asks ? lastReleased(Math.max(response.early(), response.began()), response.seen()) : NEVER;
  }

  /** The last moment of {@code [from, to)} at which what ends the staying was so; {@link Search#NEVER} for none. */
  private long lastReleased(long from, long to) {
    for (long m = Math.min(to, moments.count) - 1; m >= Math.max(from, 0); m--) {
      if (release[(int) m] == Truth.TRUE) {
        return m;
      }
    }
    return NEVER;
  }

  /** Whether what ends the staying went so soon before the response that it may have been there still. */
  private boolean mayHaveEnded(long response) {
    long released = lastReleased(0, response);
    return released != NEVER && released > response - slack.apart() && released < (scattered ? response : response - 1);
  }

  /** When what had to stay so had to no longer: at the first release or fall, or when its time was over. */
  private long stayEnds(long early, long response, long seen) {
    return stay.get() instanceof Demand.StayFor ? stays(early, response, seen).decided()
        : Math.min(Math.min(first(release, Truth.TRUE, seen), first(staying, Truth.FALSE, seen)), last);
  }

  /** How what has to stay true from the response on ends; met at once where nothing has to. */
  private Ruling stays(long early, long response, long seen) {
    if (stay.isEmpty()) {
      return Ruling.met(response, response);
    }
    return stay.get() instanceof Demand.StayFor stayFor ? staysFor(response, response + 2 * stayFor.duration())
        : staysUntil(early, seen);
  }

  private Ruling staysFor(long response, long deadline) {
    long fell = first(staying, Truth.FALSE, response + 1);
    if (fell <= deadline - slack.apart()) {
      return Ruling.missed(Kind.NOT_SUSTAINED, fell, fell, deadline);
    }
    if (fell <= Slack.closes(deadline, slack.apart())) {
      return Ruling.near(fell, fell, deadline);
    }
    long decided = Slack.closes(deadline, slack.apart());
    if (decided > last) {
      return Ruling.open(last, deadline);
    }
    Truth doubt = doubt(staying, response, decided);
    return doubt == Truth.FALSE ? Ruling.met(decided, deadline) : Ruling.doubtful(doubt, decided, deadline);
  }

  private Ruling staysUntil(long early, long seen) {
    long released = releasedSince(early, first(release, Truth.TRUE, seen), seen);
    long fell = first(staying, Truth.FALSE, seen);
    boolean oneImage = released == early
        || released != NEVER && !scattered && (released == fell
        || released < fell && falls(released));
    if (!oneImage && released != NEVER && fell != NEVER && Math.abs(released - fell) < slack.apart()) {
      long later = Math.max(released, fell);
      return Ruling.near(later, later, later);
    }
    boolean exact = oneImage || slack.apart() == 0;
    long ended = Math.min(Math.min(released, fell), last);
    long decided = Math.min(Math.max(exact ? ended : Slack.closes(ended, slack.apart()), seen), last);
    if (fell < released) {
      Truth doubt = doubt(release, early, decided);
      if (doubt == Truth.FALSE && release[(int) seen] != Truth.TRUE && mayHaveEnded(early)) {
        return Ruling.near(decided, fell, fell);
      }
      return doubt == Truth.FALSE ? new Ruling(Ruling.Ending.MISSED, Kind.NOT_SUSTAINED, decided, fell, fell, false)
          : Ruling.doubtful(doubt, decided, decided);
    }
    Truth doubt = doubt(staying, seen, exact && released != NEVER ? released - 1 : decided);
    return doubt == Truth.FALSE ? Ruling.met(decided, decided) : Ruling.doubtful(doubt, decided, decided);
  }

  /** When a release began that is there when the response has surely come, but not before that may have come. */
  private long releasedSince(long early, long released, long seen) {
    long since = released;
    while (released == seen && since > early && release[(int) since - 1] == Truth.TRUE) {
      since--;
    }
    return since;
  }

  /** Whether the demand seems to fall at a moment, if only briefly. */
  private boolean falls(long m) {
    Truth[] table = seen.seen();
    return table[(int) m] == Truth.FALSE && m > 0 && table[(int) m - 1] != Truth.FALSE;
  }

  private void measureStay(long m0, long response, long spared, Margins margins) {
    if (stay.isPresent() && stay.get() instanceof Demand.StayFor stayFor) {
      long deadline = response + 2 * stayFor.duration();
      long fell = first(staying, Truth.FALSE, response + 1);
      if (fell <= Slack.closes(deadline, slack.apart()) && fell < spared) {
        margins.time(fell - deadline, fell, m0, false);
      }
    }
  }
}
