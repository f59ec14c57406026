package dev.pawl.report.picture;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.Zone;
import dev.pawl.report.model.TraceResult;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * A sink for the second pass over a trace: records what the findings of its result need, and then says that it has
 * enough.
 */
public final class PictureRecorder implements EventSink {

  private final PicturePlan plan;
  private final List<PictureStretch> waiting;
  private final List<PictureStretch> open = new ArrayList<>();
  private final long[] lastTimes;
  private final long[] lastValues;
  private final boolean[] known;
  private final ZoneOccupancy occupancy;
  private final long[] occupiedTimes;
  private final long[] occupiedValues;
  private final boolean[] occupancyKnown;
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
    waiting.sort(Comparator.comparingLong(PictureStretch::from));
    int signals = book.signals().size();
    lastTimes = new long[signals];
    lastValues = new long[signals];
    known = new boolean[signals];
    int zones = book.zones().size();
    occupiedTimes = new long[zones];
    occupiedValues = new long[zones];
    occupancyKnown = new boolean[zones];
    List<Zone> drawn = waiting.stream().flatMap(window -> window.zones().stream()).distinct().toList();
    occupancy = new ZoneOccupancy(book, drawn, this::recordOccupancy);
    occupancy.advanceTo(trace.start());
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
    occupancy.event(time, signal, value, line);
    if (!open.isEmpty()) {
      close(time);
      for (int i = 0; i < open.size(); i++) {
        open.get(i).add(time, signal, value);
      }
    }
    lastTimes[signal] = time;
    lastValues[signal] = value;
    known[signal] = true;
  }

  @Override
  public void advanceTo(long time) {
    close(time);
  }

  /** The result with all pictures in it. */
  public TraceResult result() {
    occupancy.finish();
    return plan.withPictures();
  }

  /** Opens what begins by then, with what everything was until then. */
  private void openUntil(long time) {
    while (next < waiting.size() && waiting.get(next).from() <= time) {
      PictureStretch window = waiting.get(next++);
      occupancy.advanceTo(window.from());
      for (Signal signal : window.signals()) {
        if (known[signal.index()]) {
          window.add(lastTimes[signal.index()], signal.index(), lastValues[signal.index()]);
        }
      }
      for (Zone zone : window.zones()) {
        if (occupancyKnown[zone.index()]) {
          window.addOccupancy(occupiedTimes[zone.index()], zone.index(), occupiedValues[zone.index()]);
        }
      }
      open.add(window);
    }
    nextFrom = next < waiting.size() ? waiting.get(next).from() : Long.MAX_VALUE;
  }

  /** Closes what ended before a time, once all that happened in it has been told. */
  private void close(long time) {
    for (int i = open.size() - 1; i >= 0; i--) {
      if (open.get(i).to() < time) {
        occupancy.advanceTo(time);
        open.remove(i);
      }
    }
  }

  private void recordOccupancy(long time, int zone, long value) {
    open.stream().filter(window -> time <= window.to()).forEach(window -> window.addOccupancy(time, zone, value));
    occupiedTimes[zone] = time;
    occupiedValues[zone] = value;
    occupancyKnown[zone] = true;
  }
}
