package dev.pawl.engine.judge;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.SignalState;
import dev.pawl.grammar.rules.model.Truth;
import java.util.List;

/**
 * When {@code unless} became true: obligations from before are cancelled, but for those that may have been missed
 * before that, the order being open. In moments.
 */
public final class Sparing {

  /** What is left open of an {@code unless}: its order with what breaks, and whether it was so at all. */
  public record Nearness(Order order, Doubt doubt) {

    public static final Nearness NONE = new Nearness(new Order(0, 0, false), Doubt.NONE);

    /** Of one that was surely so. */
    public static Nearness of(long before, long after, boolean sampled) {
      return new Nearness(new Order(Math.max(before, sampled ? 1 : 0), Math.max(after, sampled ? 1 : 0), sampled),
          Doubt.NONE);
    }

    /** The same of one that may not have been so, or only before the trigger. */
    public Nearness ofUncertain(Doubt uncertain) {
      return new Nearness(order, uncertain);
    }
  }

  /**
   * The order is open of an {@code unless} that came less than {@code before} before what breaks an obligation, or less
   * than {@code after} after it; of one that came with it where something is sampled, or it is a deadline.
   */
  public record Order(long before, long after, boolean sampled) {

    boolean isCertain() {
      return before == 0 && after == 0;
    }
  }

  /**
   * What lets an {@code unless} not have been so.
   *
   * @param beside it may have been so before the trigger only, if it ceases less than this after that, at most
   * @param behind the signals that it rests on
   * @param brief it may not have been so at all, if it ceases less than this after it became so
   * @param event whether it has an event, so that it ceases anyhow, and only wavering tells
   */
  public record Doubt(long beside, List<Behind> behind, long brief, boolean event) {

    static final Doubt NONE = new Doubt(0, List.of(), 0, false);

    /** How far it may have come before a moment at which it is seen to come: by the signals that changed then. */
    private long besideAt(long moment) {
      long near = 0;
      boolean changed = false;
      for (int i = 0; i < behind.size(); i++) {
        long changedAt = behind.get(i).signal.changedAt;
        if (changedAt != Moments.NEVER && Moments.of(changedAt) == moment) {
          changed = true;
          near = Math.max(near, behind.get(i).apart);
        }
      }
      return changed ? Math.min(near, beside) : beside;
    }
  }

  /** A signal behind it, and how far apart its changes are from others whose order with them is certain, in moments. */
  public record Behind(SignalState signal, long apart) {}

  private static final int ROSE = 0;
  /** When it first ceased after that, or wavered; {@link Moments#FOREVER} for not yet. */
  private static final int CEASED = 1;
  /** When it first wavered since. */
  private static final int WAVERED = 2;
  /** How near the trigger the order with that is open. */
  private static final int BESIDE = 3;

  private final Order order;
  private final Doubt doubt;
  /** How long after it became true all is known of what that cancels. */
  private final long lag;
  private final LongQueue rises = new LongQueue(4);
  private boolean spares;

  /** {@code lag}: how long after what breaks it an obligation is decided at most. */
  Sparing(Nearness nearness, long lag) {
    this.order = nearness.order;
    this.doubt = nearness.doubt;
    this.lag = Math.max(order.before + lag, Math.max(doubt.beside, doubt.brief));
  }

  /** Whether obligations are cancelled as soon as it is true. */
  boolean isExact() {
    return order.isCertain();
  }

  boolean isEmpty() {
    return rises.isEmpty();
  }

  /**
   * Takes note of whether it is true, and says whether it became so.
   *
   * @param isTrue as far as the triggers of this moment are concerned
   */
  boolean follow(BoolNode unless, boolean isTrue, long moment) {
    boolean wavers = unless.wavered() == moment;
    boolean ceases = wavers || unless.value == Truth.F || unless.value == Truth.U;
    for (int place = 0; place < rises.size(); place++) {
      rises.set(place, CEASED, ceases ? Math.min(moment, rises.get(place, CEASED)) : rises.get(place, CEASED));
      rises.set(place, WAVERED, wavers ? Math.min(moment, rises.get(place, WAVERED)) : rises.get(place, WAVERED));
    }
    boolean rises = isTrue && !spares;
    if (rises) {
      int place = this.rises.add();
      this.rises.set(place, ROSE, moment);
      this.rises.set(place, CEASED, Moments.FOREVER);
      this.rises.set(place, BESIDE, doubt.besideAt(moment));
      this.rises.set(place, WAVERED, wavers ? moment : Moments.FOREVER);
    }
    spares = isTrue;
    return rises;
  }

  /** When it first became true after a trigger; {@link Moments#NEVER} for not yet. */
  long since(long triggered) {
    int place = first(triggered);
    return place < 0 ? Moments.NEVER : rises.get(place, ROSE);
  }

  private int first(long triggered) {
    for (int place = 0; place < rises.size(); place++) {
      if (rises.get(place, ROSE) > triggered) {
        return place;
      }
    }
    return -1;
  }

  /** From this moment on it is certain whether it cancels an obligation of a trigger. */
  long certain(long triggered) {
    int place = first(triggered);
    return Math.max(triggered + rises.get(place, BESIDE), rises.get(place, ROSE) + doubt.brief);
  }

  /**
   * Whether it may not have been so when it became true after a trigger, or only before that, as far as is known.
   */
  boolean mayNotCancel(long triggered) {
    int place = first(triggered);
    return rises.get(place, CEASED) < triggered + rises.get(place, BESIDE)
        || rises.get(place, doubt.event ? WAVERED : CEASED) < rises.get(place, ROSE) + doubt.brief;
  }

  /** Whether it became true for the first time after a trigger when it last did. */
  boolean sparedJustNow(long triggered) {
    return since(triggered) == rises.get(rises.size() - 1, ROSE);
  }

  /** Whether it cancels an obligation that ends as {@code kind}, null for as is asked, at a place. */
  boolean cancels(Kind kind, long triggered, long place) {
    long rise = since(triggered);
    return rise != Moments.NEVER && (kind == null || rise <= place - order.before
        || rise == place && rise > triggered + 1 && !order.sampled && isAnEvent(kind));
  }

  /** Whether it may have become true before what breaks an obligation at a place. */
  boolean mayCancel(long triggered, long place) {
    long rise = since(triggered);
    return rise != Moments.NEVER && rise < place + order.after;
  }

  /** The moment from which on it surely became true after what broke an obligation at a place. */
  long surelyAfter(long place) {
    return place + order.after;
  }

  private static boolean isAnEvent(Kind kind) {
    return kind == Kind.NOT_THROUGHOUT || kind == Kind.NOT_SUSTAINED || kind == Kind.OUT_OF_ORDER;
  }

  /** The moment before which obligations are over that it cancels; {@link Moments#NEVER} for none at this moment. */
  long over(long moment) {
    return !rises.isEmpty() && (isExact() || rises.get(0, ROSE) + lag < moment) ? rises.get(0, ROSE) : Moments.NEVER;
  }

  void forgetOldest() {
    rises.removeFirst();
  }

  long nextWake() {
    return rises.isEmpty() ? Moments.FOREVER : rises.get(0, ROSE) + lag + 1;
  }
}
