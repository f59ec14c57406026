package dev.pawl.report.json;

import dev.pawl.report.model.Report;
import java.io.IOException;
import java.io.Writer;

/** Writes a report as JSON. Times are given twice: as exact integer nanoseconds, and as text for people. */
public final class JsonReportWriter {

  private JsonReportWriter() {}

  /** Writes the report and a final line break; leaves {@code out} open and flushed. */
  public static void write(Report report, Writer out) throws IOException {
    RecordWriter.writePage(ReportDocument.of(report), out);
  }
}
