package dev.pawl.trace.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Qualities in words, as in classic OPC (QQSSSSLL in the lower byte), in OPC UA (two upper bits) and in Sparkplug; all
 * from memory.
 */
class QualityTest {

  @ParameterizedTest
  @CsvSource({
      "'', GOOD", "Good, GOOD", "BAD, NOT_GOOD", "uncertain, NOT_GOOD", "stale, NOT_GOOD", "fine, UNRECOGNISED",
      "192, GOOD", "216, GOOD", "448, GOOD", "0, NOT_GOOD", "24, NOT_GOOD", "64, NOT_GOOD", "84, NOT_GOOD",
          "128, UNRECOGNISED",
      "500, NOT_GOOD", "0xC0, GOOD", "0xd8, GOOD", "0x40, NOT_GOOD", "0x01C0, GOOD", "0x0, NOT_GOOD",
      "0x00000000, GOOD", "0x80000000, NOT_GOOD", "0x40920000, NOT_GOOD", "0xC0000000, UNRECOGNISED",
          "2147483648, NOT_GOOD",
      "1083310080, NOT_GOOD", "99999999999, UNRECOGNISED", "0xG0, UNRECOGNISED", "19.2, UNRECOGNISED",
          "0x, UNRECOGNISED"})
  void isKnownBy(String text, Quality quality) {
    byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
    assertThat(Quality.of(bytes, 0, bytes.length)).isEqualTo(quality);
  }
}
