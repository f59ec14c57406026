package dev.pawl.engine.operator;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.SignalState;
import dev.pawl.grammar.rules.model.Truth;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/**
 * A condition that rests on several signals, borderline at each moment at which it wavers: it seems to keep its value
 * there, but may have been otherwise, since the order is open in which its parts turned. It also wavers at an event in
 * it, and after one, when a part turns so near to that event that it may have been otherwise then.
 */
public final class Wavering extends BoolNode {

  /**
   * A part of the condition.
   *
   * @param signal the one signal that it rests on, whose changes keep their order; -1 where it rests on several
   * @param apart how far, in moments, a change has to be before this part's for their order to be certain
   * @param sampled whether that is so of changes at one moment too
   * @param event whether it has an event
   * @param signals all that it rests on
   */
  public record Part(BoolNode node, int signal, long apart, boolean sampled, boolean event,
      List<SignalState> signals) {

    private boolean happens(int before) {
      return event && node.value == Truth.T && before != Truth.T;
    }

    /** Whether it turns; what time alone makes borderline, or makes known again, has been allowed for. */
    private boolean turns(int before, long moment) {
      int now = node.value;
      return !event && now != before && now != Truth.U && before != Truth.U
          && (now != Truth.B && before != Truth.B || SignalState.lastChange(signals) == moment);
    }
  }

  /** How the truth of a condition follows from that of its parts, given in their order. */
  public interface Formula {
    int truth(int[] parts);
  }

  private final BoolNode seen;
  private final Part[] parts;
  private final Formula formula;
  private final int[] known;
  private final long[] turned;
  private final int[] tried;
  private final Happening[] happenings;
  private int seenBefore = Truth.U;
  private long wavered = Moments.NEVER;

  /**
   * A condition.
   *
   * @param seen the condition as it seems to be
   */
  public Wavering(BoolNode seen, List<Part> parts, Formula formula) {
    this.seen = seen;
    this.parts = parts.toArray(Part[]::new);
    this.formula = formula;
    this.known = new int[this.parts.length];
    this.turned = new long[known.length];
    this.tried = new int[known.length];
    this.happenings = IntStream.range(0, known.length).filter(part -> this.parts[part].event).mapToObj(Happening::new)
        .toArray(Happening[]::new);
    Arrays.fill(known, Truth.U);
    Arrays.fill(turned, Moments.NEVER);
  }

  @Override
  protected void connect() {
    dependOn(seen);
    for (Part part : parts) {
      dependOn(part.node);
    }
    value = seen.value;
  }

  @Override
  public boolean update(long moment) {
    boolean turns = turn(moment);
    boolean wavers = turns && seen.value == seenBefore && !Kleene.isUnknown(seen.value) && mayBeOtherwise(moment);
    for (Happening happening : happenings) {
      wavers |= happening.mayBeOtherwise(moment);
    }
    if (wavers) {
      wavered = moment;
      graph.wakeAfter(this);
    }
    seenBefore = seen.value;
    return become(wavered == moment && seen.value != Truth.U ? Truth.B : seen.value);
  }

  private boolean turn(long moment) {
    boolean any = false;
    for (int part = 0; part < parts.length; part++) {
      boolean turns = parts[part].turns(known[part], moment);
      if (turns || parts[part].happens(known[part])) {
        turned[part] = moment;
        any |= turns;
      }
      known[part] = parts[part].node.value;
    }
    return any;
  }

  private boolean mayBeOtherwise(long moment) {
    for (int latest = 0; latest < parts.length; latest++) {
      if (turned[latest] == moment && !parts[latest].event) {
        for (int part = 0; part < parts.length; part++) {
          tried[part] = part != latest && isOpen(part, latest, moment) ? Truth.B : known[part];
        }
        if (formula.truth(tried) != seen.value) {
          return true;
        }
      }
    }
    return false;
  }

  /** Whether a part may have turned after another one that turns now. */
  private boolean isOpen(int part, int latest, long moment) {
    Part one = parts[part];
    Part other = parts[latest];
    if (one.event || one.signal >= 0 && one.signal == other.signal || turned[part] == Moments.NEVER) {
      return false;
    }
    return turned[part] == moment ? one.sampled || other.sampled : turned[part] > moment - other.apart;
  }

  /** When an event in it happened last; {@link Moments#NEVER} for never. */
  public long happened() {
    long last = Moments.NEVER;
    for (Happening happening : happenings) {
      last = Math.max(last, happening.at);
    }
    return last;
  }

  /** An event in the condition, and what that was when it happened last. */
  private final class Happening {
    private final int event;
    /** What the parts were then, or may have been. */
    private final int[] then = new int[parts.length];
    /** Which of them are what they seemed to be. */
    private final boolean[] exact = new boolean[parts.length];
    /** Which of them may turn in another image than the event. */
    private final boolean[] mayTurn = new boolean[parts.length];
    private int seenThen = Truth.U;
    private long at = Moments.NEVER;

    Happening(int event) {
      this.event = event;
      for (int part = 0; part < parts.length; part++) {
        mayTurn[part] = (!parts[part].event || isSampledWith(part))
            && !parts[event].signals.containsAll(parts[part].signals);
      }
    }

    /** Whether the condition may have been otherwise then, by what turns now. */
    boolean mayBeOtherwise(long moment) {
      boolean asks = turned[event] == moment;
      if (asks) {
        happen(moment);
      } else if (at != Moments.NEVER) {
        for (int part = 0; part < parts.length; part++) {
          asks |= turnsAfter(part, moment);
        }
      }
      return asks && !Kleene.isUnknown(seenThen) && formula.truth(then) != seenThen;
    }

    private void happen(long moment) {
      at = moment;
      seenThen = seen.value;
      for (int part = 0; part < parts.length; part++) {
        exact[part] = !mayTurn[part] || turned[part] == moment && !isSampledWith(part);
        boolean open = !exact[part] && turned[part] != Moments.NEVER
            && (turned[part] == moment || turned[part] > moment - parts[event].apart);
        then[part] = open ? Truth.B : known[part];
      }
    }

    private boolean turnsAfter(int part, long moment) {
      boolean turns = !exact[part] && turned[part] == moment && moment - at < parts[part].apart;
      then[part] = turns ? Truth.B : then[part];
      return turns;
    }

    private boolean isSampledWith(int part) {
      return parts[part].sampled || parts[event].sampled;
    }
  }

  @Override
  public BoolNode seen() {
    return seen;
  }

  /** What it becomes in an image may also rest on a part that turned before. */
  @Override
  public boolean mayHaveBeenOtherwise(long after, long moment, boolean scattered, List<SignalState> signals) {
    return seen.mayHaveBeenOtherwise(after, moment, scattered, signals)
        || !scattered && seen.since() == moment && restsOnTurned(after, moment);
  }

  private boolean restsOnTurned(long after, long moment) {
    for (int part = 0; part < parts.length; part++) {
      tried[part] = turned[part] > after && turned[part] < moment ? Truth.B : known[part];
    }
    return formula.truth(tried) != seen.value;
  }

  @Override
  public long wavered() {
    return wavered;
  }
}
