package dev.pawl.engine.operator;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.engine.graph.Moments;
import dev.pawl.grammar.rules.model.Truth;

/** The operators that look back over a duration, and {@code since}. */
public final class Windows {

  private Windows() {}

  /**
   * The shortest and the longest span that one may have been whose ends are off by less than {@code slack}, in moments.
   */
  private record Spans(long shortest, long longest) {

    static Spans of(long duration, long slack) {
      long span = Moments.span(duration);
      return new Spans(Math.max(span - slack, 0), Moments.later(span, slack));
    }

    boolean areOne() {
      return shortest == longest;
    }
  }

  /**
   * How far off the times are of what is read at another's moment, in moments.
   *
   * @param slack by how much less a duration is off
   * @param brief for how few moments the operand may seem to be otherwise without having been; 0 for none
   */
  public record Off(long slack, long brief) {
    public static final Off NONE = new Off(0, 0);
  }

  /** What looks back at one condition over a duration. */
  private abstract static class LookingBack extends BoolOperator {
    final Spans spans;
    final LastMoments recency = new LastMoments();
    private final LateBeginning late;
    /** The value of the operand that decides, wherever in the duration it is. */
    private final int deciding;
    private final long brief;
    /** When the operand last decided before it began to do so. */
    private long decidedBefore = Moments.NEVER;

    LookingBack(BoolNode operand, long duration, Off off, LateBeginning late, int deciding) {
      super(operand);
      this.spans = Spans.of(duration, off.slack);
      this.brief = off.brief;
      this.late = late;
      this.deciding = deciding;
    }

    @Override
    protected void connect() {
      super.connect();
      late.begun().ifPresent(this::dependOnRise);
    }

    final void follow(long moment) {
      if (late.isAt(moment, graph.start()) && !recency.is(deciding)) {
        follow(Truth.U, moment - 1);
      }
      follow(operand.value, moment);
    }

    private void follow(int truth, long moment) {
      boolean decided = recency.is(deciding);
      boolean mayNotHave = decided && truth != deciding && moment - recency.began() < brief
          && recency.began() > graph.start();
      if (truth == deciding && !decided) {
        decidedBefore = recency.last(deciding);
      }
      recency.follow(truth, moment);
      if (mayNotHave) {
        recency.doubt(deciding, decidedBefore, moment - 1);
      }
    }
  }

  /** {@code p for D}. */
  public static final class HeldFor extends LookingBack {

    public HeldFor(BoolNode operand, long duration, Off off, LateBeginning late) {
      super(operand, duration, off, late, Truth.F);
    }

    @Override
    public boolean update(long moment) {
      follow(moment);
      long next = Math.min(next(spans.shortest, moment), spans.areOne() ? Moments.FOREVER
          : next(spans.longest, moment));
      graph.wake(this, next);
      int shortest = over(spans.shortest, moment);
      return become(spans.areOne() ? shortest : Logic.Agreement.of(shortest, over(spans.longest, moment)));
    }

    private long next(long span, long moment) {
      long full = Moments.later(graph.start(), span);
      long next = recency.nextLeaving(moment, span);
      return moment < full ? Math.min(full, next) : next;
    }

    private int over(long span, long moment) {
      if (moment < Moments.later(graph.start(), span) || recency.since(Truth.F, moment - span)) {
        return Truth.F;
      }
      return recency.unknownSince(moment - span) ? recency.cause(moment - span) : Truth.T;
    }
  }

  /** {@code p in last D}. */
  public static final class InLast extends LookingBack {

    public InLast(BoolNode operand, long duration, Off off, LateBeginning late) {
      super(operand, duration, off, late, Truth.T);
    }

    @Override
    public boolean update(long moment) {
      follow(moment);
      long next = recency.nextLeaving(moment, spans.shortest);
      graph.wake(this, spans.areOne() ? next : Math.min(next, recency.nextLeaving(moment, spans.longest)));
      int shortest = over(spans.shortest, moment);
      return become(spans.areOne() ? shortest : Logic.Agreement.of(shortest, over(spans.longest, moment)));
    }

    private int over(long span, long moment) {
      long from = Moments.later(graph.start(), span) > moment ? graph.start() : moment - span;
      if (recency.since(Truth.T, from)) {
        return Truth.T;
      }
      return recency.unknownSince(from) ? recency.cause(from) : Truth.F;
    }
  }

  /** {@code p since q}. */
  public static final class Since extends BoolNode {
    private final BoolNode operand;
    private final BoolNode anchor;
    private final long slack;
    private final long brief;
    private final LateBeginning late;
    private int state = Truth.F;
    private int operandBefore = Truth.U;
    private int anchorBefore = Truth.U;
    /** When the operand last became true. */
    private long rose = Moments.NEVER;
    /** When the anchor was last true. */
    private long anchored = Moments.NEVER;
    /** When it last became true. */
    private long anchoredFrom = Moments.NEVER;
    /** What it was before the anchor came, and would be without that. */
    private int unanchored = Truth.F;
    private boolean isAnchored;
    private long came;

    /**
     * {@code slack}: how near to each other, in moments, the order is open in which the operand comes and the anchor
     * goes, or the other way round; 0 for never. {@code brief}: for how few moments the anchor may seem to be so.
     */
    public Since(BoolNode operand, BoolNode anchor, Off off, LateBeginning late) {
      this.late = late;
      this.operand = operand;
      this.anchor = anchor;
      this.slack = off.slack;
      this.brief = off.slack == 0 ? 0 : off.brief;
    }

    @Override
    protected void connect() {
      dependOn(operand);
      dependOn(anchor);
      late.begun().ifPresent(this::dependOnRise);
    }

    /** Where the anchor is borderline and the operand unknown, one step does not settle it. */
    private int next() {
      return Kleene.or(anchor.value, Kleene.and(operand.value, state));
    }

    @Override
    public boolean update(long moment) {
      if (brief > 0) {
        followAnchor(moment);
      }
      if (late.isAt(moment, graph.start())) {
        state = Truth.U;
      }
      state = next();
      boolean between = slack > 0 && mayHaveCeased(moment);
      if (slack > 0 && isOpen(moment)) {
        state = Truth.B;
      }
      if (between || next() != state) {
        comeBack();
      }
      return become(between ? Truth.B : state);
    }

    /** Where the anchor was there so briefly that it may not have been, it may only be what it was before. */
    private void followAnchor(long moment) {
      if (anchor.value == Truth.T && !isAnchored) {
        isAnchored = true;
        came = moment;
        unanchored = state;
      } else if (anchor.value != Truth.T && isAnchored) {
        isAnchored = false;
        state = moment - came < brief && came > graph.start() ? Kleene.or(Truth.B, unanchored) : state;
      }
      unanchored = Kleene.and(operand.value, unanchored);
    }

    /** Whether the operand went so soon after the anchor came that it may have gone first. */
    private boolean mayHaveCeased(long moment) {
      boolean near = anchoredFrom != Moments.NEVER && moment - anchoredFrom < slack;
      anchoredFrom = anchorBefore == Truth.F && anchor.value == Truth.T ? moment : anchoredFrom;
      return near && operandBefore == Truth.T && operand.value == Truth.F && anchor.value == Truth.T;
    }

    /**
     * Whether the operand came, or the anchor went, at this moment, and so soon after the other that it may have come
     * first.
     */
    private boolean isOpen(long moment) {
      boolean rises = operandBefore == Truth.F && operand.value == Truth.T;
      boolean falls = anchorBefore == Truth.T && anchor.value == Truth.F;
      rose = rises ? moment : rose;
      anchored = falls ? moment - 1 : anchored;
      operandBefore = operand.value;
      anchorBefore = anchor.value;
      boolean near = rises && rose > anchored + 1 && rose - anchored < slack && anchored != Moments.NEVER
          || falls && rose < anchored && anchored - rose < slack && rose != Moments.NEVER;
      return near && operand.value == Truth.T && anchor.value == Truth.F;
    }
  }

  /** The value of a boolean just before its last change. */
  public static final class BoolPrevious extends BoolOperator {
    private int current = Truth.U;
    private int before = Truth.U;

    public BoolPrevious(BoolNode operand) {
      super(operand);
    }

    @Override
    public boolean update(long moment) {
      if (operand.value != current) {
        before = current;
        current = operand.value;
      }
      return become(before);
    }
  }
}
