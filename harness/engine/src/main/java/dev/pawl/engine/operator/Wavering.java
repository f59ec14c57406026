package dev.pawl.engine.operator;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.SignalState;
import dev.pawl.grammar.rules.model.Truth;
import java.util.Arrays;
import java.util.List;

/**
 * A condition that rests on several signals, borderline at each moment at which it wavers: it seems to keep its value
 * there, but may have been otherwise, since the order is open in which its parts turned.
 */
public final class Wavering extends BoolNode {

  /**
   * A part of the condition.
   *
   * @param signal the one signal that it rests on, whose changes keep their order; -1 where it rests on several
   * @param apart how far, in moments, a change has to be before this part's for their order to be certain
   * @param sampled whether that is so of changes at one moment too
   * @param signals all that it rests on
   */
  public record Part(BoolNode node, int signal, long apart, boolean sampled, List<SignalState> signals) {

    /** Whether it turns; what time alone makes borderline, or makes known again, has been allowed for. */
    private boolean turns(int before, long moment) {
      int now = node.value;
      return now != before && now != Truth.U && before != Truth.U
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
    if (turns && seen.value == seenBefore && !Kleene.isUnknown(seen.value) && mayBeOtherwise(moment)) {
      wavered = moment;
      graph.wakeAfter(this);
    }
    seenBefore = seen.value;
    return become(wavered == moment ? Truth.B : seen.value);
  }

  private boolean turn(long moment) {
    boolean any = false;
    for (int part = 0; part < parts.length; part++) {
      if (parts[part].turns(known[part], moment)) {
        turned[part] = moment;
        any = true;
      }
      known[part] = parts[part].node.value;
    }
    return any;
  }

  private boolean mayBeOtherwise(long moment) {
    for (int latest = 0; latest < parts.length; latest++) {
      if (turned[latest] == moment) {
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
    if (one.signal >= 0 && one.signal == other.signal || turned[part] == Moments.NEVER) {
      return false;
    }
    return turned[part] == moment ? one.sampled || other.sampled : turned[part] > moment - other.apart;
  }

  @Override
  public BoolNode seen() {
    return seen;
  }

  @Override
  public long wavered() {
    return wavered;
  }
}
