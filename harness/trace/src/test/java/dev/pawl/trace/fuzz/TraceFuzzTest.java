package dev.pawl.trace.fuzz;

import com.code_intelligence.jazzer.junit.FuzzTest;
import dev.pawl.trace.TraceFormat;
import java.util.Optional;
import org.junit.jupiter.api.Timeout;

/** Any bytes at all as a trace in each form, and as a bindings file. The time limit stands for "does not end". */
@Timeout(30)
class TraceFuzzTest {

  @FuzzTest(maxDuration = "")
  void csv(byte[] bytes) {
    Oracles.readTrace(bytes, Optional.of(TraceFormat.CSV));
  }

  @FuzzTest(maxDuration = "")
  void json(byte[] bytes) {
    Oracles.readTrace(bytes, Optional.of(TraceFormat.JSON));
  }

  @FuzzTest(maxDuration = "")
  void vcd(byte[] bytes) {
    Oracles.readTrace(bytes, Optional.of(TraceFormat.VCD));
  }

  /** Of no stated form: gzip, zstd, xz, zip, UTF-16, byte order marks, and what the first bytes give away. */
  @FuzzTest(maxDuration = "")
  void packed(byte[] bytes) {
    Oracles.readTrace(bytes, Optional.empty());
    Oracles.readPacked(bytes);
  }

  /** Under bindings that state forms of a site's own. */
  @FuzzTest(maxDuration = "")
  void stated(byte[] bytes) {
    Oracles.readStated(bytes);
  }

  @FuzzTest(maxDuration = "")
  void bindings(byte[] bytes) {
    Oracles.bind(bytes);
  }
}
