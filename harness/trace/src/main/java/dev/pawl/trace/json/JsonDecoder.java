package dev.pawl.trace.json;

import dev.pawl.engine.EventSink;
import dev.pawl.trace.bytes.Decimals;
import dev.pawl.trace.bytes.Feed;
import dev.pawl.trace.bytes.NameTable;
import dev.pawl.trace.intake.Channels;
import dev.pawl.trace.intake.Excerpt;
import dev.pawl.trace.intake.ProblemKind;
import dev.pawl.trace.intake.Quality;
import dev.pawl.trace.intake.RowDecoder;
import dev.pawl.trace.intake.Settings;
import dev.pawl.trace.intake.TextRows;
import dev.pawl.trace.intake.UnreadableTrace;
import dev.pawl.trace.intake.ValueReader;
import dev.pawl.trace.time.TimeReader;
import dev.pawl.trace.time.TimeScale;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;

/** The reader of JSON Lines. The key of the first time decides the scale of all. */
public final class JsonDecoder extends RowDecoder {

  private final Settings settings;
  private final JsonRow row;
  private TimeReader times = new TimeReader(TimeScale.RFC_3339);
  private String timeKey = "";
  private OrdinaryRow ordinary;
  private LeafRow leaves;
  private byte[] text = new byte[64 + 2 * NameTable.SLACK];

  public JsonDecoder(Settings settings) {
    this.settings = settings;
    this.row = new JsonRow(settings);
  }

  @Override
  protected int rows(byte[] bytes, int from, int end) throws UnreadableTrace {
    TextRows texts = new TextRows(intake);
    row.use(intake.channels());
    int at = from;
    while (at < end) {
      int next = ordinary(bytes, at);
      if (next > 0) {
        line++;
        at = next;
        continue;
      }
      int stop = at;
      while (bytes[stop] != '\n') {
        stop++;
      }
      if (stop - at >= Feed.LONGEST) {
        tooLong(false);
      } else if (!isBlank(bytes, at, stop)) {
        take(bytes, at, stop, texts);
      }
      line++;
      at = stop + 1;
    }
    return at;
  }

  /**
   * Takes a row in the ordinary spelling, if all in it is right; returns the start of the next row, or -1 with nothing
   * done.
   */
  private int ordinary(byte[] bytes, int from) {
    return timeKey.isEmpty() ? -1 : leaves == null ? event(bytes, from) : leaves.take(bytes, from, intake, times, line);
  }

  private int event(byte[] bytes, int from) {
    int stop = ordinary == null ? -1 : ordinary.scan(bytes, from);
    if (stop < 0) {
      return -1;
    }
    Channels channels = intake.channels();
    int channel = channels.find(bytes, ordinary.signalFrom(), ordinary.signalTo() - ordinary.signalFrom());
    if (channel < 0 || !channels.carriesSignal(channel)) {
      return -1;
    }
    Quality quality = ordinary.qualityFrom() == 0 ? Quality.GOOD : Quality.of(bytes, ordinary.qualityFrom(),
        ordinary.qualityTo());
    if (quality == Quality.UNRECOGNISED) {
      return -1;
    }
    long value = quality == Quality.NOT_GOOD ? EventSink.UNKNOWN
        : channels.reader(channel).read(bytes, ordinary.valueFrom(), ordinary.valueTo());
    long time = value == ValueReader.INVALID ? TimeReader.INVALID
        : times.read(bytes, ordinary.timeFrom(), ordinary.timeTo());
    if (time == TimeReader.INVALID) {
      return -1;
    }
    intake.accept(time, channel, value, line);
    return stop + 1;
  }

  private static boolean isBlank(byte[] bytes, int from, int to) {
    for (int i = from; i < to; i++) {
      if (bytes[i] != ' ' && bytes[i] != '\t' && bytes[i] != '\r') {
        return false;
      }
    }
    return true;
  }

  private void take(byte[] bytes, int from, int to, TextRows texts) throws UnreadableTrace {
    if (!row.parse(bytes, from, to)) {
      intake.problems().add(ProblemKind.MALFORMED, line, row.column(), row.complaint(), row.advice());
      return;
    }
    if (!row.timeKey().equals(timeKey) && !begin()) {
      return;
    }
    long time = readTime(row.time());
    if (time == TimeReader.INVALID) {
      wrongTime(row.time());
      return;
    }
    for (JsonRow.Cell cell : row.cells()) {
      texts.take(time, intake.channels().signalOf(cell.tag(), "/" + cell.tag()), cell.value(), row.quality(), line,
          cell.column());
    }
    if (row.isEnd()) {
      intake.stateEnd(time, line);
    }
  }

  /** Takes the scale from the first row; later ones must name their times the same way. */
  private boolean begin() throws UnreadableTrace {
    String key = row.timeKey();
    if (!timeKey.isEmpty()) {
      intake.problems().add(ProblemKind.WRONG_TIME, line, row.timeColumn(),
          "the time is called " + Excerpt.of(key) + " here but "
          + Excerpt.of(timeKey) + " in the rows before", "state all times the same way");
      return false;
    }
    if (settings.contradicts(key)) {
      throw intake.problems().fatal(ProblemKind.UNREADABLE, line, row.timeColumn(), "the key says " + Excerpt.of(key)
          + ", but the unit of time is stated as " + settings.time().label(),
              "make them agree, or state it once");
    }
    byte[] utf8 = row.time().getBytes(StandardCharsets.UTF_8);
    if (settings.scaleOf(key).isEmpty() && !Double.isNaN(Decimals.parse(utf8, 0, utf8.length))) {
      throw intake.problems().fatal(ProblemKind.UNREADABLE, line, row.timeColumn(),
          "times are plain numbers, and nothing says of which unit", Settings.STATE_UNIT.replace("column", "key"));
    }
    timeKey = key;
    times = settings.reader(key);
    if (row.isTable() && settings.columns().timeOfDay().isEmpty()) {
      leaves = new LeafRow(key, settings.columns().quality().orElse("quality"), otherKeys(key));
    }
    ordinary = new OrdinaryRow(key, settings.columns().signal().orElse("signal"),
        settings.columns().value().orElse("value"),
        settings.columns().quality().orElse("quality"));
    return true;
  }

  /** Keys that say something else than a signal, a row's time or its quality; those of a second time too. */
  private List<String> otherKeys(String time) {
    Stream<String> times = Arrays.stream(TimeScale.values()).map(TimeScale::column)
        .filter(column -> settings.isTime(column) && !column.equals(time));
    return Stream.concat(times, Stream.of("end", settings.columns().signal().orElse("signal"),
        settings.columns().value().orElse("value"))).toList();
  }

  private long readTime(String written) {
    byte[] utf8 = written.getBytes(StandardCharsets.UTF_8);
    if (utf8.length + 2 * NameTable.SLACK > text.length) {
      text = new byte[utf8.length + 2 * NameTable.SLACK];
    }
    Arrays.fill(text, (byte) 0);
    System.arraycopy(utf8, 0, text, NameTable.SLACK, utf8.length);
    return times.read(text, NameTable.SLACK, NameTable.SLACK + utf8.length);
  }

  private void wrongTime(String written) throws UnreadableTrace {
    if (times.remedy().isPresent()) {
      throw intake.problems().fatal(ProblemKind.UNREADABLE, line, row.timeColumn(), Excerpt.of(written) + " "
          + times.complaint(), times.remedy().get());
    }
    intake.problems().add(ProblemKind.WRONG_TIME, line, row.timeColumn(), Excerpt.of(written) + " " + times.complaint(),
        "write all times on the scale that the first row states");
  }

  @Override
  protected void ended() throws UnreadableTrace {
    if (line == 1) {
      throw intake.problems().fatal(ProblemKind.UNREADABLE, 1, 1, "the trace is empty",
          "a JSON trace has one object in each line, such as {\"time_ms\": 0, \"signal\": \"lift_run\", \"value\": 0}");
    }
  }

  @Override
  public long finerTimes() {
    return times.finer();
  }

  @Override
  public boolean calendar() {
    return times.calendar();
  }
}
