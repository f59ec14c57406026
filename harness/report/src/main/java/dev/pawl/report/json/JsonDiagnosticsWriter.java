package dev.pawl.report.json;

import dev.pawl.grammar.rules.Compilation;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Severity;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** Writes what is wrong or doubtful in rule files as JSON. */
public final class JsonDiagnosticsWriter {

  private JsonDiagnosticsWriter() {}

  /** Writes a page, and leaves {@code out} open and flushed. */
  public static void write(Compilation compilation, OutputStream out) {
    List<DiagnosticOut> all = compilation.diagnostics().stream().map(DiagnosticOut::of).toList();
    int rules = compilation.book().map(book -> book.rules().size()).orElse(0);
    Writer writer = new OutputStreamWriter(out, StandardCharsets.UTF_8);
    try {
      RecordWriter.writePage(new Page(JsonReportFormat.DIAGNOSTICS_NAME, JsonReportFormat.DIAGNOSTICS_VERSION,
          compilation.sources().stream().map(source -> source.name()).toList(), rules, all), writer);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private record Page(String format, int formatVersion, List<String> files, int rules,
      List<DiagnosticOut> diagnostics) {}

  private record DiagnosticOut(Severity severity, String file, int line, int column, int length, String message,
      String hint) {

    static DiagnosticOut of(Diagnostic diagnostic) {
      return new DiagnosticOut(diagnostic.severity(), diagnostic.position().file(), diagnostic.position().line(),
          diagnostic.position().column(), diagnostic.position().length(), diagnostic.message(), diagnostic.hint());
    }
  }
}
