package dev.pawl.report.model;

import java.util.List;

/**
 * What changed since an earlier report, as a comparison of the two says it.
 *
 * @param report the earlier report, as the command named it
 * @param worse whether less is shown now than then, or less asked for
 * @param changes in sentences, the most important first
 */
public record Earlier(String report, boolean worse, List<String> changes) {

  public Earlier {
    changes = List.copyOf(changes);
  }
}
