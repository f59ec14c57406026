package dev.pawl.report.json;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.report.model.TraceResult;
import java.io.IOException;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;

/**
 * One trace's result as one line of JSON, pictures included, and back again. The line follows the result's records; a
 * rule is written as its id. It is for a pawl of the same build, and no format for others.
 */
public final class JsonResult {

  private JsonResult() {}

  /** The result on one line, without a line break. */
  public static String write(TraceResult result) {
    StringWriter line = new StringWriter();
    try {
      RecordWriter.writeLine(result, line);
    } catch (IOException e) {
      throw new IllegalStateException("a text in memory can be written", e);
    }
    return line.toString();
  }

  /**
   * The result that a line holds.
   *
   * @param name what the line is called in messages
   * @param book the rules that it was judged by
   * @throws ReportFormatException if it is no result, or one by other rules
   */
  public static TraceResult read(String name, String line, RuleBook book) throws ReportFormatException {
    return RecordReader.read(name, line.getBytes(StandardCharsets.UTF_8), TraceResult.class, book.rules())
        .orElseThrow(() -> new ReportFormatException(name + ": not a result"));
  }
}
