package dev.pawl.report.words;

import dev.pawl.report.model.Report;
import java.util.List;
import java.util.stream.Stream;

/** The cautions that every report carries. */
public final class Cautions {

  public static final List<String> ALL = List.of(
      "Pawl supports the judgement of a qualified person and does not replace it.",
      "A rule that held, held in these traces only; it proves nothing about hardware, wiring or times that were not recorded.",
      "Local codes, the manufacturer's instructions and licensed practice come first.");

  private Cautions() {}

  /** All cautions of a report: those of its run, then those of every report. */
  public static List<String> of(Report report) {
    return Stream.concat(report.cautions().stream(), ALL.stream()).toList();
  }
}
