package dev.pawl.trace.survey;

import java.util.List;
import java.util.Optional;

/**
 * What a log shows of itself.
 *
 * @param form how its rows carry values, in words
 * @param columns entries that a bindings file would state of its columns
 * @param time entries that it would state of its times
 * @param tags what was seen of each tag, in the order in which they came
 * @param rows how many rows it has
 * @param strange how many of them have another form than the others, or a time that is not understood
 */
public record LogSurvey(String form, List<String> columns, TimeSeen time, List<SeenTag> tags, long rows,
    long strange) {

  public LogSurvey {
    columns = List.copyOf(columns);
    tags = List.copyOf(tags);
  }

  /**
   * How its times are written.
   *
   * @param entries what a bindings file would state
   * @param question what only a person can say; empty where there is nothing to ask
   */
  public record TimeSeen(List<String> entries, Optional<String> question) {

    public TimeSeen {
      entries = List.copyOf(entries);
    }
  }
}
