package dev.pawl.run.control;

import dev.pawl.engine.EventSink;

/** Passes events on with one input turned, up to the end of that. */
final class TurnedInput implements EventSink {

  private final Turn turn;
  private final EventSink next;
  private long recorded = UNKNOWN;
  private boolean turned;
  private boolean back;
  private boolean over;

  TurnedInput(Turn turn, EventSink next) {
    this.turn = turn;
    this.next = next;
  }

  /** Whether nothing more is passed on. */
  boolean isOver() {
    return over;
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    boolean due = isDue(time);
    if (signal == turn.signal()) {
      recorded = value;
    }
    if (due && (turned == back || signal != turn.signal())) {
      next.event(time, signal, value, line);
    }
  }

  @Override
  public void advanceTo(long time) {
    if (isDue(time)) {
      next.advanceTo(time);
    }
  }

  /** Whether events of this time still count; turns the input, and turns it back, when that is due. */
  private boolean isDue(long time) {
    if (!turned && time >= turn.from()) {
      turned = true;
      next.event(turn.from(), turn.signal(), turn.value(), 0);
    }
    if (turned && !back && time >= turn.back()) {
      back = true;
      next.event(turn.back(), turn.signal(), recorded, 0);
    }
    over |= time > turn.until();
    return !over;
  }
}
