package dev.pawl.trace.ahead;

import dev.pawl.engine.EventSink;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/**
 * The merging of traces by time: each is decoded on a thread of its own from its first instant on, until it has ended.
 */
public final class Merging {

  private Merging() {}

  /**
   * A trace to be merged.
   *
   * @param first nanoseconds, its first instant
   * @param source sends its events, in order of time
   */
  public record Part<T>(long first, AheadSink.Source<T> source) {}

  /**
   * Sends the events of all traces to a sink on this thread; those of one time in the order of the list.
   *
   * @param parts in order of their first instants
   * @return what their sources returned, in the order of the list
   */
  public static <T> List<T> merge(EventSink sink, List<Part<T>> parts) throws IOException {
    @SuppressWarnings({"unchecked", "rawtypes"})
    Decoding<T>[] open = new Decoding[parts.size()];
    Decoding<T>[] all = open.clone();
    int begun = 0;
    int count = 0;
    try {
      while (true) {
        int next = earliest(open, count);
        while (begun < parts.size() && (next < 0 || parts.get(begun).first() <= open[next].time())) {
          all[begun] = Decoding.begin(parts.get(begun).source());
          if (all[begun].next()) {
            open[count++] = all[begun];
          }
          begun++;
          next = earliest(open, count);
        }
        if (next < 0) {
          return results(all);
        }
        open[next].send(sink);
        if (!open[next].next()) {
          System.arraycopy(open, next + 1, open, next, --count - next);
        }
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("reading was interrupted", e);
    } finally {
      for (Decoding<T> each : all) {
        if (each != null) {
          each.giveUp();
        }
      }
    }
  }

  /** The place of the trace with the earliest event; of several the first; -1 if there is none. */
  private static int earliest(Decoding<?>[] open, int count) {
    int found = -1;
    for (int i = 0; i < count; i++) {
      found = found < 0 || open[i].time() < open[found].time() ? i : found;
    }
    return found;
  }

  private static <T> List<T> results(Decoding<T>[] all) throws IOException, InterruptedException {
    List<T> results = new ArrayList<>();
    for (Decoding<T> each : all) {
      results.add(each.result());
    }
    return results;
  }
}
