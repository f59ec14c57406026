package dev.pawl.trace.bytes;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.trace.Books;
import dev.pawl.trace.Recording;
import dev.pawl.trace.TraceOptions;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;

/** Frames of Zstandard put together by hand (RFC 8878, section 3.1.1, from memory): a window descriptor and one raw block. */
class DecompressionTest {

  private static final String TRACE = "time_ms,signal,value\n1,lift_run,1\n";

  private static byte[] frame(int windowDescriptor) throws IOException {
    byte[] content = TRACE.getBytes(StandardCharsets.US_ASCII);
    int block = content.length << 3 | 1;
    ByteArrayOutputStream frame = new ByteArrayOutputStream();
    frame.write(new byte[] {0x28, (byte) 0xB5, 0x2F, (byte) 0xFD, 0, (byte) windowDescriptor, (byte) block, (byte) (block >> 8),
        (byte) (block >> 16)});
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
}
