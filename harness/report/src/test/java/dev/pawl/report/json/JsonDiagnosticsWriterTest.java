package dev.pawl.report.json;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import dev.pawl.grammar.rules.Compilation;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.source.Source;
import java.io.ByteArrayOutputStream;
import java.io.InputStream;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What is wrong with rules as JSON, against the schema that is published with it. */
class JsonDiagnosticsWriterTest {

  @ParameterizedTest
  @ValueSource(strings = {"", "language 9", "input a : bool\nrule A-1 \"t\"\n  never a\n", "rule", "zone z enter w",
      "constant \uFFFD"})
  void everyPageHasTheShapeOfItsSchema(String text) throws Exception {
    Compilation compilation = RuleLanguage.compile(List.of(new Source("a.rules", text)), SourceLoader.none());
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    JsonDiagnosticsWriter.write(compilation, out);

    JsonNode page = new ObjectMapper().readTree(out.toByteArray());
    try (InputStream schema = JsonReportFormat.diagnosticsSchema()) {
      assertThat(JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012).getSchema(schema).validate(page))
          .isEmpty();
    }
    assertThat(page.get("diagnostics").size()).isEqualTo(compilation.diagnostics().size());
    assertThat(page.get("rules").intValue()).isEqualTo(compilation.book().map(book -> book.rules().size()).orElse(0));
  }
}
