package dev.pawl.engine.judge;

import dev.pawl.engine.TrackingFinding.Kind;
import dev.pawl.engine.zone.CountListener;

/**
 * How much of what counts for a rule rests on one zone's count since that was last certain: when the count is found
 * wrong, it is taken back.
 */
public final class Reliance implements CountListener {

  /** Which parts of a rule read a zone. */
  public enum Reader {
    TRIALS,
    REQUIREMENT,
    OCCASION
  }

  private final Judge judge;
  private final Reader reader;
  /** What counted when the zone last ceased to be full, the time before that, and when it last ceased to be empty. */
  private final long[] sinceFull;
  private final long[] sinceFullBefore;
  private final long[] sinceEmpty;

  Reliance(Judge judge, Reader reader, int counts) {
    this.judge = judge;
    this.reader = reader;
    sinceFull = new long[counts];
    sinceFullBefore = new long[counts];
    sinceEmpty = new long[counts];
  }

  @Override
  public void ceasesToBeFull() {
    System.arraycopy(sinceFull, 0, sinceFullBefore, 0, sinceFull.length);
    judge.noteCounts(sinceFull);
  }

  @Override
  public void ceasesToBeEmpty() {
    judge.noteCounts(sinceEmpty);
  }

  @Override
  public void isFoundWrong(Kind kind, long moment) {
    switch (kind) {
      case LEFT_EMPTY -> judge.takeBack(sinceFullBefore, reader, moment);
      case OVERFILLED -> judge.takeBack(sinceEmpty, reader, moment);
      case IMPOSSIBLE_ORDER -> { }
    }
  }

  /** How many of the met may still be taken back. */
  long unconfirmed(long met) {
    return reader == Reader.TRIALS ? 0 : met - Math.min(sinceFullBefore[0], sinceEmpty[0]);
  }

  /** Takes in that there is less now than what was noted. */
  void lower(long[] counts) {
    for (int i = 0; i < counts.length; i++) {
      sinceFull[i] = Math.min(sinceFull[i], counts[i]);
      sinceFullBefore[i] = Math.min(sinceFullBefore[i], counts[i]);
      sinceEmpty[i] = Math.min(sinceEmpty[i], counts[i]);
    }
  }
}
