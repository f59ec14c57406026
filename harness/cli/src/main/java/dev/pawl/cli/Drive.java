package dev.pawl.cli;

import dev.pawl.engine.EventSink;
import dev.pawl.report.model.ProgramPlace;
import dev.pawl.report.model.Reading;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.BooleanSupplier;

/** What stands between a course and its judge and may add to the events: nothing, or the logic under test. */
interface Drive {

  /** Recorded traces are judged as they are. */
  Drive NONE = new Drive() {
    @Override
    public boolean takes(int signal) {
      return false;
    }

    @Override
    public boolean gives(int signal) {
      return false;
    }

    @Override
    public Run begin(String course, EventSink judge, BooleanSupplier calendar, boolean first) {
      return new Through(judge);
    }
  };

  /** Whether it has a use for a signal's events. */
  boolean takes(int signal);

  /** Whether it brings a signal's events itself. */
  boolean gives(int signal);

  /**
   * Begins a run.
   *
   * @param course its name
   * @param judge takes what is to be judged
   * @param calendar whether times count from 1970; asked at the first event
   * @param first whether this is the run that is judged, and not a second look at it
   */
  Run begin(String course, EventSink judge, BooleanSupplier calendar, boolean first);

  /** One run. */
  interface Run {

    /** Takes the events of the course. */
    EventSink sink();

    /**
     * Ends the run.
     *
     * @param end nanoseconds, where the course ends; empty where nothing of it may be used
     * @return nanoseconds, where judging ends
     */
    OptionalLong finish(OptionalLong end);

    /** Why it came to an early end, or the empty string. */
    String failure();

    /** What was counted; only what is not zero. */
    List<Reading.Counter> counters();

    /** The line of the program that an event's line stands for. */
    Optional<ProgramPlace> writer(long line);
  }

  /** A run that adds nothing. */
  record Through(EventSink sink) implements Run {

    @Override
    public OptionalLong finish(OptionalLong end) {
      return end;
    }

    @Override
    public String failure() {
      return "";
    }

    @Override
    public List<Reading.Counter> counters() {
      return List.of();
    }

    @Override
    public Optional<ProgramPlace> writer(long line) {
      return Optional.empty();
    }
  }
}
