package dev.pawl.run;

import dev.pawl.engine.EventSink;

/** Takes events that nobody judges: of a trace that is only looked through, or of a feed that is only kept. */
public final class Unjudged implements EventSink {

  @Override
  public void event(long time, int signal, long value, long line) {
    // That it came is all.
  }

  @Override
  public void advanceTo(long time) {
    // As above.
  }
}
