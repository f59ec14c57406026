package dev.pawl.report.picture;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.report.model.TraceResult;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** A sink for the second pass over a trace: records what the findings of its result need, and then says that it has enough. */
public final class PictureRecorder implements EventSink {

  private final PicturePlan plan;
  private final List<Window> waiting;
  private final List<Window> open = new ArrayList<>();
  private final long[] lastTimes;
  private final long[] lastValues;
  private final boolean[] known;
  private int next;
  private long nextFrom;

  /**
   * A recorder for the findings of one trace.
   *
   * @param most how many findings of each rule and zone get a picture
   */
  public PictureRecorder(RuleBook book, TraceResult trace, int most) {
    plan = PicturePlan.of(book, trace, most);
    waiting = new ArrayList<>(plan.windows());
    waiting.sort(Comparator.comparingLong(Window::from));
    int signals = book.signals().size();
    lastTimes = new long[signals];
    lastValues = new long[signals];
    known = new boolean[signals];
    nextFrom = waiting.isEmpty() ? Long.MAX_VALUE : waiting.get(0).from();
  }

  /** Whether no later event can matter; true from the beginning where there is nothing to draw. */
  public boolean hasEnough() {
    return open.isEmpty() && next == waiting.size();
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    if (time >= nextFrom) {
      openUntil(time);
    }
    if (!open.isEmpty()) {
      record(time, signal, value);
    }
    lastTimes[signal] = time;
    lastValues[signal] = value;
    known[signal] = true;
  }

  @Override
  public void advanceTo(long time) {
    open.removeIf(window -> window.to() < time);
  }

  /** The result with all pictures in it. */
  public TraceResult result() {
    return plan.withPictures();
  }

  private void openUntil(long time) {
    while (next < waiting.size() && waiting.get(next).from() <= time) {
      Window window = waiting.get(next++);
      for (Signal signal : window.signals()) {
        if (known[signal.index()]) {
          window.add(lastTimes[signal.index()], signal.index(), lastValues[signal.index()]);
        }
      }
      open.add(window);
    }
    nextFrom = next < waiting.size() ? waiting.get(next).from() : Long.MAX_VALUE;
  }

  private void record(long time, int signal, long value) {
    for (int i = open.size() - 1; i >= 0; i--) {
      Window window = open.get(i);
      if (time > window.to()) {
        open.remove(i);
      } else {
        window.add(time, signal, value);
      }
    }
  }
}
