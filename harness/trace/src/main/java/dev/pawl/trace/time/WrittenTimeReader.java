package dev.pawl.trace.time;

import dev.pawl.trace.bytes.Decimals;
import dev.pawl.trace.time.WrittenTime.Part;
import java.nio.charset.StandardCharsets;
import java.util.Optional;

/** A reader of dates and times in a stated pattern. Used again for every time. */
final class WrittenTimeReader extends DateReader {

  private static final int NONE = -1;
  private static final String MONTHS = "janfebmaraprmayjunjulaugsepoctnovdec";

  private final WrittenTime form;
  private final Part[] parts;
  private final byte[][] literals;
  private final boolean[] fixed;
  private final boolean dated;
  private final boolean hours;
  private final boolean fractions;
  private final char mark;
  private int at;
  private int year;
  private int month;
  private int day;
  private long hour;
  private int minute;
  private int half;
  private int offset;

  WrittenTimeReader(WrittenTime form) {
    this.form = form;
    this.dated = form.dated();
    this.hours = form.has(Part.HOUR);
    this.fractions = form.has(Part.FRACTION);
    this.mark = fractions ? markOf(form) : '.';
    int count = form.steps().size();
    this.parts = new Part[count];
    this.literals = new byte[count][];
    this.fixed = new boolean[count];
    for (int i = 0; i < count; i++) {
      WrittenTime.Step step = form.steps().get(i);
      parts[i] = step.part().orElse(null);
      literals[i] = step.literal().getBytes(StandardCharsets.UTF_8);
      fixed[i] = step.fixed();
    }
  }

  private static char markOf(WrittenTime form) {
    int place = form.steps().indexOf(new WrittenTime.Step(Optional.of(Part.FRACTION), "", false));
    String literal = place > 0 ? form.steps().get(place - 1).literal() : "";
    return literal.length() == 1 ? literal.charAt(0) : 0;
  }

  @Override
  long minutes(byte[] bytes, int from, int to) {
    if (!take(bytes, from, to)) {
      return fail("is not written as " + form.pattern());
    }
    if (!dated) {
      if (minute > 59 || second > 59 || hour > TimeReader.LIMIT / (3600 * SECOND) - 1) {
        return fail("names a time that does not exist");
      }
      return hour * 60 + minute;
    }
    if (!CivilDate.exists(year, month, day)) {
      return fail("names a day that does not exist");
    }
    boolean halved = half != NONE;
    if (hour > 23 || minute > 59 || second > 59 || halved && (hour < 1 || hour > 12)) {
      return fail("names a time of day that does not exist");
    }
    long days = CivilDate.toDays(year, month, day);
    if (Math.abs(days) > GREATEST_DAY) {
      return fail("is more than 73 years away from 1970");
    }
    return days * 1440 + (halved ? hour % 12 + half * 12L : hour) * 60 + minute - offset;
  }

  @Override
  boolean local() {
    return dated && !form.offset();
  }

  @Override
  char fractionMark() {
    return mark;
  }

  private boolean take(byte[] bytes, int from, int to) {
    at = from;
    year = 0;
    hour = 0;
    minute = 0;
    second = 0;
    half = NONE;
    offset = 0;
    nanoseconds = 0;
    finer = false;
    secondsAt = to;
    restAt = to;
    for (int i = 0; i < parts.length; i++) {
      if (parts[i] == null ? !literal(bytes, to, literals[i]) : !part(bytes, to, i)) {
        return false;
      }
    }
    return at == to;
  }

  private boolean literal(byte[] bytes, int to, byte[] wanted) {
    if (to - at < wanted.length) {
      return false;
    }
    for (byte each : wanted) {
      if (bytes[at++] != each) {
        return false;
      }
    }
    return true;
  }

  private boolean part(byte[] bytes, int to, int step) {
    Part part = parts[step];
    switch (part) {
      case FRACTION:
        decimals(bytes, to);
        restAt = at;
        return true;
      case HALF:
        return half(bytes, to);
      case OFFSET:
        return offset(bytes, to);
      case WEEKDAY:
        return name(bytes, to) > 0;
      default:
        return number(bytes, to, step);
    }
  }

  private boolean number(byte[] bytes, int to, int step) {
    Part part = parts[step];
    int start = at;
    if (part == Part.MONTH && at < to && !Decimals.isDigit(bytes[at])) {
      return monthName(bytes, to);
    }
    boolean open = part == Part.HOUR && !dated && !fixed[step] || part == Part.MINUTE && !hours;
    int most = open ? 9 : part.digits();
    long value = 0;
    while (at < to && at - start < most && Decimals.isDigit(bytes[at])) {
      value = value * 10 + bytes[at++] - '0';
    }
    int least = fixed[step] || part == Part.YEAR || part == Part.YEAR2 ? part.digits() : 1;
    if (at - start < least) {
      return false;
    }
    set(part, value);
    if (part == Part.SECOND) {
      secondsAt = start;
      if (at < to && (bytes[at] == '.' || bytes[at] == ',') && !fractions) {
        at++;
        if (!decimals(bytes, to)) {
          return false;
        }
      }
      restAt = at;
    }
    return true;
  }

  private void set(Part part, long value) {
    switch (part) {
      case YEAR -> year = (int) value;
      case YEAR2 -> year = 2000 + (int) value;
      case MONTH -> month = (int) value;
      case DAY -> day = (int) value;
      case HOUR -> hour = value;
      case MINUTE -> {
        hour += hours ? 0 : value / 60;
        minute = (int) (hours ? value : value % 60);
      }
      default -> second = (int) value;
    }
  }

  private boolean decimals(byte[] bytes, int to) {
    int start = at;
    at = decimals(bytes, at, to);
    return at > start;
  }

  private boolean monthName(byte[] bytes, int to) {
    int start = at;
    if (name(bytes, to) < 3) {
      return false;
    }
    for (month = 1; month <= 12; month++) {
      int name = 3 * month - 3;
      if ((bytes[start] | 0x20) == MONTHS.charAt(name) && (bytes[start + 1] | 0x20) == MONTHS.charAt(name + 1)
          && (bytes[start + 2] | 0x20) == MONTHS.charAt(name + 2)) {
        return true;
      }
    }
    return false;
  }

  /** Goes over letters; returns how many. */
  private int name(byte[] bytes, int to) {
    int start = at;
    while (at < to && (bytes[at] | 0x20) >= 'a' && (bytes[at] | 0x20) <= 'z') {
      at++;
    }
    if (at < to && bytes[at] == '.' && at > start) {
      at++;
    }
    return at - start;
  }

  private boolean half(byte[] bytes, int to) {
    if (to - at < 2) {
      return false;
    }
    int letter = bytes[at] | 0x20;
    half = letter == 'p' ? 1 : 0;
    int second = bytes[at + 1] | 0x20;
    at += 2;
    return (letter == 'a' || letter == 'p') && second == 'm';
  }

  private boolean offset(byte[] bytes, int to) {
    if (at < to && (bytes[at] | 0x20) == 'z') {
      at++;
      return true;
    }
    if (to - at < 3 || bytes[at] != '+' && bytes[at] != '-') {
      return false;
    }
    int sign = bytes[at++] == '-' ? -1 : 1;
    int hours = pair(bytes, to);
    if (at < to && bytes[at] == ':') {
      at++;
    }
    int minutes = at < to && Decimals.isDigit(bytes[at]) ? pair(bytes, to) : 0;
    offset = sign * (hours * 60 + minutes);
    return hours >= 0 && hours < 24 && minutes >= 0 && minutes < 60;
  }

  private int pair(byte[] bytes, int to) {
    if (to - at < 2 || !Decimals.isDigit(bytes[at]) || !Decimals.isDigit(bytes[at + 1])) {
      return NONE;
    }
    at += 2;
    return (bytes[at - 2] - '0') * 10 + bytes[at - 1] - '0';
  }
}
