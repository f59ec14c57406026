package dev.pawl.grammar.logic.parse;

import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The reader of durations, dates, times of day, and dates and times: the standard's tables 8 and 9. */
final class TimeLiterals {

  private static final Pattern DURATION_PART =
      Pattern.compile("([0-9]+(?:_[0-9]+)*)(\\.[0-9]+(?:_[0-9]+)*)?(D|H|MS|M|S|US|NS)_?");
  private static final Pattern DATE = Pattern.compile("([0-9]{1,6})-([0-9]{1,2})-([0-9]{1,2})");
  private static final Pattern CLOCK = Pattern.compile("([0-9]{1,2}):([0-9]{1,2}):([0-9]{1,2})(\\.[0-9]{1,9})?");
  private static final List<String> UNITS = List.of("D", "H", "M", "S", "MS", "US", "NS");
  private static final long[] NANOSECONDS =
      {86_400_000_000_000L, 3_600_000_000_000L, 60_000_000_000L, 1_000_000_000L, 1_000_000L, 1_000L, 1L};
  private static final long[] LARGEST_BELOW_TOP = {Long.MAX_VALUE, 23, 59, 59, 999, 999, 999};
  private static final String DURATION_HINT = "durations are written like T#1h30m, T#2.5s or T#-250ms";

  private final Consumer<Diagnostic> diagnostics;

  TimeLiterals(Consumer<Diagnostic> diagnostics) {
    this.diagnostics = diagnostics;
  }

  /**
   * {@code T#5d14h12m18s3.5ms}: units in descending order, a fraction only in the last, the first may exceed its usual
   * range.
   */
  Expression duration(String text, Position position) {
    String type = typeWord(text).startsWith("L") ? "LTIME" : "TIME";
    String body = text.substring(text.indexOf('#') + 1).toUpperCase(Locale.ROOT);
    boolean negative = body.startsWith("-");
    body = negative || body.startsWith("+") ? body.substring(1) : body;
    BigDecimal total = BigDecimal.ZERO;
    Matcher part = DURATION_PART.matcher(body);
    int at = 0;
    int unit = -1;
    boolean fraction = false;
    while (at < body.length()) {
      boolean fits = part.region(at, body.length()).lookingAt();
      int next = fits ? UNITS.indexOf(part.group(3)) : -1;
      if (next <= unit || fraction) {
        String hint = fraction ? "only the last unit may have a fraction" : fits
            ? "units come in the order d h m s ms us ns"
            : DURATION_HINT;
        return wrong(type, "'" + text + "' is not a duration", hint, position);
      }
      BigDecimal count = new BigDecimal((part.group(1) + (part.group(2) == null ? "" : part.group(2)))
          .replace("_", ""));
      if (unit >= 0 && count.compareTo(BigDecimal.valueOf(LARGEST_BELOW_TOP[next]).add(BigDecimal.ONE)) >= 0) {
        return wrong(type, "'" + text + "' has " + part.group(1) + part.group(3).toLowerCase(Locale.ROOT)
            + " below its first unit", "only the first unit may exceed its usual range", position);
      }
      fraction = part.group(2) != null;
      unit = next;
      total = total.add(count.multiply(BigDecimal.valueOf(NANOSECONDS[next])));
      at = part.end();
    }
    if (body.endsWith("_")) {
      return wrong(type, "'" + text + "' is not a duration", DURATION_HINT, position);
    }
    BigDecimal nanoseconds = (negative ? total.negate() : total).setScale(0, RoundingMode.HALF_EVEN);
    if (nanoseconds.abs().compareTo(BigDecimal.valueOf(Long.MAX_VALUE)) > 0) {
      return wrong(type, "'" + text + "' is longer than 292 years", "durations are counted in nanoseconds of 64 bits",
          position);
    }
    return new Expression.TimeLiteral(type, nanoseconds.longValue(), position);
  }

  Expression date(String text, Position position) {
    String type = longType(text, "DATE");
    return new Expression.TimeLiteral(type, days(text, body(text), position), position);
  }

  Expression timeOfDay(String text, Position position) {
    String type = longType(text, "TIME_OF_DAY");
    return new Expression.TimeLiteral(type, clock(text, body(text), position), position);
  }

  /** {@code DT#1984-06-25-15:36:55.360}. */
  Expression dateAndTime(String text, Position position) {
    String type = longType(text, "DATE_AND_TIME");
    String body = body(text);
    int split = body.lastIndexOf('-');
    if (split < 0) {
      return wrong(type, "'" + text + "' is not a date and time", "it is written like DT#2026-05-01-09:30:00",
          position);
    }
    long date = days(text, body.substring(0, split), position);
    long time = clock(text, body.substring(split + 1), position);
    return new Expression.TimeLiteral(type, date + time, position);
  }

  private long days(String text, String body, Position position) {
    Matcher parts = DATE.matcher(body);
    if (!parts.matches()) {
      report(position, "'" + text + "' is not a date", "it is written like D#2026-05-01");
      return 0;
    }
    try {
      LocalDate date = LocalDate.of(Integer.parseInt(parts.group(1)), Integer.parseInt(parts.group(2)),
          Integer.parseInt(parts.group(3)));
      return Math.multiplyExact(date.toEpochDay(), NANOSECONDS[0]);
    } catch (DateTimeException | ArithmeticException noSuchDay) {
      report(position, "'" + text + "' names no day between the years 1678 and 2261", "");
      return 0;
    }
  }

  private long clock(String text, String body, Position position) {
    Matcher parts = CLOCK.matcher(body);
    if (!parts.matches()) {
      report(position, "'" + text + "' is not a time of day", "it is written like TOD#09:30:00 or TOD#09:30:00.5");
      return 0;
    }
    int hour = Integer.parseInt(parts.group(1));
    int minute = Integer.parseInt(parts.group(2));
    BigDecimal second = new BigDecimal(parts.group(3) + (parts.group(4) == null ? "" : parts.group(4)));
    if (hour > 23 || minute > 59 || second.compareTo(BigDecimal.valueOf(60)) >= 0) {
      report(position, "'" + text + "' is not a time of day", "hours go to 23, minutes and seconds to 59");
      return 0;
    }
    return hour * NANOSECONDS[1] + minute * NANOSECONDS[2] + second.multiply(BigDecimal.valueOf(NANOSECONDS[3]))
        .longValue();
  }

  private static String body(String text) {
    return text.substring(text.indexOf('#') + 1).replace("_", "");
  }

  private static String typeWord(String text) {
    return text.substring(0, text.indexOf('#')).toUpperCase(Locale.ROOT);
  }

  private static String longType(String text, String type) {
    return typeWord(text).startsWith("L") ? "L" + type : type;
  }

  private Expression wrong(String type, String message, String hint, Position position) {
    report(position, message, hint);
    return new Expression.TimeLiteral(type, 0, position);
  }

  private void report(Position position, String message, String hint) {
    diagnostics.accept(Diagnostic.error(position, message, hint));
  }
}
