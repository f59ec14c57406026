package dev.pawl.trace.time;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Times from text: RFC 3339 by the document's own examples and by the platform's parser, and plain numbers. */
class TimeReaderTest {

  /** The examples of RFC 3339, section 5.8, with what the text there says that they equal (from memory). */
  @ParameterizedTest
  @CsvSource({
      "1985-04-12T23:20:50.52Z, 1985-04-12T23:20:50.520Z",
      "1996-12-19T16:39:57-08:00, 1996-12-20T00:39:57Z",
      "1990-12-31T23:59:60Z, 1991-01-01T00:00:00Z",
      "1990-12-31T15:59:60-08:00, 1991-01-01T00:00:00Z",
  })
  void readsTheExamplesOfRfc3339(String text, String same) {
    assertThat(read(TimeScale.RFC_3339, text)).isEqualTo(nanoseconds(Instant.parse(same)));
  }

  /** RFC 3339, section 5.6: small letters and a space are allowed; section 4.3: {@code -00:00} (from memory). */
  @ParameterizedTest
  @CsvSource({
      "2026-11-25t09:27:39z", "2026-11-25 09:27:39Z", "2026-11-25T09:27:39-00:00", "2026-11-25T09:27:39+00:00",
      "2026-11-25T09:27:39.000000000000000Z", "2026-11-25T11:27:39+02:00",
  })
  void readsAllSpellingsOfOneTime(String text) {
    assertThat(read(TimeScale.RFC_3339, text)).isEqualTo(nanoseconds(Instant.parse("2026-11-25T09:27:39Z")));
  }

  @Property(tries = 2000)
  void agreesWithThePlatformOnDates(@ForAll @LongRange(min = -2_200_000_000L, max = 2_200_000_000L) long second,
      @ForAll @IntRange(max = 999_999_999) int nanosecond, @ForAll @IntRange(min = -1080, max = 1080) int offset) {
    OffsetDateTime time = Instant.ofEpochSecond(second, nanosecond).atOffset(ZoneOffset.ofTotalSeconds(offset * 60));
    assertThat(read(TimeScale.RFC_3339, DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(time)))
        .isEqualTo(nanoseconds(time.toInstant()));
    assertThat(TimeWriter.of(nanoseconds(time.toInstant()), TimeScale.RFC_3339).replaceAll("\\.?0*Z", "Z"))
        .isEqualTo(time.toInstant().toString().replaceAll("\\.?0*Z", "Z"));
  }

  @Property(tries = 1000)
  void scansWhatItReads(@ForAll @LongRange(min = 0, max = 2_000_000_000_000_000_000L) long time,
      @ForAll TimeScale scale) {
    String text = TimeWriter.of(time, scale);
    TimeReader reader = new TimeReader(scale);
    byte[] bytes = padded(text + ",");
    assertThat(reader.read(bytes, 32, 32 + text.length())).as(text).isEqualTo(time);
    int stop = reader.scan(bytes, 32, (byte) ',');
    if (stop >= 0) {
      assertThat(stop).isEqualTo(32 + text.length());
      assertThat(reader.time()).as(text).isEqualTo(time);
    }
  }

  @ParameterizedTest
  @CsvSource({
      "SECONDS, 1.5, 1500000000", "SECONDS, 0.000000001, 1", "SECONDS, 12, 12000000000",
          "MILLISECONDS, 12345678, 12345678000000",
      "MILLISECONDS, 0.25, 250000", "MICROSECONDS, 1234567890123456, 1234567890123456000", "NANOSECONDS, 7, 7",
          "SECONDS, .5, 500000000",
      "SECONDS, 5., 5000000000", "MILLISECONDS, -3, -3000000", "SECONDS, 007, 7000000000",
  })
  void readsPlainNumbers(TimeScale scale, String text, long expected) {
    assertThat(read(scale, text)).isEqualTo(expected);
  }

  /** Cutting off keeps the order of times, before zero as after it. */
  @ParameterizedTest
  @CsvSource({"0.0000000019, 1", "0.0000000010, 1", "-0.0000000001, -1", "-0.0000000010, -1"})
  void cutsOffWhatIsFinerThanANanosecond(String text, long expected) {
    assertThat(read(TimeScale.SECONDS, text)).isEqualTo(expected);
  }

  @Test
  void countsTimesThatWereCutOff() {
    TimeReader reader = new TimeReader(TimeScale.MICROSECONDS);
    for (String text : new String[] {"1.0005", "2.001", "3.0010"}) {
      byte[] bytes = padded(text);
      reader.read(bytes, 32, 32 + text.length());
    }
    assertThat(reader.finer()).isEqualTo(1);
  }

  /**
   * Every second instant of two days around both changes of clocks (Directive 2000/84/EC, from memory), as the platform
   * has it.
   */
  @Property(tries = 300)
  void localTimesAgreeWithThePlatform(@ForAll boolean autumn, @ForAll @IntRange(max = 999) int millisecond,
      @ForAll boolean earlier) {
    ZoneId zone = ZoneId.of("Europe/Vienna");
    LocalDateTime day = autumn ? LocalDateTime.of(2026, 10, 25, 0, 0) : LocalDateTime.of(2026, 3, 29, 0, 0);
    TimeReader reader = new TimeReader(form("day.month.year hour:minute:second", zone, earlier ? Repeated.EARLIER
        : Repeated.LATER), '.');
    for (int minute = 0; minute < 300; minute++) {
      LocalDateTime time = day.plusMinutes(minute).plusSeconds(minute % 60).plusNanos(millisecond * 1_000_000L);
      String text = DateTimeFormatter.ofPattern("dd.MM.yyyy HH:mm:ss.SSS").format(time);
      byte[] bytes = padded(text + ";");
      boolean skipped = zone.getRules().getValidOffsets(time).isEmpty();
      ZonedDateTime wanted = time.atZone(zone);
      long expected = skipped ? TimeReader.INVALID
          : nanoseconds((earlier ? wanted.withEarlierOffsetAtOverlap() : wanted.withLaterOffsetAtOverlap())
              .toInstant());
      assertThat(reader.read(bytes, 32, 32 + text.length())).as(text).isEqualTo(expected);
      if (!skipped) {
        assertThat(reader.scan(bytes, 32, (byte) ';')).as(text).isEqualTo(32 + text.length());
        assertThat(reader.time()).as(text).isEqualTo(expected);
      }
    }
  }

  /** An hour that comes twice is read as it comes: the second time it is the later one. */
  @Test
  void aRepeatedHourIsTakenAsTheRowsCome() {
    TimeReader reader = new TimeReader(form("year-month-day hour:minute:second", ZoneId.of("Europe/Vienna"),
        Repeated.IN_ORDER), '.');
    List<Long> minutes = new ArrayList<>();
    for (String time : List.of("01:59", "02:00", "02:30", "02:29", "02:59", "02:00", "02:30", "02:59", "03:00")) {
      String text = "2026-10-25 " + time + ":30.5";
      long read = reader.read(padded(text), 32, 32 + text.length());
      minutes.add((read - nanoseconds(Instant.parse("2026-10-24T23:59:30.500Z"))) / 60_000_000_000L);
    }
    assertThat(minutes).as("a minute late is a row out of order")
        .containsExactly(0L, 1L, 31L, 30L, 60L, 61L, 91L, 120L, 121L);
  }

  /** Long digits and decimals go the short way as well. */
  @ParameterizedTest
  @CsvSource({"MICROSECONDS, 1764062859125000", "MICROSECONDS, 1764062859125000.5", "NANOSECONDS, 1764062859125000123",
      "SECONDS, 1764062859.125000123", "MILLISECONDS, 1764062859125.000001", "SECONDS, 1764062859.12500012"})
  void scansLongNumbers(TimeScale scale, String text) {
    TimeReader reader = new TimeReader(scale);
    assertThat(reader.scan(padded(text + ","), 32, (byte) ',')).isEqualTo(32 + text.length());
    assertThat(reader.time()).isEqualTo(new BigDecimal(text).multiply(BigDecimal.valueOf(scale.nanoseconds()))
        .longValueExact());
  }

  private static TimeForm form(String pattern, ZoneId zone, Repeated repeated) {
    return new TimeForm(Optional.empty(), false, WrittenTime.of(pattern).time(), Optional.of(zone), repeated);
  }

  private static long read(TimeScale scale, String text) {
    byte[] bytes = padded(text);
    return new TimeReader(scale).read(bytes, 32, 32 + text.length());
  }

  private static byte[] padded(String text) {
    return (" ".repeat(32) + text + " ".repeat(64)).getBytes(StandardCharsets.US_ASCII);
  }

  private static long nanoseconds(Instant instant) {
    return ChronoUnit.NANOS.between(Instant.EPOCH, instant);
  }
}
