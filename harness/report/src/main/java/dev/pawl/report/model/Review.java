package dev.pawl.report.model;

import java.time.LocalDate;
import java.util.List;

/**
 * A record that a person has looked at a report.
 *
 * @param by who
 * @param on the day
 * @param looked what was looked at, in the person's words
 * @param note what there is to say of it; may be empty
 * @param run the identity of the report that was looked at
 * @param file where it is written
 * @param line 1-based line of it
 */
public record Review(String by, LocalDate on, List<String> looked, String note, String run, String file, int line) {

  public Review {
    looked = List.copyOf(looked);
  }
}
