package dev.pawl.fleet.work;

import org.apache.flink.api.connector.source.SourceEvent;

/** What slots and the coordinator tell each other, beside what Flink itself does. */
final class Said {

  private Said() {}

  /**
   * A slot has done a task.
   *
   * @param words what it came to, where the plan says that it is heard; else empty
   */
  record Done(int number, long rows, boolean bad, String words) implements SourceEvent {}

  /**
   * A slot has a task that it did not come to the end of, since its worker ended or the task did badly. It waits for
   * {@link Drop}.
   *
   * @param why what a task that did badly threw; empty where the worker ended
   */
  record Held(Task task, String why) implements SourceEvent {}

  /** The coordinator has taken that task back; the slot may ask for another. */
  record Drop() implements SourceEvent {}
}
