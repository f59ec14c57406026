package dev.pawl.cli.command;

import dev.pawl.demo.RideLoop;
import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.plant.layout.LayoutException;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.words.TimeText;
import dev.pawl.run.EventSource;
import dev.pawl.run.RunException;
import dev.pawl.trace.intake.Progress;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * A scenario of the demo ride in motion: what the logic under test commands moves the trains, and the trains its
 * inputs.
 *
 * @param ride the ride's folder
 * @param scenario its name
 * @param book whose signals bear the names of the ride's
 */
record RideSource(Path ride, String scenario, RuleBook book) implements EventSource {

  /** Scans between looks at whether to go on. */
  private static final int LOOK_EVERY = 1000;

  @Override
  public String name() {
    return scenario;
  }

  @Override
  public Optional<Path> file() {
    return Optional.empty();
  }

  @Override
  public boolean reacts() {
    return true;
  }

  @Override
  public EventSource forAnotherLook() {
    return this;
  }

  @Override
  public Run begin(boolean[] needed) throws IOException {
    try {
      return new Moving(RideLoop.open(ride, scenario, book));
    } catch (LayoutException | IllegalArgumentException e) {
      throw new RunException(e.getMessage());
    }
  }

  /** The ride in motion. */
  private record Moving(RideLoop loop) implements Run {

    /** The ride hears what the logic commands. */
    @Override
    public EventSink heardBy(EventSink judge) {
      return new EventSink() {
        @Override
        public void event(long time, int signal, long value, long line) {
          judge.event(time, signal, value, line);
          loop.event(time, signal, value, line);
        }

        @Override
        public void advanceTo(long time) {
          judge.advanceTo(time);
        }
      };
    }

    @Override
    public boolean calendar() {
      return true;
    }

    @Override
    public Summary runTo(EventSink sink, Progress progress) {
      long[] last = {0};
      long end = loop.run(sink, scan -> {
        last[0] = scan;
        return scan % LOOK_EVERY != 0 || progress.reached(0, scan);
      });
      boolean whole = last[0] + 1 == loop.scans();
      return new Summary(new Extent(last[0] + 1, loop.events(), OptionalLong.of(end), !whole), List.of(), collisions());
    }

    private Reading collisions() {
      if (loop.collisions() == 0) {
        return Reading.CLEAN;
      }
      return new Reading(List.of(new Reading.Counter("time(s) that one simulated train ran into another, first at "
          + TimeText.at(TimeBase.EPOCH, loop.firstCollision()), loop.collisions())), List.of(), 0, "");
    }

    @Override
    public void close() {}
  }
}
