package dev.pawl.engine.operator;

import dev.pawl.engine.graph.Begun;
import dev.pawl.engine.graph.Moments;
import java.util.Optional;

/**
 * The moment at which something that looks back begins, if that is so late that events in it may have happened before
 * anybody looked.
 */
public final class LateBeginning {

  /** Of what has no events in it. */
  public static final LateBeginning NEVER = new LateBeginning(Optional.empty(), 0);

  private final Optional<Begun> begun;
  private final long within;

  /**
   * Of what has events in it.
   *
   * @param within how soon after the start it has to begin for them to be known, nanoseconds
   */
  public LateBeginning(Begun begun, long within) {
    this(Optional.of(begun), Moments.span(within));
  }

  private LateBeginning(Optional<Begun> begun, long within) {
    this.begun = begun;
    this.within = within;
  }

  /** What says whether it has begun; empty for what has no events in it. */
  Optional<Begun> begun() {
    return begun;
  }

  /** Whether it is now. */
  boolean isAt(long moment, long start) {
    return begun.isPresent() && begun.get().at() == moment && moment - start > within;
  }
}
