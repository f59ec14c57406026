package dev.pawl.mqtt.page;

import com.code_intelligence.jazzer.junit.FuzzTest;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.api.Timeout;

/** Any bytes at all as the head of a request to the live page. The time limit stands for "does not end". */
@Timeout(30)
class PageFuzzTest {

  private static final int PORT = 8080;

  /**
   * It is understood or not; what is served was asked for by the page's own name, in a head that ends and is not too
   * long.
   */
  @FuzzTest(maxDuration = "")
  void request(byte[] bytes) throws IOException {
    ByteArrayInputStream in = new ByteArrayInputStream(bytes);
    Optional<PageRequest> request = PageRequest.read(in);
    int taken = bytes.length - in.available();
    require(taken <= 16_384, "took " + taken + " bytes");
    if (request.isPresent()) {
      String head = new String(bytes, 0, taken, StandardCharsets.ISO_8859_1);
      require(head.endsWith("\r\n\r\n"), "the head did not end");
      require(head.startsWith(request.get().method() + " " + request.get().target() + " HTTP/1."),
          "another request line");
      require(!(request.get().method() + request.get().target()).contains(" "), "a space in a word");
      boolean own = head.toLowerCase(Locale.ROOT)
          .matches("(?s).*\r\nhost:\\s*(127\\.0\\.0\\.1|localhost):8080\\s*\r\n.*");
      require(own || !request.get().isFor(PORT), "served under a stranger's name");
    }
  }

  private static void require(boolean holds, String fault) {
    if (!holds) {
      throw new AssertionError(fault);
    }
  }
}
