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
  private final Optional<Distance> distance;
  private final Optional<Demand.Stay> stay;
  private final Truth[] release;
  private final long last;
  private final long doubled;

  /** @param doubled twice the resolution, in moments */
  private Responses(Moments moments, BoolExpr required, boolean surely, Optional<Distance> distance, Optional<Demand.Stay> stay, long doubled) {
    Truth unknownAs = surely ? Truth.FALSE : null;
    this.required = moments.truths.of(required, unknownAs);
    this.distance = distance;
    this.stay = stay;
    this.release = stay.isPresent() && stay.get() instanceof Demand.StayUntil until ? moments.truths.of(until.release(), unknownAs) : null;
    this.last = moments.last();
    this.doubled = doubled;
  }

  static Form of(Moments moments, Demand.AtOnce demand, long resolution, boolean surely) {
    return new Responses(moments, demand.required(), surely, Distance.of(moments, demand.required()), demand.stay(),
        2 * resolution).new AtOnce();
  }

  static Form of(Moments moments, Demand.Within demand, long resolution, boolean surely) {
    return new Responses(moments, demand.required(), surely, Optional.empty(), demand.stay(), 2 * resolution)
        .new Within(2 * demand.after(), 2 * demand.within());
  }

  private final class AtOnce implements Form {

    @Override
    public Ruling judge(int m0) {
      return switch (required[m0]) {
        case TRUE -> stays(m0);
        case FALSE -> Ruling.missed(Kind.NOT_AT_TRIGGER, m0, m0, m0);
        case UNKNOWN, BORDERLINE -> Ruling.doubtful(required[m0], m0, m0);
      };
    }

    @Override
    public long[] staying(int m0) {
      return stay.isPresent() && required[m0] == Truth.TRUE ? new long[] {m0, stays(m0).decided()} : null;
    }

    @Override
    public void measure(int m0, Ruling ruling, Margins margins) {
      if (ruling.ending() == Ruling.Ending.CANCELLED) {
        return;
      }
      if (distance.isPresent() && stay.isEmpty()) {
        margins.quantity(distance.get().values()[m0], distance.get().unit(), m0, m0);
      } else if (required[m0] == Truth.TRUE) {
        measureStay(m0, m0, margins);
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

    @Override
    public Ruling judge(int m0) {
      long opened = m0 + after;
      long deadline = opened + within;
      long response = first(required, Truth.TRUE, opened);
      boolean inTime = response == opened || response <= deadline - doubled;
      boolean near = !inTime && Math.abs(response - deadline) < doubled;
      if (!inTime && !near) {
        return unanswered(opened, deadline);
      }
      if (stay.isEmpty()) {
        return near ? Ruling.near(response, response, deadline)
            : wasSo(m0, response) ? Ruling.alreadySo(response) : Ruling.met(response, deadline);
      }
      Truth doubt = doubt(required, opened, response - 1);
      if (doubt != Truth.FALSE) {
        return Ruling.doubtful(doubt, response, deadline);
      }
      Ruling stayed = stays(response);
      if (stayed.ending() != Ruling.Ending.MET) {
        return stayed;
      }
      return near ? Ruling.near(stayed.decided(), stayed.decided(), stayed.deadline())
          : wasSo(m0, response) ? Ruling.alreadySo(stayed.decided()) : stayed;
    }

    @Override
    public long[] staying(int m0) {
      long opened = m0 + after;
      long response = response(m0);
      boolean stays = stay.isPresent() && response <= last && isInTimeOrNear(response, opened) && !wasSo(m0, response)
          && doubt(required, opened, response - 1) == Truth.FALSE;
      return stays ? new long[] {response, stays(response).decided()} : null;
    }

    /** Whether nothing shows that the demand was ever otherwise, from before the trigger up to the response. */
    private boolean wasSo(int m0, long response) {
      return first(required, Truth.FALSE, Math.max(m0 - Math.max(doubled, 1), 0)) > response;
    }

    @Override
    public long response(int m0) {
      return first(required, Truth.TRUE, m0 + after);
    }

    private boolean isInTimeOrNear(long response, long opened) {
      long deadline = opened + within;
      return response == opened || response < deadline + doubled || response <= deadline;
    }

    @Override
    public void measureLateness(int m0, Ruling ruling, Margins margins) {
      long deadline = m0 + after + within;
      long response = response(m0);
      if (!isInTimeOrNear(response, m0 + after) && deadline <= last && !ruling.doubted()) {
        long place = Math.min(response, last);
        margins.time(deadline - place, place, m0, response == NEVER);
      }
    }

    private Ruling unanswered(long opened, long deadline) {
      if (deadline > last) {
        return Ruling.open(last, deadline);
      }
      long decided = Math.min(closes(deadline), last);
      Truth doubt = doubt(required, opened, decided);
      return doubt == Truth.FALSE ? Ruling.missed(Kind.NO_RESPONSE, decided, deadline, deadline)
          : Ruling.doubtful(doubt, decided, deadline);
    }

    @Override
    public void measure(int m0, Ruling ruling, Margins margins) {
      long opened = m0 + after;
      long deadline = opened + within;
      long response = response(m0);
      boolean inTimeOrNear = isInTimeOrNear(response, opened);
      if (ruling.ending() == Ruling.Ending.CANCELLED && response >= ruling.decided()) {
        return;
      }
      if (!inTimeOrNear) {
        measureLateness(m0, ruling, margins);
      } else if (!wasSo(m0, response)) {
        margins.time(deadline - response, response, m0, false);
      }
      boolean cancelled = ruling.ending() == Ruling.Ending.CANCELLED;
      if (inTimeOrNear && !cancelled && stay.isPresent() && doubt(required, opened, response - 1) == Truth.FALSE) {
        measureStay(m0, response, margins);
      }
    }
  }

  /** The last moment at which something can still be near a deadline. */
  private long closes(long deadline) {
    return doubled == 0 ? deadline : deadline + doubled - 1;
  }

  /** How what has to stay true from the response on ends; met at once where nothing has to. */
  private Ruling stays(long response) {
    if (stay.isEmpty()) {
      return Ruling.met(response, response);
    }
    return stay.get() instanceof Demand.StayFor stayFor ? staysFor(response, response + 2 * stayFor.duration())
        : staysUntil(response);
  }

  private Ruling staysFor(long response, long deadline) {
    long fell = first(required, Truth.FALSE, response + 1);
    if (doubled == 0 ? fell <= deadline : fell <= deadline - doubled) {
      return Ruling.missed(Kind.NOT_SUSTAINED, fell, fell, deadline);
    }
    if (Math.abs(fell - deadline) < doubled) {
      return Ruling.near(fell, fell, deadline);
    }
    if (deadline > last) {
      return Ruling.open(last, deadline);
    }
    long decided = Math.min(closes(deadline), last);
    Truth doubt = doubt(required, response, decided);
    return doubt == Truth.FALSE ? Ruling.met(decided, deadline) : Ruling.doubtful(doubt, decided, deadline);
  }

  private Ruling staysUntil(long response) {
    Truth sustained = Truth.FALSE;
    Truth released = Truth.FALSE;
    for (long m = response; m <= last; m++) {
      if (release[(int) m] == Truth.TRUE) {
        return sustained == Truth.FALSE ? Ruling.met(m, m) : Ruling.doubtful(sustained, m, m);
      }
      sustained = Search.worse(sustained, required[(int) m]);
      released = Search.worse(released, release[(int) m]);
      if (required[(int) m] == Truth.FALSE) {
        return released == Truth.FALSE ? Ruling.missed(Kind.NOT_SUSTAINED, m, m, m) : Ruling.doubtful(released, m, m);
      }
    }
    return sustained == Truth.FALSE ? Ruling.met(last, last) : Ruling.doubtful(sustained, last, last);
  }

  private void measureStay(long m0, long response, Margins margins) {
    if (stay.isPresent() && stay.get() instanceof Demand.StayFor stayFor) {
      long deadline = response + 2 * stayFor.duration();
      long fell = first(required, Truth.FALSE, response + 1);
      if (fell <= closes(deadline)) {
        margins.time(fell - deadline, fell, m0, false);
      }
    }
  }
}
