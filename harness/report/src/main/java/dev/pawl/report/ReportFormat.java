package dev.pawl.report;

import dev.pawl.report.html.HtmlReportWriter;
import dev.pawl.report.html.HtmlRulesWriter;
import dev.pawl.report.json.JsonReportWriter;
import dev.pawl.report.junit.JunitReportWriter;
import dev.pawl.report.model.Report;
import java.io.IOException;
import java.io.Writer;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;

/** The formats of reports: the files that the folder of a report holds. */
public enum ReportFormat {
  /** For people: what a reader signs. */
  HTML("report.html", HtmlReportWriter::write),
  /** For people: each rule with its evidence. */
  RULES("rules.html", HtmlRulesWriter::write),
  /** For programs. */
  JSON("report.json", JsonReportWriter::write),
  /** For build servers. */
  JUNIT("junit.xml", JunitReportWriter::write);

  private final String fileName;
  private final Form form;

  ReportFormat(String fileName, Form form) {
    this.fileName = fileName;
    this.form = form;
  }

  private interface Form {
    void write(Report report, Writer out) throws IOException;
  }

  /** What the file of such a report is called. */
  public String fileName() {
    return fileName;
  }

  /** Writes a report; leaves {@code out} open and flushed. */
  public void write(Report report, Writer out) throws IOException {
    form.write(report, out);
  }

  /** The files of a report. */
  public static List<String> fileNames() {
    return Stream.of(values()).map(ReportFormat::fileName).toList();
  }

  /** The files of some formats, as a message puts them: {@code a, b and c}. */
  public static String inWords(Set<ReportFormat> formats) {
    List<String> names = formats.stream().map(ReportFormat::fileName).toList();
    int last = names.size() - 1;
    return last < 1 ? String.join("", names) : String.join(", ", names.subList(0, last)) + " and " + names.get(last);
  }
}
