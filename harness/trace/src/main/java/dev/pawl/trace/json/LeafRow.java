package dev.pawl.trace.json;

import dev.pawl.engine.EventSink;
import dev.pawl.trace.bytes.Decimals;
import dev.pawl.trace.bytes.NameTable;
import dev.pawl.trace.bytes.Words;
import dev.pawl.trace.intake.Channels;
import dev.pawl.trace.intake.Intake;
import dev.pawl.trace.intake.Quality;
import dev.pawl.trace.intake.ValueReader;
import dev.pawl.trace.time.TimeReader;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;

/**
 * A JSON object whose keys, or pointers within it, are the signals, in its ordinary spelling: ASCII, no escapes, known
 * keys, each once. It is taken without a parser and without an object for anything. Whatever is not surely so is left
 * to {@link JsonRow}, with nothing done.
 */
final class LeafRow {

  private static final byte[] VALUES = "/values".getBytes(StandardCharsets.US_ASCII);
  /** What a member was: a value, an object or a list that is not empty, or nothing that is known here. */
  private static final int TAKEN = 0;
  private static final int ENTERED = 1;
  private static final int UNUSUAL = -1;

  private static final int DEEPEST = 16;
  private static final int LONGEST_PATH = 400;
  private static final int MOST = 1024;

  private final byte[] timeName;
  private final byte[] qualityName;
  private final byte[][] otherNames;
  private final byte[] path = new byte[LONGEST_PATH + 2 * NameTable.SLACK];
  private final int[] pathEnds = new int[DEEPEST];
  private final int[] places = new int[DEEPEST];
  private final int[] channels = new int[MOST];
  private final long[] values = new long[MOST];
  private final long[] containers = new long[MOST];
  private long[] seen = new long[64];
  private long rows;
  private int count;
  /** Those of the leaves found that the row states: the first, and the one after the last. */
  private int first;
  private int last;
  private int containerCount;
  private int depth;
  private int at;
  private int timeFrom;
  private int timeTo;
  private int qualityFrom;
  private int qualityTo;
  private int from;
  private int to;
  private boolean isNull;
  private boolean inValues;
  private boolean hasValues;
  private boolean signalsBeside;

  /**
   * A reader of such rows.
   *
   * @param time the key of the time, or the pointer to it
   * @param quality that of the quality
   * @param others keys that say something else than a signal
   */
  LeafRow(String time, String quality, List<String> others) {
    timeName = name(time);
    qualityName = name(quality);
    otherNames = others.stream().map(LeafRow::name).toArray(byte[][]::new);
  }

  /** The bytes of a key, for which a pointer of one step stands too, or of a longer pointer. */
  private static byte[] name(String text) {
    return (text.lastIndexOf('/') == 0 ? text.substring(1) : text).getBytes(StandardCharsets.UTF_8);
  }

  /** Takes a row; returns the start of the next, or -1 with nothing done. */
  int take(byte[] bytes, int start, Intake intake, TimeReader times, long line) {
    if (bytes[start] != '{' || !scan(bytes, start, intake.channels()) || timeFrom == 0 || first == last) {
      return -1;
    }
    Quality quality = qualityFrom == 0 ? Quality.GOOD : Quality.of(bytes, qualityFrom, qualityTo);
    long time = quality == Quality.UNRECOGNISED ? TimeReader.INVALID : times.read(bytes, timeFrom, timeTo);
    if (time == TimeReader.INVALID) {
      return -1;
    }
    Channels all = intake.channels();
    for (int i = first; i < last; i++) {
      if (all.carriesSignal(channels[i])) {
        intake.accept(time, channels[i], quality == Quality.GOOD ? values[i] : EventSink.UNKNOWN, line);
      } else {
        intake.pass(time, line);
      }
    }
    return at;
  }

  /** Finds all leaves up to the line break. */
  private boolean scan(byte[] bytes, int start, Channels all) {
    rows++;
    count = 0;
    first = 0;
    containerCount = 0;
    inValues = false;
    hasValues = false;
    signalsBeside = false;
    timeFrom = 0;
    qualityFrom = 0;
    at = start + 1;
    depth = 0;
    pathEnds[0] = NameTable.SLACK;
    places[0] = -1;
    boolean open = true;
    while (true) {
      blanks(bytes);
      if (open || bytes[at] == ',') {
        at += open ? 0 : 1;
        int found = member(bytes, all);
        if (found == UNUSUAL) {
          return false;
        }
        open = found == ENTERED;
      } else if (bytes[at++] != (places[depth] < 0 ? '}' : ']')) {
        return false;
      } else if (depth-- == 0) {
        blanks(bytes);
        last = hasValues ? last : count;
        return bytes[at++] == '\n' && !(hasValues && signalsBeside);
      } else if (inValues) {
        leaveValues();
      }
    }
  }

  private void blanks(byte[] bytes) {
    while (bytes[at] == ' ' || bytes[at] == '\t' || bytes[at] == '\r') {
      at++;
    }
  }

  /** A member of the object, or an element of the list, that the scan is in. */
  private int member(byte[] bytes, Channels all) {
    int end = pathEnds[depth];
    int keyFrom = 0;
    int keyTo = 0;
    blanks(bytes);
    if (places[depth] < 0) {
      keyFrom = at + 1;
      if (bytes[at] != '"' || !string(bytes)) {
        return UNUSUAL;
      }
      keyTo = at - 1;
      blanks(bytes);
      if (bytes[at++] != ':') {
        return UNUSUAL;
      }
      blanks(bytes);
    }
    boolean struct = bytes[at] == '{' || bytes[at] == '[';
    if (struct || depth > 0 && !inValues) {
      end = extend(bytes, end, keyFrom, keyTo);
      if (end < 0) {
        return UNUSUAL;
      }
    }
    if (struct) {
      boolean named = spells(timeName, bytes, keyFrom, keyTo) || spells(qualityName, bytes, keyFrom, keyTo)
          || isOther(bytes, keyFrom, keyTo);
      return named && depth == 0 ? UNUSUAL : enter(bytes, end);
    }
    if (!value(bytes)) {
      return UNUSUAL;
    }
    boolean taken = inValues ? signal(bytes, all.find(bytes, keyFrom, keyTo - keyFrom), all)
        : depth == 0 ? leaf(bytes, bytes, keyFrom, keyTo, all) : leaf(bytes, path, NameTable.SLACK, end, all);
    return taken ? TAKEN : UNUSUAL;
  }

  /** Adds a key or a place in a list to the path; returns its end, or -1. */
  private int extend(byte[] bytes, int end, int keyFrom, int keyTo) {
    if (end - NameTable.SLACK + keyTo - keyFrom + 12 > LONGEST_PATH) {
      return -1;
    }
    int stop = end;
    path[stop++] = '/';
    if (places[depth] >= 0) {
      int place = places[depth]++;
      if (place >= 100) {
        return -1;
      }
      if (place >= 10) {
        path[stop++] = (byte) ('0' + place / 10);
      }
      path[stop++] = (byte) ('0' + place % 10);
      return stop;
    }
    for (int i = keyFrom; i < keyTo; i++) {
      if (bytes[i] == '~' || bytes[i] == '/') {
        return -1;
      }
      path[stop++] = bytes[i];
    }
    return stop;
  }

  private int enter(byte[] bytes, int end) {
    long mark = end;
    for (int i = NameTable.SLACK; i < end; i += 8) {
      mark = mark * 0x9E3779B97F4A7C15L + Words.head(Words.at(path, i), end - i);
    }
    for (int i = 0; i < containerCount; i++) {
      if (containers[i] == mark) {
        return UNUSUAL;
      }
    }
    boolean tags = depth == 0 && bytes[at] == '{' && spells(VALUES, path, NameTable.SLACK, end);
    if (inValues || containerCount == MOST || depth + 1 == DEEPEST) {
      return UNUSUAL;
    }
    containers[containerCount++] = mark;
    if (tags) {
      enterValues();
    }
    boolean list = bytes[at++] == '[';
    depth++;
    pathEnds[depth] = end;
    places[depth] = list ? 0 : -1;
    blanks(bytes);
    if (bytes[at] == (list ? ']' : '}')) {
      at++;
      depth--;
      if (tags) {
        leaveValues();
      }
      return TAKEN;
    }
    return ENTERED;
  }

  /** Where a row has values, it is they that are its leaves, and nothing beside them. */
  private void enterValues() {
    inValues = true;
    hasValues = true;
    first = count;
  }

  private void leaveValues() {
    inValues = false;
    last = count;
  }

  private boolean leaf(byte[] bytes, byte[] name, int nameFrom, int nameTo, Channels all) {
    if (spells(timeName, name, nameFrom, nameTo)) {
      boolean first = timeFrom == 0 && !isNull;
      timeFrom = from;
      timeTo = to;
      return first;
    }
    if (spells(qualityName, name, nameFrom, nameTo)) {
      boolean first = qualityFrom == 0 && !isNull;
      qualityFrom = from;
      qualityTo = to;
      return first;
    }
    if (isOther(name, nameFrom, nameTo)) {
      return false;
    }
    int channel = all.find(name, nameFrom, nameTo - nameFrom);
    if (depth == 0 && (channel < 0 || all.isLeftOut(channel))) {
      int end = extend(bytes, NameTable.SLACK, nameFrom, nameTo);
      int other = end < 0 ? -1 : all.find(path, NameTable.SLACK, end - NameTable.SLACK);
      channel = other >= 0 && all.carriesSignal(other) ? other : channel;
    }
    signalsBeside |= channel >= 0 && all.carriesSignal(channel);
    return signal(bytes, channel, all);
  }

  private boolean isOther(byte[] name, int nameFrom, int nameTo) {
    for (byte[] other : otherNames) {
      if (spells(other, name, nameFrom, nameTo)) {
        return true;
      }
    }
    return false;
  }

  private boolean signal(byte[] bytes, int channel, Channels all) {
    if (channel < 0 || all.isUnbound(channel) || count == MOST) {
      return false;
    }
    if (channel >= seen.length) {
      seen = Arrays.copyOf(seen, 2 * channel);
    }
    boolean twice = seen[channel] == rows;
    seen[channel] = rows;
    channels[count] = channel;
    values[count] = isNull || !all.carriesSignal(channel) ? EventSink.UNKNOWN
        : all.reader(channel).read(bytes, from, to);
    return !twice && values[count++] != ValueReader.INVALID;
  }

  private static boolean spells(byte[] word, byte[] bytes, int from, int to) {
    if (to - from != word.length) {
      return false;
    }
    for (int i = 0; i < word.length; i++) {
      if (bytes[from + i] != word[i]) {
        return false;
      }
    }
    return true;
  }

  private boolean value(byte[] bytes) {
    isNull = false;
    if (bytes[at] == '"') {
      from = at + 1;
      boolean ended = string(bytes);
      to = at - 1;
      return ended;
    }
    from = at;
    boolean sound = switch (bytes[at]) {
      case 't' -> word(bytes, "true");
      case 'f' -> word(bytes, "false");
      case 'n' -> word(bytes, "null");
      default -> number(bytes);
    };
    isNull = sound && bytes[from] == 'n';
    to = at;
    return sound;
  }

  /** Goes from an opening quote to just after the closing one. */
  private boolean string(byte[] bytes) {
    at++;
    while (bytes[at] >= ' ' && bytes[at] != '"' && bytes[at] != '\\') {
      at++;
    }
    return bytes[at++] == '"';
  }

  private boolean word(byte[] bytes, String word) {
    for (int i = 0; i < word.length(); i++) {
      if (bytes[at++] != word.charAt(i)) {
        return false;
      }
    }
    return true;
  }

  /** Goes over a number as RFC 8259, section 6, spells it. */
  private boolean number(byte[] bytes) {
    at += bytes[at] == '-' ? 1 : 0;
    int first = at;
    if (!digits(bytes) || bytes[first] == '0' && at > first + 1) {
      return false;
    }
    if (bytes[at] == '.') {
      at++;
      if (!digits(bytes)) {
        return false;
      }
    }
    if ((bytes[at] | 0x20) == 'e') {
      at++;
      at += bytes[at] == '-' || bytes[at] == '+' ? 1 : 0;
      return digits(bytes);
    }
    return true;
  }

  private boolean digits(byte[] bytes) {
    int start = at;
    while (Decimals.isDigit(bytes[at])) {
      at++;
    }
    return at > start;
  }
}
