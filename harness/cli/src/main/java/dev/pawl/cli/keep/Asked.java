package dev.pawl.cli.keep;

import java.util.List;
import java.util.Optional;

/**
 * What a command was asked for, with what is usual where nothing was said.
 *
 * @param command its words, such as {@code pawl check}
 * @param judging the options on which it depends what is judged, in the order of the help
 * @param apart the others: what is written where, and by how many threads
 * @param rules paths of rule files, and folders of them
 * @param traces paths of traces, and folders of them
 * @param scenarios the folder of scenarios, where all of it are judged
 */
public record Asked(String command, List<Setting> judging, List<Setting> apart, List<String> rules,
    List<String> traces, Optional<String> scenarios) {

  public Asked {
    judging = List.copyOf(judging);
    apart = List.copyOf(apart);
    rules = List.copyOf(rules);
    traces = List.copyOf(traces);
  }

  /** One option, and what was said of it. */
  public record Setting(String option, String words) {}
}
