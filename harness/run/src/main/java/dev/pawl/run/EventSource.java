package dev.pawl.run;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.plant.loop.PowerCuts;
import dev.pawl.report.collect.Origins;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.TraceResult;
import dev.pawl.trace.intake.Progress;
import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/** Where the events of one judgement come from: a recorded trace, or a ride in motion. It can be run more than once. */
public interface EventSource {

  /** What results call it. */
  String name();

  /** The file that it is read from, where it is. */
  Optional<Path> file();

  /** All files that it is read from. */
  default List<Path> files() {
    return file().stream().toList();
  }

  /** Whether it reacts to outputs, as a ride does and a recording cannot. */
  boolean reacts();

  /** The same source for a run that is to be ended as soon as enough has been seen. */
  EventSource forAnotherLook();

  /**
   * Begins a run through it.
   *
   * @param needed signals that somebody takes; events of others may be left out
   * @throws IOException if it cannot be read
   */
  Run begin(boolean[] needed) throws IOException;

  /** Rules that claim no more than the times of this source allow. */
  default RuleBook judgedBy(RuleBook book) {
    return book;
  }

  /** A result of this source, with what the source itself finds out beside it. */
  default TraceResult examined(TraceResult result) {
    return result;
  }

  /** One run, from the first event to the last. */
  interface Run extends Closeable, Origins {

    /** The judge, and whoever else has to hear all that is judged; asked for before the run. */
    EventSink heardBy(EventSink judge);

    /** Whether times count from 1970 (UTC), not from a start of the source's own; known from the first event on. */
    boolean calendar();

    /** The zone whose clock shows the dates at the site, where it is known. */
    default Optional<ZoneId> zone() {
      return Optional.empty();
    }

    /** Is told of the power cuts of the controller that the source itself has; asked for before the run. */
    default void cuts(PowerCuts taker) {}

    /**
     * Runs to the end.
     *
     * @param sink takes the events
     * @param progress told now and then how far the run has come; it can end it
     * @throws IOException if it cannot be read on
     */
    Summary runTo(EventSink sink, Progress progress) throws IOException;
  }

  /**
   * What a run came to.
   *
   * @param extent how far it went
   * @param silent indices of signals that had no event
   * @param reading what was met on the way; where it has a failure, nothing may be judged
   * @param control what the controller met; where it has a failure, the run came to an early end
   */
  record Summary(Extent extent, List<Integer> silent, Reading reading, Reading control) {

    /** The summary of a run without a controller. */
    public Summary(Extent extent, List<Integer> silent, Reading reading) {
      this(extent, silent, reading, Reading.CLEAN);
    }

    /** Whether nothing of it may be judged. */
    public boolean isRejected() {
      return !reading.failure().isEmpty();
    }
  }

  /**
   * How far a run went.
   *
   * @param lines lines read, or scans simulated
   * @param events events of signals
   * @param end nanoseconds, where judging ends; empty where nothing happened
   * @param interrupted whether it ended on request
   */
  record Extent(long lines, long events, OptionalLong end, boolean interrupted) {}
}
