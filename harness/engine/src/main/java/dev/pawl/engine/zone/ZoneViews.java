package dev.pawl.engine.zone;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.engine.graph.NumNode;
import dev.pawl.grammar.rules.model.Truth;

/**
 * What rules see of a zone's count. A zone brings its views up to date itself, since most of its changes change most of
 * them.
 */
public final class ZoneViews {

  private ZoneViews() {}

  /** {@code occupied(z)}, or its negation. */
  public static final class Occupied extends BoolNode {
    private final ZoneNode zone;
    private final boolean negated;
    private final boolean lookedBackAt;

    /** Looked back at, it is unknown at the moments at which the count is found wrong, since it was wrong before. */
    public Occupied(ZoneNode zone, boolean negated, boolean lookedBackAt) {
      this.zone = zone;
      this.negated = negated;
      this.lookedBackAt = lookedBackAt;
    }

    @Override
    protected void connect() {
      zone.addView(this);
    }

    @Override
    public boolean update(long moment) {
      if (lookedBackAt && zone.happens(Event.MISCOUNTS, moment)) {
        comeBack();
        return become(Truth.U);
      }
      int occupied = zone.least() > 0 ? Truth.T : zone.most() == 0 ? Truth.F : Truth.U;
      return become(negated ? Kleene.not(occupied) : occupied);
    }
  }

  /** {@code trains(z)}. */
  public static final class Trains extends NumNode {
    private final ZoneNode zone;
    private final boolean lookedBackAt;

    /** Looked back at, it is unknown at the moments at which the count is found wrong, since it was wrong before. */
    public Trains(ZoneNode zone, boolean lookedBackAt) {
      this.zone = zone;
      this.lookedBackAt = lookedBackAt;
    }

    @Override
    protected void connect() {
      zone.addView(this);
    }

    @Override
    public boolean update(long moment) {
      if (lookedBackAt && zone.happens(Event.MISCOUNTS, moment)) {
        comeBack();
        return become(Double.NaN);
      }
      return become(zone.least() == zone.most() ? zone.least() : Double.NaN);
    }
  }

  /** Which of the momentary events of a zone a node shows. */
  public enum Event {
    ENTERS,
    LEAVES,
    BACKS_OUT,
    MISCOUNTS
  }

  /** {@code enters(z)} and its like: true for the one moment. */
  public static final class Momentary extends BoolNode {
    private final ZoneNode zone;
    private final Event event;
    private final boolean momentary;

    public Momentary(ZoneNode zone, Event event) {
      this.zone = zone;
      this.event = event;
      this.value = Truth.F;
      // A train can come in at one end and, at the next moment, back in at the other; and miscounts can follow each
      // other.
      this.momentary = switch (event) {
        case ENTERS -> zone.entersAtOneEnd();
        case LEAVES, BACKS_OUT -> true;
        case MISCOUNTS -> false;
      };
    }

    @Override
    public boolean isMomentary() {
      return momentary;
    }

    @Override
    protected void connect() {
      zone.addView(this);
    }

    @Override
    public boolean update(long moment) {
      int atRest = zone.hides(event) ? Truth.U : Truth.F;
      boolean happens = zone.happens(event, moment);
      boolean maybe = event == Event.MISCOUNTS && zone.mayMiscount(moment);
      int truth = happens ? Truth.T : maybe ? Truth.U : atRest;
      boolean fallsByItself = happens && isMomentary();
      if (fallsByItself && value != Truth.T) {
        graph.raise(this);
      }
      if (atRest != (fallsByItself ? Truth.F : truth)) {
        comeBack();
      }
      return become(truth);
    }
  }
}
