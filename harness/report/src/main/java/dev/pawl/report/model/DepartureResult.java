package dev.pawl.report.model;

import java.util.List;

/**
 * A difference of an output that a controller under test gave from the recorded one, after which signals that follow
 * the output are unknown.
 *
 * @param output the output's name
 * @param time nanoseconds, when the difference began
 * @param recorded value in the trace, in the output's written unit
 * @param computed value that the controller gave
 * @param unknown names of the signals that are unknown because of it
 */
public record DepartureResult(String output, long time, String recorded, String computed, List<String> unknown) {

  public DepartureResult {
    unknown = List.copyOf(unknown);
  }
}
