package dev.pawl.trace.csv;

import dev.pawl.trace.bindings.Columns;
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

  private static final String UNNAMED =
      "; where each row has a field that the header does not name, say so under 'columns' in a"
      + " bindings file: unnamed first, or unnamed last";

  private final Settings settings;
  private final Fields fields;
  private final Remarks remarks = new Remarks();
  private Optional<Header> header = Optional.empty();
  private Optional<Form> form = Optional.empty();
  private final Columns.Table table;
  private TimeReader times = new TimeReader(TimeScale.NANOSECONDS);
  private TimeFields timeFields;
  private boolean unitUnstated;
  private long headerAt;

  public CsvDecoder(Settings settings) {
    this.settings = settings;
    this.table = settings.columns().table();
    this.fields = new Fields(settings.columns().separator(), settings.columns().spaces());
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
      int next = form.isPresent() && line >= table.firstRow() ? ordinaryRows(form.get(), bytes, at, end) : at;
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

  /** Takes the header, a remark, an empty line, a line before the table, or a row in any valid or invalid spelling. */
  private int unusual(byte[] bytes, int at, int end) throws UnreadableTrace {
    boolean isHeader = header.isEmpty() && table.header() && line == table.headerLine();
    if (bytes[at] == '#' && !isHeader) {
      return remark(bytes, at);
    }
    if (bytes[at] == '\n' || bytes[at] == '\r' && bytes[at + 1] == '\n') {
      line++;
      return at + (bytes[at] == '\n' ? 1 : 2);
    }
    if (line < (header.isEmpty() && table.header() ? table.headerLine() : table.firstRow())) {
      line++;
      return afterLine(bytes, at);
    }
    int start = at;
    while (isHeader && (bytes[start] == '#' || bytes[start] == ' ')) {
      start++;
    }
    int next = fields.split(bytes, start, end);
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
    }
    if (!table.header() || line != headerAt) {
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
    Header found = Header.of(names(), settings, intake, line);
    headerAt = line;
    times = settings.reader(found.names().get(found.time()));
    unitUnstated = settings.scaleOf(found.names().get(found.time())).isEmpty();
    Columns layout = settings.columns();
    timeFields = new TimeFields(times, found, layout.separator());
    header = Optional.of(found);
    form = Optional.of(found.isLong() ? new LongForm(found, layout, timeFields, intake)
        : new WideForm(found, layout, timeFields, intake, line));
  }

  /** What the columns are called: by the header, or by their numbers. A last one without a name is none. */
  private List<String> names() throws UnreadableTrace {
    if (!table.names().isEmpty()) {
      int last = fields.count() - 1;
      int count = fields.from(last) == fields.to(last) && last == table.names().size() ? last : fields.count();
      if (count != table.names().size()) {
        throw intake.problems().fatal(ProblemKind.UNREADABLE, line, 1, "the first row has " + count(count) + ", but "
            + table.names().size() + " names are stated",
                "state under 'columns' in a bindings file a name for each field");
      }
      return table.names();
    }
    List<String> names = new ArrayList<>();
    for (int i = 0; i < fields.count(); i++) {
      names.add(table.header() ? fields.text(i) : Integer.toString(i + 1));
    }
    if (table.header() && names.size() > 1 && names.get(names.size() - 1).isEmpty()) {
      names.remove(names.size() - 1);
    }
    if (table.unnamed() == Columns.Unnamed.FIRST) {
      names.add(0, "");
    } else if (table.unnamed() == Columns.Unnamed.LAST) {
      names.add("");
    }
    return names;
  }

  private void row(byte[] bytes, int start) throws UnreadableTrace {
    if (fields.fault() > 0) {
      malformed(Excerpt.column(bytes, start, fields.fault()), fields.complaint(),
          "quote the whole field, and double the quotes in it");
      return;
    }
    int wanted = header.orElseThrow().columns();
    int last = fields.count() - 1;
    if (fields.isEmpty() && last > 0) {
      return;
    }
    boolean trailing = last == wanted && fields.from(last) == fields.to(last);
    if (fields.count() != wanted && !trailing) {
      malformed(1, "this row has " + count(fields.count()) + ", the header has " + wanted,
          "give each row one field for each column; quote fields that hold a separator"
              + (last == wanted ? UNNAMED : ""));
      return;
    }
    long time = timeFields.read(fields);
    if (time == TimeReader.INVALID) {
      wrongTime(bytes, start, header.orElseThrow().time());
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
    String text = timeFields.text(fields);
    String shown = text.isEmpty() ? "an empty text" : Excerpt.of(text);
    if (times.remedy().isPresent()) {
      throw intake.problems().fatal(ProblemKind.UNREADABLE, line, place, shown + " " + times.complaint(), times.remedy()
          .get());
    }
    intake.problems().add(ProblemKind.WRONG_TIME, line, place, to - from, () -> shown + " " + times.complaint(),
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
    return times.calendar();
  }
}
