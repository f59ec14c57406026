package dev.pawl.fleet.work;

import java.io.Serializable;

/** How tasks are done. It travels to the workers. */
public interface Work extends Serializable {

  /** Makes ready to do tasks one after the other, on one thread. */
  Worker open();

  /** Does tasks. */
  interface Worker {

    /**
     * Does a task.
     *
     * @return what it comes to, without a line break
     */
    Done done(Task task) throws Exception;
  }

  /**
   * What a task comes to that took its worker down again and again.
   *
   * @throws RuntimeException if the whole cannot do without it
   */
  Done givenUp(Task task);

  /**
   * What a task came to.
   *
   * @param words for whoever merges it
   * @param rows rows that were judged for it, for the count
   * @param bad whether it is one of those that could not be done, for the count
   */
  record Done(String words, long rows, boolean bad) {}
}
