package dev.pawl.trace.bytes;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.trace.Books;
import dev.pawl.trace.Recording;
import dev.pawl.trace.TraceOptions;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.zip.GZIPOutputStream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.tukaani.xz.LZMA2Options;
import org.tukaani.xz.XZOutputStream;

/**
 * What is packed and encoded; frames of Zstandard are put together by hand (RFC 8878, section 3.1.1, from memory): a
 * window descriptor and one raw block.
 */
class DecompressionTest {

  private static final String TRACE = "time_ms,signal,value\n1,lift_run,1\n";

  private static byte[] frame(int windowDescriptor) throws IOException {
    byte[] content = TRACE.getBytes(StandardCharsets.US_ASCII);
    int block = content.length << 3 | 1;
    ByteArrayOutputStream frame = new ByteArrayOutputStream();
    frame.write(new byte[] {0x28, (byte) 0xB5, 0x2F, (byte) 0xFD, 0, (byte) windowDescriptor, (byte) block,
        (byte) (block >> 8), (byte) (block >> 16)});
    frame.write(content);
    return frame.toByteArray();
  }

  @Test
  void aWindowOfAMegabyteIsRead() throws IOException {
    assertThat(Recording.of(frame(10 << 3), TraceOptions.of(Books.LIFT)).events()).hasSize(1);
  }

  @Test
  void aWindowBeyondTheLimitIsNoDamage() throws IOException {
    Recording recording = Recording.of(frame(21 << 3), TraceOptions.of(Books.LIFT));
    assertThat(recording.summary().isRejected()).isTrue();
    assertThat(recording.summary().diagnostics().get(0).message()).isEqualTo(
        "the zstd data was packed with a window of more than 128 MiB and must be unpacked before (zstd -d --long=31)");
  }

  /** Twelve megabytes of spaces in a few kilobytes: a line that is too long, told in the memory of a small trace. */
  @ParameterizedTest
  @ValueSource(strings = {"gzip", "xz", "zip"})
  void aLongStretchOfNothingIsOneProblem(String form) throws IOException {
    byte[] packed = packed(form, 12);
    assertThat(packed.length).isLessThan(200_000);
    Recording recording = Recording.of(packed, TraceOptions.of(Books.LIFT).withLenient(true));
    assertThat(recording.summary().problemTotal()).isEqualTo(1);
    assertThat(recording.events()).isNotEmpty();
  }

  private static byte[] packed(String form, int megabytes) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    ZipOutputStream zip = new ZipOutputStream(bytes);
    if (form.equals("zip")) {
      zip.putNextEntry(new ZipEntry("a.csv"));
    }
    try (OutputStream out = form.equals("zip") ? zip : form.equals("xz")
        ? new XZOutputStream(bytes, new LZMA2Options(1))
        : new GZIPOutputStream(bytes)) {
      out.write(TRACE.getBytes(StandardCharsets.US_ASCII));
      byte[] spaces = " ".repeat(1 << 20).getBytes(StandardCharsets.US_ASCII);
      for (int i = 0; i < megabytes; i++) {
        out.write(spaces);
      }
      out.write("\n2,lift_run,0\n".getBytes(StandardCharsets.US_ASCII));
    }
    return bytes.toByteArray();
  }

  @Test
  void aDictionaryBeyondTheLimitIsNoDamage() throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    LZMA2Options options = new LZMA2Options(0);
    options.setDictSize(256 << 20);
    try (XZOutputStream out = new XZOutputStream(bytes, options)) {
      out.write(TRACE.getBytes(StandardCharsets.US_ASCII));
    }
    assertThat(said(bytes.toByteArray())).containsExactly(
        "the xz data was packed with a dictionary of more than 128 MiB and must be unpacked before (xz -d)");
  }

  @Test
  void anArchiveOfTwoFilesIsRefusedWithTheirNames() throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
      for (String name : List.of("monday.csv", "tuesday.csv")) {
        zip.putNextEntry(new ZipEntry(name));
        zip.write(TRACE.getBytes(StandardCharsets.US_ASCII));
      }
    }
    Recording recording = Recording.of(bytes.toByteArray(), TraceOptions.of(Books.LIFT));
    assertThat(said(bytes.toByteArray()))
        .containsExactly("the zip archive holds more than one file: after 'monday.csv' comes 'tuesday.csv'");
    assertThat(recording.summary().diagnostics().get(0).hint())
        .contains("unpack it, and give its files one by one; --lenient judges what came before this line");
  }

  @Test
  void anEmptyArchiveIsSaidToBeEmpty() throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    new ZipOutputStream(bytes).close();
    assertThat(said(bytes.toByteArray())).containsExactly("the zip archive holds no file");
  }

  @Test
  void brokenTextInUtf16IsToldApart() {
    byte[] whole = ("\uFEFF" + TRACE).getBytes(StandardCharsets.UTF_16LE);
    assertThat(said(Arrays.copyOf(whole, whole.length - 1)))
        .containsExactly("the text in UTF-16 ends within a character");
    whole[whole.length - 3] = (byte) 0xDC;
    assertThat(said(whole)).containsExactly("the text in UTF-16 has half a character");
  }

  private static List<String> said(byte[] bytes) {
    return Recording.of(bytes, TraceOptions.of(Books.LIFT)).summary().diagnostics().stream().map(Diagnostic::message)
        .toList();
  }
}
