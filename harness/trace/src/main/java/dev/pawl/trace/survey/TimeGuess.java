package dev.pawl.trace.survey;

import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeFormatterBuilder;
import java.time.format.DateTimeParseException;
import java.time.temporal.ChronoField;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

/** How times seem to be written, by the first of them; and each as seconds, as far as it is understood. */
final class TimeGuess {

  private static final double[] SINCE_1970 = {1e8, 1e11, 1e14, 1e17, 1e20};
  private static final String[] UNITS = {"s", "ms", "us", "ns"};

  /** A way of writing: as a bindings file states it, and as it is read here. */
  private record Way(String stated, DateTimeFormatter reader) {}

  private static final List<Way> WAYS = List.of(
      new Way("", way("uuuu-MM-dd['T'][' ']HH:mm:ss")),
      new Way("day.month.year hour:minute:second", way("d.M.uuuu H:mm:ss")),
      new Way("day/month/year hour:minute:second", way("d/M/uuuu H:mm:ss")),
      new Way("month/day/year hour:minute:second", way("M/d/uuuu H:mm:ss")),
      new Way("month/day/year hour:minute:second ampm", way("M/d/uuuu h:mm:ss", " a")));

  private final String header;
  private final List<Way> left = new ArrayList<>(WAYS);
  private String first = "";
  private boolean numbers = true;
  private boolean offsets = true;
  private double most;

  TimeGuess(String header) {
    this.header = header.toLowerCase(Locale.ROOT);
  }

  private static DateTimeFormatter way(String pattern, String... behind) {
    DateTimeFormatterBuilder builder = new DateTimeFormatterBuilder().appendPattern(pattern)
        .optionalStart().appendLiteral('.').appendFraction(ChronoField.NANO_OF_SECOND, 1, 9, false).optionalEnd()
        .optionalStart().appendLiteral(',').appendFraction(ChronoField.NANO_OF_SECOND, 1, 9, false).optionalEnd();
    for (String part : behind) {
      builder.appendPattern(part);
    }
    return builder.toFormatter(Locale.ENGLISH);
  }

  /** Whether a text can be a time at all. */
  static boolean isTime(String text) {
    return !text.isEmpty() && !Double.isNaN(new TimeGuess("").seconds(text));
  }

  double seconds(String text) {
    first = first.isEmpty() ? text : first;
    OptionalDouble number = number(text);
    if (number.isPresent()) {
      left.clear();
      offsets = false;
      most = Math.max(most, Math.abs(number.getAsDouble()));
      return number.getAsDouble() * scale();
    }
    numbers = false;
    if (offsets) {
      try {
        OffsetDateTime time = OffsetDateTime.parse(text.replace(' ', 'T'));
        return time.toEpochSecond() + time.getNano() / 1e9;
      } catch (DateTimeParseException e) {
        offsets = false;
      }
    }
    double seconds = Double.NaN;
    for (int way = left.size() - 1; way >= 0; way--) {
      try {
        LocalDateTime time = LocalDateTime.parse(text, left.get(way).reader());
        seconds = time.toEpochSecond(ZoneOffset.UTC) + time.getNano() / 1e9;
      } catch (DateTimeParseException e) {
        left.remove(way);
      }
    }
    return seconds;
  }

  private static OptionalDouble number(String text) {
    try {
      return OptionalDouble.of(Double.parseDouble(text.replace(',', '.')));
    } catch (NumberFormatException e) {
      return OptionalDouble.empty();
    }
  }

  /** The unit that the column's name states, as the readers take it. */
  private Optional<String> named() {
    for (String unit : UNITS) {
      if (header.equals("time_" + unit)) {
        return Optional.of(unit);
      }
    }
    return Optional.empty();
  }

  /** The unit that the size of the numbers speaks for, where they count from 1970. */
  private Optional<String> sized() {
    for (int unit = 0; unit < UNITS.length; unit++) {
      if (most >= SINCE_1970[unit] && most < SINCE_1970[unit + 1]) {
        return Optional.of(UNITS[unit]);
      }
    }
    return Optional.empty();
  }

  private double scale() {
    return switch (named().or(this::sized).orElse("s")) {
      case "ms" -> 1e-3;
      case "us" -> 1e-6;
      case "ns" -> 1e-9;
      default -> 1;
    };
  }

  LogSurvey.TimeSeen seen() {
    if (numbers) {
      Optional<String> sized = sized();
      return named().isPresent() ? new LogSurvey.TimeSeen(List.of(), Optional.empty())
          : sized.map(unit -> new LogSurvey.TimeSeen(List.of("unit " + unit + " since 1970"), Optional.empty()))
              .orElse(new LogSurvey.TimeSeen(List.of(), Optional.of("in which unit is a time such as " + first
                  + "? write: unit ms")));
    }
    if (offsets) {
      return new LogSurvey.TimeSeen(List.of(), Optional.empty());
    }
    String zone = "whose clock shows a time such as " + first + "? write: zone Europe/Vienna, or another";
    if (left.isEmpty()) {
      return new LogSurvey.TimeSeen(List.of(), Optional.of("how is a time such as " + first
          + " written? write: written \"day.month.year hour:minute:second\", or as it is, and: zone Europe/Vienna"));
    }
    List<String> entries = left.stream().filter(way -> !way.stated().isEmpty())
        .map(way -> "written \"" + way.stated() + "\"").toList();
    return new LogSurvey.TimeSeen(entries, Optional.of(zone));
  }
}
