package dev.pawl.trace;

import static org.assertj.core.api.Assertions.assertThat;

import com.github.luben.zstd.Zstd;
import dev.pawl.trace.intake.ProblemKind;
import dev.pawl.trace.intake.Progress;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.zip.GZIPOutputStream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.tukaani.xz.LZMA2Options;
import org.tukaani.xz.XZOutputStream;

/** Damaged, cut, endless and random bytes: always an answer, never an exception, nothing lost in silence. */
class HostileBytesTest {

  private static final TraceOptions LIFT = TraceOptions.of(Books.LIFT);

  @Property(tries = 3000)
  void randomBytesGetAnAnswer(@ForAll long seed, @ForAll @IntRange(max = 5) int start) {
    Random random = new Random(seed);
    String[] starts = {"", "time_ms,signal,value\n", "time_ms,lift_run,mode\n", "{\"time_ms\":",
        "$timescale 1 ns $end\n", "\u001f\u008b\b"};
    byte[] bytes = new byte[random.nextInt(300)];
    random.nextBytes(bytes);
    byte[] head = starts[start].getBytes(StandardCharsets.ISO_8859_1);
    byte[] all = Arrays.copyOf(head, head.length + bytes.length);
    System.arraycopy(bytes, 0, all, head.length, bytes.length);
    assertThat(Recording.of(all, LIFT).summary()).isNotNull();
  }

  @Property(tries = 4000)
  void changedTracesGetAnAnswerAndTheOrderHolds(@ForAll long seed) {
    Random random = new Random(seed);
    String[] traces = {
        "time_ms,signal,value,quality\n5,lift_run,1,good\n6,lift_speed,2.5,bad\n7,\"mode\",off,192\n# end: 9\n",
        "time,lift_run,mode\n2026-11-25T09:00:00Z,1,off\n2026-11-25T09:00:01.5Z,,manual\n",
        "{\"time_ms\": 5, \"signal\": \"lift_run\", \"value\": 1}\n{\"time_ms\": 6, \"values\": {\"mode\": \"off\"}}\n",
        "$timescale 1 ms $end\n$var wire 1 ! lift_run $end\n$var reg 2 \" mode $end\n$enddefinitions "
            + "$end\n#0\n1!\nb01 \"\n#5\n"};
    byte[] bytes = traces[random.nextInt(traces.length)].getBytes(StandardCharsets.UTF_8);
    byte[] spare = ",\"\n\r0#x$ {}:.-9".getBytes(StandardCharsets.UTF_8);
    for (int i = 1 + random.nextInt(4); i > 0; i--) {
      bytes[random.nextInt(bytes.length)] = spare[random.nextInt(spare.length)];
    }
    Recording recording = Recording.of(bytes, LIFT.withLenient(true));
    assertThat(recording.events()).isSortedAccordingTo((a, b) -> Long.compare(a.time(), b.time()));
    assertThat(recording.events().size()).isEqualTo((int) recording.summary().counts().sent());
  }

  @Test
  void cutOffCompressedTracesSayWhereTheyEnd() throws IOException {
    byte[] trace = longTrace(5000).getBytes(StandardCharsets.UTF_8);
    ByteArrayOutputStream gzip = new ByteArrayOutputStream();
    try (GZIPOutputStream out = new GZIPOutputStream(gzip)) {
      out.write(trace);
    }
    ByteArrayOutputStream xz = new ByteArrayOutputStream();
    try (XZOutputStream out = new XZOutputStream(xz, new LZMA2Options(1))) {
      out.write(trace);
    }
    ByteArrayOutputStream zip = new ByteArrayOutputStream();
    try (ZipOutputStream out = new ZipOutputStream(zip)) {
      out.putNextEntry(new ZipEntry("trace.csv"));
      out.write(trace);
    }
    byte[] file = Arrays.copyOf(zip.toByteArray(), zip.size() - 100);
    for (byte[] whole : List.of(gzip.toByteArray(), Zstd.compress(trace), xz.toByteArray(), file)) {
      for (int cut = 6; cut < whole.length; cut += 97) {
        TraceSummary summary = Recording.of(Arrays.copyOf(whole, cut), LIFT).summary();
        assertThat(summary.isRejected()).as("cut at " + cut).isTrue();
        assertThat(summary.diagnostics().get(0).message()).contains("data ends before its end mark");
      }
    }
  }

  @Test
  void aCutOffTraceIsJudgedUpToTheLastWholeLineIfLenient() {
    byte[] whole = Zstd.compress(longTrace(100_000).getBytes(StandardCharsets.UTF_8));
    Recording recording = Recording.of(Arrays.copyOf(whole, whole.length / 2), LIFT.withLenient(true));
    assertThat(recording.summary().outcome()).isEqualTo(TraceSummary.Outcome.COMPLETE);
    assertThat(recording.summary().problems()).extracting(problem -> problem.kind())
        .containsExactly(ProblemKind.DAMAGED);
    assertThat(recording.events()).hasSizeBetween(1000, 99_999);
  }

  @Test
  void changedCompressedBytesSayThatTheDataIsDamaged() throws IOException {
    ByteArrayOutputStream gzip = new ByteArrayOutputStream();
    try (GZIPOutputStream out = new GZIPOutputStream(gzip)) {
      out.write(longTrace(5000).getBytes(StandardCharsets.UTF_8));
    }
    byte[] bytes = gzip.toByteArray();
    bytes[bytes.length - 6] ^= 1;
    assertThat(Recording.of(bytes, LIFT).summary().diagnostics().get(0).message())
        .isEqualTo("the gzip data is damaged");
  }

  @Test
  void aLineLongerThanAMillionBytesIsOneProblemAndTheNextLineIsRead() {
    String trace = "time_ms,signal,value\n1,lift_run,1\n2,lift_run," + "9".repeat(3_000_000) + "\n3,lift_run,0\n";
    Recording recording = Recording.of(trace, LIFT.withLenient(true));
    assertThat(recording.summary().problems()).hasSize(1);
    assertThat(recording.summary().diagnostics().get(0).position().line()).isEqualTo(3);
    assertThat(recording.lines()).as("the lost row, which leaves what was known in doubt, and those that could be read")
        .containsExactly(2L, 3L, 4L);
  }

  @Test
  void aQuoteThatIsNeverClosedCostsOneLine() {
    String trace = "time_ms,signal,value\n0,mode,off\n0,\"lift_run,0\n" + longTrace(200_000)
        .substring("time_ms,signal,value\n".length());
    Recording recording = Recording.of(trace, LIFT.withLenient(true));
    assertThat(recording.summary().problemTotal()).isEqualTo(1);
    assertThat(recording.events()).as("the rows that could be read, and the doubt of the mode").hasSize(200_002);
  }

  /** However the bytes come in pieces, the events and their lines are the same. */
  @Property(tries = 50)
  void piecesOfAnySizeGiveTheSameEvents(@ForAll long seed) throws IOException {
    Random random = new Random(seed);
    String trace = longTrace(2000).replace("12,lift_run,0", "12,\"lift_run\",\"0\"")
        .replace("\n77,", "\n\n# remark\n77,");
    Recording whole = Recording.of(trace, LIFT);
    Recording pieces = new Recording();
    InputStream slow = new FilterInputStream(new ByteArrayInputStream(trace.getBytes(StandardCharsets.UTF_8))) {
      @Override
      public int read(byte[] bytes, int from, int length) throws IOException {
        return super.read(bytes, from, Math.min(length, 1 + random.nextInt(40)));
      }
    };
    try (TraceReader reader = Traces.open(slow, "trace", LIFT)) {
      reader.readTo(pieces, Progress.NONE);
    }
    assertThat(pieces.events()).isEqualTo(whole.events());
    assertThat(pieces.lines()).isEqualTo(whole.lines());
    String[] lines = trace.split("\n", -1);
    for (int i = 0; i < whole.lines().size(); i++) {
      String row = lines[(int) (long) whole.lines().get(i) - 1];
      assertThat(row).startsWith(whole.events().get(i).time() / 1_000_000 + ",");
    }
  }

  @Test
  void windowsEndWithinRowsOfManyBlocks() {
    Recording recording = Recording.of(longTrace(100_000), LIFT);
    assertThat(recording.summary().counts().lines()).isEqualTo(100_001);
    assertThat(recording.events()).hasSize(100_000);
    assertThat(recording.lines()).isSorted().endsWith(100_001L);
  }

  @Test
  void progressCanEndTheReading() throws IOException {
    Recording recording = new Recording();
    InputStream bytes = new ByteArrayInputStream(longTrace(100_000).getBytes(StandardCharsets.UTF_8));
    try (TraceReader reader = Traces.open(bytes, "trace", LIFT)) {
      TraceSummary summary = reader.readTo(recording, (position, lines) -> false);
      assertThat(summary.outcome()).isEqualTo(TraceSummary.Outcome.INTERRUPTED);
      assertThat(recording.events()).hasSizeBetween(1, 99_999);
    }
  }

  /** Rows of a bool that toggles, with numbers of all lengths in between. */
  private static String longTrace(int rows) {
    StringBuilder trace = new StringBuilder("time_ms,signal,value\n");
    for (int i = 0; i < rows; i++) {
      trace.append(i).append(i % 7 == 0 ? ",lift_speed," + i / 7.0 : ",lift_run," + i % 2).append('\n');
    }
    return trace.toString();
  }
}
