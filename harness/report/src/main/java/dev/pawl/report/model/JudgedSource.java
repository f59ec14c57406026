package dev.pawl.report.model;

import java.util.List;

/**
 * One source of a report, judged: all that the report has of it.
 *
 * @param result what it says
 * @param inputs the files that it was read from, with their SHA-256; empty where the report names none
 * @param cautions what a reader of the report has to bear in mind because of it
 * @param endedEarly whether it is only a part of what was asked for
 */
public record JudgedSource(TraceResult result, List<Input> inputs, List<String> cautions, boolean endedEarly) {

  public JudgedSource {
    inputs = List.copyOf(inputs);
    cautions = List.copyOf(cautions);
  }
}
