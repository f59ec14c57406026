package dev.pawl.trace.csv;

import static org.assertj.core.api.Assertions.assertThat;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import de.siegmar.fastcsv.writer.QuoteStrategies;
import java.io.IOException;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Records taken apart, by RFC 4180's examples (from memory) and by an independent library. */
class FieldsTest {

  @Provide
  Arbitrary<List<List<String>>> tables() {
    return Arbitraries.integers().between(2, 5).flatMap(columns -> Arbitraries.strings().withChars("ab ,\"\n\r;\u00e9")
        .ofMaxLength(6)
        .list().ofSize(columns).list().ofMinSize(1).ofMaxSize(6));
  }

  @Property(tries = 1000)
  void givesBackWhatAnotherWriterWrote(@ForAll("tables") List<List<String>> table, @ForAll boolean all,
      @ForAll boolean crlf) throws IOException {
    StringWriter text = new StringWriter();
    try (CsvWriter writer = CsvWriter.builder().quoteStrategy(all ? QuoteStrategies.ALWAYS : QuoteStrategies.EMPTY)
        .lineDelimiter(crlf ? LineDelimiter.CRLF : LineDelimiter.LF).build(text)) {
      table.forEach(writer::writeRecord);
    }
    assertThat(split(text.toString())).isEqualTo(table);
  }

  @Provide
  Arbitrary<String> texts() {
    return Arbitraries.of("a", "bc", ",", ",", "\n", "\r\n", "\"", "\"\"", "\"x,\"", "\"\n\"").list().ofMaxSize(25)
        .map(parts -> String.join("", parts) + "\n");
  }

  @Property(tries = 3000)
  void agreesWithAnotherReaderOnEverythingWellFormed(@ForAll("texts") String text) {
    List<List<String>> own = split(text);
    if (own == null) {
      return;
    }
    List<List<String>> other = new ArrayList<>();
    CsvReader.CsvReaderBuilder reader = CsvReader.builder().skipEmptyLines(false)
        .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
        .missingFieldStrategy(FieldMismatchStrategy.IGNORE);
    for (CsvRecord row : reader.ofCsvRecord(text)) {
      other.add(row.getFields());
    }
    assertThat(own).isEqualTo(other);
  }

  /** RFC 4180, section 2, rules 1, 2 and 5 to 7, from memory. */
  @Test
  void readsTheExamplesOfRfc4180() {
    assertThat(split("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n")).containsExactly(List.of("aaa", "bbb", "ccc"),
        List.of("zzz", "yyy", "xxx"));
    assertThat(split("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx\r\n"))
        .containsExactly(List.of("aaa", "b\r\nbb", "ccc"), List.of("zzz", "yyy", "xxx"));
    assertThat(split("\"aaa\",\"b\"\"bb\",\"ccc\"\r\n")).containsExactly(List.of("aaa", "b\"bb", "ccc"));
    assertThat(split(" a , b \n")).containsExactly(List.of(" a ", " b "));
  }

  @ParameterizedTest
  @ValueSource(strings = {"a\"b\n", "\"a\"b\n", "\"a\" \n", "\"a\n"})
  void findsFault(String text) {
    assertThat(split(text)).isNull();
  }

  /** All records, or null if one is not well formed. */
  private static List<List<String>> split(String text) {
    byte[] bytes = (" ".repeat(32) + text + "\"\n,".repeat(30)).getBytes(StandardCharsets.UTF_8);
    int end = 32 + text.getBytes(StandardCharsets.UTF_8).length;
    Fields fields = new Fields(',', true);
    List<List<String>> records = new ArrayList<>();
    int at = 32;
    while (at < end) {
      at = fields.split(bytes, at, end);
      if (at == Fields.UNFINISHED || fields.fault() > 0) {
        return null;
      }
      List<String> row = new ArrayList<>();
      for (int i = 0; i < fields.count(); i++) {
        row.add(fields.text(i));
      }
      records.add(row);
    }
    return records;
  }
}
