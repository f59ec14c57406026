package dev.pawl.trace.bytes;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.nio.charset.StandardCharsets;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Numbers from text, against the platform's own correctly rounding parser. */
class DecimalsTest {

  @Test
  void agreesWithThePlatformOnRandomTexts() {
    compare(1_000_000, 1);
  }

  @Test
  @Tag("soak")
  void agreesWithThePlatformOnVeryManyRandomTexts() {
    compare(100_000_000, 2);
  }

  private static void compare(int count, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    for (int i = 0; i < count; i++) {
      String text = text(random);
      double expected = Double.parseDouble(text) + 0.0;
      double actual = parse(text);
      boolean same = Double.isInfinite(expected) ? Double.isNaN(actual)
          : Double.doubleToRawLongBits(actual) == Double.doubleToRawLongBits(expected);
      if (!same) {
        assertThat(actual).as(text).isEqualTo(expected);
      }
    }
  }

  /**
   * A number as a logger may write it: mostly short, sometimes of many digits, half-way between two doubles, or huge.
   */
  private static String text(SplittableRandom random) {
    String sign = random.nextInt(4) == 0 ? "-" : random.nextInt(20) == 0 ? "+" : "";
    switch (random.nextInt(24)) {
      case 0:
        return Double.toString(Double.longBitsToDouble(random.nextLong() & 0x7FDFFFFFFFFFFFFFL));
      case 1:
        return sign + halfway(random).toPlainString();
      case 2:
        return sign + digits(random, 1 + random.nextInt(30)) + "." + digits(random, random.nextInt(30));
      case 3:
        return sign + "." + digits(random, 1 + random.nextInt(20)) + "e" + (random.nextInt(700) - 350);
      case 4:
        return sign + digits(random, 1 + random.nextInt(20)) + ".";
      default:
        return sign + digits(random, 1 + random.nextInt(9)) + (random.nextBoolean() ? "." + digits(random, 1
            + random.nextInt(8)) : "");
    }
  }

  private static BigDecimal halfway(SplittableRandom random) {
    double value = random.nextDouble() * Math.pow(10, random.nextInt(20));
    return new BigDecimal(value).add(new BigDecimal(Math.nextUp(value))).divide(BigDecimal.valueOf(2));
  }

  private static String digits(SplittableRandom random, int count) {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < count; i++) {
      text.append((char) ('0' + random.nextInt(10)));
    }
    return text.toString();
  }

  @ParameterizedTest
  @ValueSource(strings = {"", ".", "-", "+.", "e5", "1e", "1e+", "1.2.3", "0x1p3", "1f", "1d", "NaN", "Infinity", " 1",
      "1 ", "1,5", "--1", "1e999", "1-", "\u0661"})
  void refusesWhatIsNoFiniteDecimalNumber(String text) {
    assertThat(parse(text)).isNaN();
  }

  @Test
  void hasNoNegativeZeroAsItsBitsMeanUnknown() {
    assertThat(Double.doubleToRawLongBits(parse("-0"))).isZero();
    assertThat(Double.doubleToRawLongBits(parse("-0.000"))).isZero();
    assertThat(Double.doubleToRawLongBits(parse("-1e-400"))).isZero();
  }

  @Test
  void takesNumbersOfAThousandDigits() {
    String text = BigInteger.TEN.pow(300).toString() + "." + "3".repeat(700);
    assertThat(parse(text)).isEqualTo(Double.parseDouble(text));
  }

  private static double parse(String text) {
    byte[] bytes = ("12" + text + "34").getBytes(StandardCharsets.UTF_8);
    return Decimals.parse(bytes, 2, bytes.length - 2);
  }
}
