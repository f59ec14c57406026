package dev.pawl.report.json;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.report.model.JudgedSource;
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
    return line(result);
  }

  /** The same with all that a report has of the source. */
  public static String write(JudgedSource judged) {
    return line(judged);
  }

  private static String line(Record value) {
    StringWriter line = new StringWriter();
    try {
      RecordWriter.writeLine(value, line);
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
    return read(name, line, TraceResult.class, book);
  }

  /** The same with all that a report has of the source. */
  public static JudgedSource readJudged(String name, String line, RuleBook book) throws ReportFormatException {
    return read(name, line, JudgedSource.class, book);
  }

  private static <T extends Record> T read(String name, String line, Class<T> type, RuleBook book)
      throws ReportFormatException {
    return RecordReader.read(name, line.getBytes(StandardCharsets.UTF_8), type, book.rules())
        .orElseThrow(() -> new ReportFormatException(name + ": not a result"));
  }
}
