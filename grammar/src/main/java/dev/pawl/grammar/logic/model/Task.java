package dev.pawl.grammar.logic.model;

import java.util.List;
import java.util.OptionalInt;
import java.util.OptionalLong;

/**
 * A task: programs that run one after another, and when. A program without a configuration has one, {@link #SCAN}.
 *
 * @param resource the processor it belongs to; empty where there is but one, without a name
 * @param name as declared
 * @param interval nanoseconds from run to run, at least 1; empty where it is the scan that is chosen, or where only
 *     {@code single} starts it
 * @param single slot of the BOOL that starts it by its rising edge, and keeps it from running by its interval while
 *     true
 * @param priority 0 is the most urgent
 * @param programs units that it runs, by index, in their order
 */
public record Task(String resource, String name, OptionalLong interval, OptionalInt single, int priority,
    List<Integer> programs) {

  /** The name of the task of programs that no task of a configuration runs; it runs once per scan. */
  public static final String SCAN = "scan";

  public Task {
    programs = List.copyOf(programs);
  }

  /** Whether it runs again and again by itself. */
  public boolean periodic() {
    return interval.isPresent() || single.isEmpty();
  }

  /** How messages and options call it. */
  public String path() {
    return resource.isEmpty() ? name : resource + "." + name;
  }
}
