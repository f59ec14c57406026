package dev.pawl.cli;

import dev.pawl.report.html.HtmlReportWriter;
import dev.pawl.report.json.JsonReportWriter;
import dev.pawl.report.junit.JunitReportWriter;
import dev.pawl.report.model.Report;
import java.io.IOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

/** Writes the three report files; each appears whole or not at all. */
final class ReportFiles {

  private ReportFiles() {}

  static void write(Report report, Path folder) {
    try {
      Files.createDirectories(folder);
      write(folder.resolve("report.json"), out -> JsonReportWriter.write(report, out));
      write(folder.resolve("junit.xml"), out -> JunitReportWriter.write(report, out));
      write(folder.resolve("report.html"), out -> HtmlReportWriter.write(report, out));
    } catch (IOException e) {
      throw new CommandException("the report cannot be written: " + FileTrouble.message(folder.toString(), e));
    }
  }

  private interface Contents {
    void writeTo(Writer out) throws IOException;
  }

  private static void write(Path file, Contents contents) throws IOException {
    Path unfinished = file.resolveSibling(file.getFileName() + ".unfinished");
    try (Writer out = Files.newBufferedWriter(unfinished)) {
      contents.writeTo(out);
    }
    Files.move(unfinished, file, StandardCopyOption.REPLACE_EXISTING);
  }
}
