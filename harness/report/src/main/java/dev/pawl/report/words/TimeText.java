package dev.pawl.report.words;

import dev.pawl.report.model.TimeBase;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;

/** Times and durations as people write them. All inputs are nanoseconds. */
public final class TimeText {

  private static final long MICROSECOND = 1_000L;
  private static final long MILLISECOND = 1_000_000L;
  private static final long SECOND = 1_000_000_000L;
  private static final long MINUTE = 60 * SECOND;
  private static final long HOUR = 60 * MINUTE;

  private TimeText() {}

  /**
   * A time of a trace: {@code 723.450 s} from its start, or RFC 3339 such as {@code 2026-05-01T09:12:03.450Z}, where a
   * zone is known by its clock and with its offset.
   */
  public static String at(TimeBase base, long time) {
    if (base.kind() == TimeBase.Kind.START) {
      return seconds(time) + " s";
    }
    Instant second = Instant.ofEpochSecond(Math.floorDiv(time, SECOND));
    ZoneOffset offset = base.zone().isEmpty() ? ZoneOffset.UTC : ZoneId.of(base.zone()).getRules().getOffset(second);
    String whole = second.plusSeconds(offset.getTotalSeconds()).toString();
    return whole.substring(0, whole.length() - 1) + fraction(Math.floorMod(time, SECOND), 3) + offset;
  }

  /** Decimal seconds with at least three digits after the point and no more than needed, such as {@code 723.450}. */
  public static String seconds(long time) {
    String sign = time < 0 ? "-" : "";
    long size = Math.abs(time);
    return sign + size / SECOND + fraction(size % SECOND, 3);
  }

  /**
   * A duration in the unit that suits its size: {@code 430 ms}, {@code 12.5 s}, {@code 12 min 3 s}, {@code 2 h 5 min}.
   */
  public static String duration(long time) {
    long size = Math.abs(time);
    String sign = time < 0 ? "-" : "";
    if (size == 0) {
      return "0 s";
    } else if (size < MICROSECOND) {
      return sign + size + " ns";
    } else if (size < MILLISECOND) {
      return sign + scaled(size, MICROSECOND) + " us";
    } else if (size < SECOND) {
      return sign + scaled(size, MILLISECOND) + " ms";
    } else if (size < 2 * MINUTE) {
      return sign + scaled(size, SECOND) + " s";
    } else if (size < 2 * HOUR) {
      return sign + pair(size / MINUTE, " min", scaled(size % MINUTE, SECOND), " s");
    }
    return sign + pair(size / HOUR, " h", Long.toString(size % HOUR / MINUTE), " min");
  }

  private static String pair(long large, String largeUnit, String small, String smallUnit) {
    return small.equals("0") ? large + largeUnit : large + largeUnit + " " + small + smallUnit;
  }

  private static String scaled(long size, long unit) {
    long thousandths = size % unit / Math.max(1, unit / 1000);
    String digits = fraction(thousandths * MILLISECOND, 0);
    return size / unit + digits;
  }

  private static String fraction(long nanoseconds, int least) {
    String digits = Long.toString(SECOND + nanoseconds).substring(1);
    int length = digits.length();
    while (length > least && digits.charAt(length - 1) == '0') {
      length--;
    }
    return length == 0 ? "" : "." + digits.substring(0, length);
  }
}
