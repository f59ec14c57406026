package dev.pawl.report.words;

import dev.pawl.engine.Caution;
import dev.pawl.report.model.Report;
import java.util.List;
import java.util.stream.Stream;

/** The cautions that every report carries. */
public final class Cautions {

  public static final List<String> ALL = Caution.OF_VERDICTS.stream().map(Caution::text).toList();

  private Cautions() {}

  /** All cautions of a report: those of its run, then those of every report. */
  public static List<String> of(Report report) {
    return Stream.concat(report.cautions().stream(), ALL.stream()).toList();
  }
}
