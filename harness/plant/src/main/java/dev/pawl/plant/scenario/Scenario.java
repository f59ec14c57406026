package dev.pawl.plant.scenario;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/**
 * One thing that happens on a ride. Times are seconds from its start.
 *
 * @param name for reports: its file's name without its ending
 * @param title what happens, in a sentence
 * @param lasts how long
 * @param starts at which time of the calendar, where that is stated
 * @param seed of the noise of sensors
 * @param script what is done when, in order of time
 * @param watches what is done when something happens
 */
public record Scenario(String name, String title, double lasts, Optional<Instant> starts, long seed, Desk desk,
    List<Timed> script, List<Watch> watches) {

  /** The same for another time. */
  public Scenario lasting(double seconds) {
    return new Scenario(name, title, seconds, starts, seed, desk, script, watches);
  }

  /** The same under another title. */
  public Scenario entitled(String words) {
    return new Scenario(name, words, lasts, starts, seed, desk, script, watches);
  }

  /** Something done at a time. */
  public record Timed(double at, Doing doing) {}

  /**
   * Something done when something happens.
   *
   * @param nth at which occurrence of it; 0 for each
   */
  public record Watch(Trigger trigger, int nth, List<Timed> doings) {}

  /** What can be waited for. */
  public sealed interface Trigger {

    /** The answer for the one it is. */
    <R> R match(Function<Edge, R> edge, Function<Passing, R> passing, Function<Lasting, R> lasting);

    /** A signal, as the controller reads it, turns true or false. */
    record Edge(int signal, boolean rises) implements Trigger {
      @Override
      public <R> R match(Function<Edge, R> edge, Function<Passing, R> passing, Function<Lasting, R> lasting) {
        return edge.apply(this);
      }
    }

    /** The nose of a train comes to a place, forward or backward. */
    record Passing(int track, double place, boolean forward) implements Trigger {
      @Override
      public <R> R match(Function<Edge, R> edge, Function<Passing, R> passing, Function<Lasting, R> lasting) {
        return passing.apply(this);
      }
    }

    /** A condition has been so for long enough; it counts anew when it has ceased. */
    record Lasting(Condition condition) implements Trigger {
      @Override
      public <R> R match(Function<Edge, R> edge, Function<Passing, R> passing, Function<Lasting, R> lasting) {
        return lasting.apply(this);
      }
    }
  }
}
