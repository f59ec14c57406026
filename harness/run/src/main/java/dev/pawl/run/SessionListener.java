package dev.pawl.run;

import dev.pawl.report.model.TraceResult;
import dev.pawl.trace.intake.Progress;
import java.util.List;

/** Hears how a session goes, and can end it. */
public interface SessionListener {

  /** Hears nothing and lets the session come to its end. */
  SessionListener NONE = new SessionListener() {};

  /** The session begins to judge these. */
  default void begins(List<EventSource> sources) {}

  /** Takes the progress of one source, on the thread that judges it; what it answers ends that source alone. */
  default Progress progress() {
    return Progress.NONE;
  }

  /** A source is judged, and all before it are: they are told in their order. */
  default void judged(TraceResult result) {}

  /** So many sources were not begun, because the end was wanted before. */
  default void leftOut(int sources) {}

  /** Whether the session shall come to its end; what has been judged until then is its report. */
  default boolean isEndWanted() {
    return false;
  }
}
