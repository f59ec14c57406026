package dev.pawl.trace.csv;

import dev.pawl.trace.bytes.Decimals;
import dev.pawl.trace.bytes.Feed;
import dev.pawl.trace.intake.Excerpt;
import dev.pawl.trace.intake.ProblemKind;
import dev.pawl.trace.intake.RowDecoder;
import dev.pawl.trace.intake.Settings;
import dev.pawl.trace.intake.UnreadableTrace;
import dev.pawl.trace.time.TimeReader;
import dev.pawl.trace.time.TimeScale;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The reader of comma-separated traces of both forms; its first row that is no remark is the header and decides which.
 */
public final class CsvDecoder extends RowDecoder {

  private final Settings settings;
  private final Fields fields;
  private final Remarks remarks = new Remarks();
  private Optional<Header> header = Optional.empty();
  private Optional<Form> form = Optional.empty();
  private TimeReader times = new TimeReader(TimeScale.NANOSECONDS);
  private boolean unitUnstated;

  public CsvDecoder(Settings settings) {
    this.settings = settings;
    this.fields = new Fields(settings.columns().separator());
  }

  /** How the rows after the header are taken. */
  interface Form {

    /** Takes a row in the ordinary spelling; returns the start of the next row, or -1 with nothing done. */
    int ordinary(byte[] bytes, int from, long line);

    /** Takes a row that has been taken apart, in a time that has been read. */
    void row(byte[] bytes, int start, Fields fields, long time, long line);
  }

  @Override
  protected int rows(byte[] bytes, int from, int end) throws UnreadableTrace {
    int at = from;
    while (at < end) {
      int next = form.isPresent() ? ordinaryRows(form.get(), bytes, at, end) : at;
      if (next < end) {
        at = next;
        next = unusual(bytes, at, end);
        if (next == Fields.UNFINISHED) {
          return at;
        }
      }
      at = next;
    }
    return at;
  }

  /** Takes rows as long as they are ordinary ones; returns the start of the first that is not, or the end. */
  private int ordinaryRows(Form rows, byte[] bytes, int from, int end) {
    int at = from;
    long number = line;
    while (at < end) {
      int next = rows.ordinary(bytes, at, number);
      if (next < 0) {
        break;
      }
      number++;
      at = next;
    }
    line = number;
    return at;
  }

  /** Takes the header, a remark, an empty line, or a row in any valid or invalid spelling. */
  private int unusual(byte[] bytes, int at, int end) throws UnreadableTrace {
    if (bytes[at] == '#') {
      return remark(bytes, at);
    }
    if (bytes[at] == '\n' || bytes[at] == '\r' && bytes[at + 1] == '\n') {
      line++;
      return at + (bytes[at] == '\n' ? 1 : 2);
    }
    int next = fields.split(bytes, at, end);
    if (next == Fields.UNFINISHED) {
      return next;
    }
    if (next - at > Feed.LONGEST) {
      tooLong(fields.lines() > 1);
      line++;
      return afterLine(bytes, at);
    }
    if (header.isEmpty()) {
      begin();
    } else {
      row(bytes, at);
    }
    line += fields.lines();
    return next;
  }

  private static int afterLine(byte[] bytes, int from) {
    int end = from;
    while (bytes[end] != '\n') {
      end++;
    }
    return end + 1;
  }

  private int remark(byte[] bytes, int from) {
    int next = afterLine(bytes, from);
    remarks.take(new String(bytes, from, next - from, StandardCharsets.UTF_8).strip(), line);
    line++;
    return next;
  }

  private void begin() throws UnreadableTrace {
    List<String> names = new ArrayList<>();
    for (int i = 0; i < fields.count(); i++) {
      names.add(fields.text(i));
    }
    Header found = Header.of(names, settings, intake.problems(), line);
    times = settings.reader(names.get(found.time()));
    unitUnstated = settings.scaleOf(names.get(found.time())).isEmpty();
    header = Optional.of(found);
    form = Optional.of(found.isLong()
        ? new LongForm(found, settings.columns().separator(), times, intake)
        : new WideForm(found, settings.columns().separator(), times, intake, line));
  }

  private void row(byte[] bytes, int start) throws UnreadableTrace {
    if (fields.fault() > 0) {
      malformed(Excerpt.column(bytes, start, fields.fault()), fields.complaint(),
          "quote the whole field, and double the quotes in it");
      return;
    }
    int wanted = header.orElseThrow().columns();
    if (fields.count() != wanted) {
      malformed(1, "this row has " + count(fields.count()) + ", the header has " + wanted,
          "give each row one field for each column; quote fields that hold a separator");
      return;
    }
    int column = header.orElseThrow().time();
    long time = times.read(fields.source(column), fields.from(column), fields.to(column));
    if (time == TimeReader.INVALID) {
      wrongTime(bytes, start, column);
      return;
    }
    unitUnstated = false;
    form.orElseThrow().row(bytes, start, fields, time, line);
  }

  private static String count(int fields) {
    return fields + (fields == 1 ? " field" : " fields");
  }

  private void wrongTime(byte[] bytes, int start, int column) throws UnreadableTrace {
    byte[] source = fields.source(column);
    int from = fields.from(column);
    int to = fields.to(column);
    int place = Excerpt.column(bytes, start, fields.rawFrom(column));
    if (unitUnstated && !Double.isNaN(Decimals.parse(source, from, to))) {
      throw intake.problems().fatal(ProblemKind.UNREADABLE, line, place,
          "times are plain numbers, and nothing says of which unit",
          Settings.STATE_UNIT);
    }
    intake.problems().add(ProblemKind.WRONG_TIME, line, place, to - from,
        () -> Excerpt.of(source, from, to) + " " + times.complaint(),
            () -> "write all times on the scale that the header states");
  }

  private void malformed(int column, String message, String hint) {
    intake.problems().add(ProblemKind.MALFORMED, line, column, message, hint);
  }

  @Override
  protected void ended() throws UnreadableTrace {
    if (header.isEmpty()) {
      throw intake.problems().fatal(ProblemKind.UNREADABLE, 1, 1, "the trace is empty",
          "a CSV trace starts with a header row such as time_ms,signal,value");
    }
    remarks.end(times, intake);
  }

  @Override
  public long finerTimes() {
    return times.finer();
  }

  @Override
  public boolean calendar() {
    return times.scale() == TimeScale.RFC_3339;
  }
}
