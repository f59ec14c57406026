package dev.pawl.engine.zone;

import dev.pawl.engine.graph.Begun;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.Node;
import dev.pawl.grammar.rules.model.Truth;
import java.util.List;

/**
 * Whether the number of trains that is stated for the trace's first instant still is right when the zone begins: its
 * flags have to be seen soon enough, and as they were at first. Decided when the zone begins; it costs nothing any more
 * from then on.
 */
public final class Opening extends Node {

  private final Begun zone;
  private final List<Flag> flags;
  private final long within;
  private final int[] first;
  private boolean asAtFirst = true;
  private boolean decided;

  /**
   * A flag of the zone.
   *
   * @param begun whether it has begun
   */
  public record Flag(BoolNode truth, Begun begun) {}

  /**
   * For the flags at both ends of a zone.
   *
   * @param zone whether the zone has begun
   * @param within how soon it has to begin, nanoseconds
   */
  public Opening(Begun zone, List<Flag> flags, long within) {
    this.zone = zone;
    this.flags = flags;
    this.within = Moments.span(within);
    this.first = new int[flags.size()];
  }

  @Override
  protected void connect() {
    for (Flag flag : flags) {
      dependOn(flag.truth);
      dependOnRise(flag.begun);
    }
    dependOnRise(zone);
  }

  @Override
  public boolean update(long moment) {
    if (decided) {
      return false;
    }
    for (int i = 0; i < first.length; i++) {
      Flag flag = flags.get(i);
      first[i] = moment == graph.start() ? flag.truth.value : first[i];
      asAtFirst &= isAsAtFirst(flag, first[i]);
    }
    decided = zone.at() == moment;
    if (decided) {
      flags.forEach(flag -> heed(flag.truth, false));
    }
    return decided;
  }

  /** One that was not seen at first has to come false, since it may have just become true otherwise. */
  private static boolean isAsAtFirst(Flag flag, int first) {
    int now = flag.truth.value;
    if (first != Truth.U) {
      return now == first && !Kleene.isUnknown(now);
    }
    return now == Truth.F || now == Truth.U && flag.begun.at() == Moments.FOREVER;
  }

  /** Whether the zone has begun by the moment last evaluated, and the stated number is right. */
  boolean counts() {
    return decided && asAtFirst && zone.at() - graph.start() <= within;
  }
}
