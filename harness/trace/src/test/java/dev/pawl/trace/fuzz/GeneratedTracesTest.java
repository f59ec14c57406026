package dev.pawl.trace.fuzz;

import dev.pawl.trace.TraceFormat;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Five thousand damaged inputs, the same in every build: what fuzzing looks for over hours, looked for in seconds. */
@Timeout(300)
class GeneratedTracesTest {

  private static final Path KEPT = Path.of("src/test/resources/dev/pawl/trace/fuzz/TraceFuzzTestInputs");
  private static final byte[] SPARE = ",;\t\"'\n\r0129#x$ {}[]:.-+eZT\\\0\u00ff".getBytes(StandardCharsets.ISO_8859_1);

  @Test
  void damagedCsvGetsAnAnswer() throws IOException {
    damaged("csv", 1_000, bytes -> Oracles.readTrace(bytes, Optional.of(TraceFormat.CSV)));
  }

  @Test
  void damagedJsonGetsAnAnswer() throws IOException {
    damaged("json", 1_000, bytes -> Oracles.readTrace(bytes, Optional.of(TraceFormat.JSON)));
  }

  @Test
  void damagedValueChangeDumpsGetAnAnswer() throws IOException {
    damaged("vcd", 1_000, bytes -> Oracles.readTrace(bytes, Optional.of(TraceFormat.VCD)));
  }

  @Test
  void damagedPackedTracesGetAnAnswer() throws IOException {
    damaged("packed", 500, bytes -> Oracles.readTrace(bytes, Optional.empty()));
  }

  @Test
  void damagedTracesOfStatedFormsGetAnAnswer() throws IOException {
    damaged("stated", 1_000, Oracles::readStated);
  }

  @Test
  void damagedBindingsGetAnAnswer() throws IOException {
    damaged("bindings", 500, Oracles::bind);
  }

  private static void damaged(String kind, int count, Consumer<byte[]> oracle) throws IOException {
    List<byte[]> seeds = seeds(kind);
    for (long seed = 0; seed < count; seed++) {
      byte[] bytes = damage(seeds, new SplittableRandom(seed));
      try {
        oracle.accept(bytes);
      } catch (RuntimeException | StackOverflowError | AssertionError fault) {
        String input = new String(bytes, StandardCharsets.ISO_8859_1);
        throw new AssertionError("seed " + seed + ": " + fault.getMessage() + "\n" + input, fault);
      }
    }
  }

  private static List<byte[]> seeds(String kind) throws IOException {
    try (Stream<Path> files = Files.list(KEPT.resolve(kind))) {
      List<byte[]> seeds = new ArrayList<>();
      for (Path file : files.sorted().toList()) {
        seeds.add(Files.readAllBytes(file));
      }
      seeds.removeIf(bytes -> bytes.length == 0);
      return seeds;
    }
  }

  /** A few bytes changed, a stretch left out or said twice, or the head of one input with the tail of another. */
  private static byte[] damage(List<byte[]> seeds, SplittableRandom random) {
    byte[] bytes = seeds.get(random.nextInt(seeds.size())).clone();
    for (int changes = 1 + random.nextInt(4); changes > 0; changes--) {
      byte[] other = random.nextBoolean() ? bytes : seeds.get(random.nextInt(seeds.size()));
      int at = random.nextInt(bytes.length);
      int from = random.nextInt(other.length);
      switch (random.nextInt(4)) {
        case 0 -> bytes[at] = SPARE[random.nextInt(SPARE.length)];
        case 1 -> bytes[at] ^= (byte) (1 << random.nextInt(8));
        case 2 -> bytes = joined(bytes, at, other, from, Math.min(other.length, from + 1 + random.nextInt(30)), bytes,
            at);
        default -> bytes = joined(bytes, at, other, from, other.length, bytes, bytes.length);
      }
    }
    return bytes;
  }

  /** The first bytes of one, a stretch of another, and the rest of a third. */
  private static byte[] joined(byte[] head, int headEnd, byte[] middle, int from, int to, byte[] tail, int tailStart) {
    byte[] all = Arrays.copyOf(head, headEnd + (to - from) + tail.length - tailStart);
    System.arraycopy(middle, from, all, headEnd, to - from);
    System.arraycopy(tail, tailStart, all, headEnd + to - from, tail.length - tailStart);
    return all;
  }
}
