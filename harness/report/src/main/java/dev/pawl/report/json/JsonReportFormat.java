package dev.pawl.report.json;

import java.io.InputStream;

/** The names and versions that report.json and a comparison carry, and the schemas that fix their shapes. */
public final class JsonReportFormat {

  public static final String NAME = "pawl-report";
  public static final int VERSION = 3;
  /** The oldest version that can still be read. */
  public static final int OLDEST_READ = 1;

  public static final String COMPARISON_NAME = "pawl-comparison";
  public static final int COMPARISON_VERSION = 4;

  public static final String DIAGNOSTICS_NAME = "pawl-diagnostics";
  public static final int DIAGNOSTICS_VERSION = 1;

  private JsonReportFormat() {}

  /** The JSON Schema of report.json (draft 2020-12), as a stream that the caller closes. */
  public static InputStream schema() {
    return JsonReportFormat.class.getResourceAsStream("/dev/pawl/report/report.schema.json");
  }

  /** The JSON Schema of what is wrong in rule files (draft 2020-12), as a stream that the caller closes. */
  public static InputStream diagnosticsSchema() {
    return JsonReportFormat.class.getResourceAsStream("/dev/pawl/report/diagnostics.schema.json");
  }

  /** The JSON Schema of a comparison (draft 2020-12), as a stream that the caller closes. */
  public static InputStream comparisonSchema() {
    return JsonReportFormat.class.getResourceAsStream("/dev/pawl/report/comparison.schema.json");
  }
}
