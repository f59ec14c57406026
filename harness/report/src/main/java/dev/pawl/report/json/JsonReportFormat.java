package dev.pawl.report.json;

import java.io.InputStream;

/** The name and version that report.json carries, and the schema that fixes its shape. */
public final class JsonReportFormat {

  public static final String NAME = "pawl-report";
  public static final int VERSION = 1;

  private JsonReportFormat() {}

  /** The JSON Schema (draft 2020-12), as a stream that the caller closes. */
  public static InputStream schema() {
    return JsonReportFormat.class.getResourceAsStream("/dev/pawl/report/report.schema.json");
  }
}
