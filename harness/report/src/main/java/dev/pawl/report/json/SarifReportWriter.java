package dev.pawl.report.json;

import dev.pawl.report.model.Report;
import java.io.IOException;
import java.io.Writer;

/**
 * Writes a report in the Static Analysis Results Interchange Format 2.1.0 (OASIS), for tools that show findings at the
 * lines of files: what broke stands at the line of the program that did it, or at its rule.
 */
public final class SarifReportWriter {

  private SarifReportWriter() {}

  /** Writes the report and a final line break; leaves {@code out} open and flushed. */
  public static void write(Report report, Writer out) throws IOException {
    RecordWriter.writePage(SarifDocument.of(report), out);
  }
}
