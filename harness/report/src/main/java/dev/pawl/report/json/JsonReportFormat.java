package dev.pawl.report.json;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import dev.pawl.engine.Obligations;
import java.io.IOException;
import java.io.InputStream;

/** The names and versions that report.json and a comparison carry, and the schemas that fix their shapes. */
public final class JsonReportFormat {

  public static final String NAME = "pawl-report";
  public static final int VERSION = 2;
  /** The oldest version that can still be read. */
  static final int OLDEST_READ = 1;

  public static final String COMPARISON_NAME = "pawl-comparison";
  public static final int COMPARISON_VERSION = 2;

  private JsonReportFormat() {}

  /** The JSON Schema of report.json (draft 2020-12), as a stream that the caller closes. */
  public static InputStream schema() {
    return JsonReportFormat.class.getResourceAsStream("/dev/pawl/report/report.schema.json");
  }

  /** The JSON Schema of a comparison (draft 2020-12), as a stream that the caller closes. */
  public static InputStream comparisonSchema() {
    return JsonReportFormat.class.getResourceAsStream("/dev/pawl/report/comparison.schema.json");
  }

  /** The fields of how obligations ended, inside an object that is open. */
  static void obligations(JsonGenerator json, Obligations obligations) throws IOException {
    json.writeNumberField("met", obligations.met());
    json.writeNumberField("alreadySo", obligations.alreadySo());
    json.writeNumberField("missed", obligations.missed());
    json.writeNumberField("open", obligations.open());
    json.writeNumberField("borderline", obligations.borderline());
    json.writeNumberField("unknown", obligations.unknown());
    json.writeNumberField("cancelled", obligations.cancelled());
    json.writeNumberField("unknownTriggers", obligations.unknownTriggers());
    json.writeNumberField("miscounted", obligations.miscounted());
  }

  /** Two blanks for each level, and line breaks that are the same on every system. */
  static DefaultPrettyPrinter layout() {
    DefaultIndenter indenter = new DefaultIndenter("  ", "\n");
    DefaultPrettyPrinter printer = new DefaultPrettyPrinter();
    printer.indentArraysWith(indenter);
    printer.indentObjectsWith(indenter);
    return printer;
  }
}
