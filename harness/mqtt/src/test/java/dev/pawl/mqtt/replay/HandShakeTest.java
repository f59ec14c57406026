package dev.pawl.mqtt.replay;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class HandShakeTest {

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.US_ASCII);
  }

  @Test
  void whatIsWrittenReadsBackTheSame() {
    for (HandShake each : new HandShake[] {HandShake.answer(1, 0), HandShake.again(4, 0), new HandShake(7, 12, 0),
        new HandShake(7, 12, -5), new HandShake(4000, 5000, 1_795_615_422_377_780_512L)}) {
      assertThat(HandShake.parse(each.bytes())).contains(each);
    }
    assertThat(new HandShake(3, 4, 50).bytes()).isEqualTo(bytes("3 4 50"));
    assertThat(HandShake.parse(bytes("3 4\n"))).contains(HandShake.answer(3, 4));
    assertThat(HandShake.again(3, 4).bytes()).isEqualTo(bytes("3 4 again"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "3", "a 4", "3 4 x", "3 4 5 again", "3 again", "3 4again", "3 4 5 6", "-3 4", "3  4",
      "3 4 9999999999999999999"})
  void anythingElseIsNone(String text) {
    assertThat(HandShake.parse(bytes(text))).isEmpty();
  }
}
