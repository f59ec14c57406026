package dev.pawl.run.control;

import dev.pawl.engine.EventSink;

/** Passes events on with one input turned, up to the end of that. */
final class TurnedInput implements EventSink {

  private final Turn turn;
  private final EventSink next;
  private boolean turned;
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
    if (isDue(time) && !(turned && signal == turn.signal())) {
      next.event(time, signal, value, line);
    }
  }

  @Override
  public void advanceTo(long time) {
    if (isDue(time)) {
      next.advanceTo(time);
    }
  }

  /** Whether events of this time still count. */
  private boolean isDue(long time) {
    if (!turned && time >= turn.from()) {
      turned = true;
      next.event(turn.from(), turn.signal(), turn.value(), 0);
    }
    over |= time > turn.until();
    return !over;
  }
}
