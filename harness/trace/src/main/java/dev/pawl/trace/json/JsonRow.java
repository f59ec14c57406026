package dev.pawl.trace.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.json.JsonReadFeature;
import dev.pawl.trace.intake.Channels;
import dev.pawl.trace.intake.Excerpt;
import dev.pawl.trace.intake.Settings;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** One object of a trace, or one list, taken apart. Used again for every line. */
final class JsonRow {

  private final JsonFactory factory = JsonFactory.builder().enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
      .enable(JsonReadFeature.ALLOW_NON_NUMERIC_NUMBERS).build();
  private final Settings settings;
  private final List<Cell> cells = new ArrayList<>();
  private final List<Cell> others = new ArrayList<>();
  private Channels channels;
  private String timeKey;
  private String timeOfDay;
  private boolean hasValues;
  private String time;
  private int timeColumn;
  private String signal;
  private String quality;
  private boolean hasValue;
  private String value;
  private int valueColumn;
  private boolean end;
  private String complaint;
  private String advice;
  private int column;

  /** A value of a signal; null for JSON's null. */
  record Cell(String tag, String value, int column) {}

  JsonRow(Settings settings) {
    this.settings = settings;
  }

  /** Says which tags are left out on purpose. */
  void use(Channels known) {
    channels = known;
  }

  /** Takes an object or a list apart; returns whether it has the shape of a row. */
  boolean parse(byte[] bytes, int from, int to) {
    cells.clear();
    others.clear();
    timeOfDay = null;
    hasValues = false;
    timeKey = null;
    time = null;
    signal = null;
    quality = "";
    hasValue = false;
    end = false;
    try (JsonParser parser = factory.createParser(bytes, from, to - from)) {
      return object(parser);
    } catch (JsonProcessingException e) {
      int place = e.getLocation() == null ? 1 : Math.max(1, e.getLocation().getColumnNr());
      return complain(Math.min(place, to - from + 1), "this line is no JSON object: "
          + firstLine(e.getOriginalMessage()),
          "write one whole object in each line");
    } catch (IOException e) {
      return complain(1, "this line is no JSON object: it starts like one in another encoding",
          "write the trace in UTF-8");
    }
  }

  private static String firstLine(String message) {
    String line = message.lines().findFirst().orElse("").replaceFirst(" \\(start marker.*", "");
    return line.length() > 100 ? line.substring(0, 100) + "..." : line;
  }

  private boolean object(JsonParser parser) throws IOException {
    JsonToken start = parser.nextToken();
    if (start != JsonToken.START_OBJECT && start != JsonToken.START_ARRAY) {
      return complain(1, "this line is no JSON object", "write one whole object in each line");
    }
    if (!(start == JsonToken.START_OBJECT ? fields(parser) : leaves(parser))) {
      return false;
    }
    if (parser.nextToken() != null) {
      return complain(parser.currentTokenLocation().getColumnNr(), "something follows the object",
          "write one whole object in each line");
    }
    return complete();
  }

  private boolean fields(JsonParser parser) throws IOException {
    while (parser.nextToken() == JsonToken.FIELD_NAME) {
      String key = parser.currentName();
      column = parser.currentTokenLocation().getColumnNr();
      parser.nextToken();
      if (!field(parser, key)) {
        return false;
      }
    }
    return true;
  }

  private boolean field(JsonParser parser, String key) throws IOException {
    if (key.equals("values") && parser.currentToken() == JsonToken.START_OBJECT) {
      return values(parser);
    }
    if (!parser.currentToken().isStructStart()) {
      return leaf(parser, settings.isNamed(key) || !settings.isNamed("/" + key) ? key : "/" + key, column);
    }
    if (settings.isNamed(key)) {
      return complain(column, "key " + Excerpt.of(key) + " holds an object or a list",
          "say under 'columns' in a bindings file where in it the plain value is, such as: "
              + (settings.isTime(key) ? "time" : "value") + " \"/" + key + "/...\"");
    }
    return leaves(parser);
  }

  /** Everything within an object or a list, each by its pointer (RFC 6901). */
  private boolean leaves(JsonParser parser) throws IOException {
    for (int depth = 1; depth > 0;) {
      JsonToken token = parser.nextToken();
      depth += token.isStructStart() ? 1 : token.isStructEnd() ? -1 : 0;
      if (token.isScalarValue() && !leaf(parser, parser.getParsingContext().pathAsPointer().toString(),
          parser.currentTokenLocation().getColumnNr())) {
        return false;
      }
    }
    return true;
  }

  private boolean leaf(JsonParser parser, String name, int place) throws IOException {
    String text = text(parser);
    if (settings.isTime(name)) {
      if (timeKey != null) {
        return complain(place, "the time is stated twice, as " + Excerpt.of(timeKey) + " and " + Excerpt.of(name),
            "keep one");
      }
      timeKey = name;
      time = text;
      timeColumn = place;
    } else if (settings.columns().timeOfDay().equals(Optional.of(name))) {
      timeOfDay = text;
    } else if (settings.isSignal(name)) {
      signal = text;
    } else if (settings.isValue(name)) {
      hasValue = true;
      value = text;
      valueColumn = place;
    } else if (settings.isQuality(name)) {
      quality = text == null ? "" : text;
    } else if (name.equals("end") && "true".equals(text)) {
      end = true;
    } else {
      others.add(new Cell(name, text, place));
    }
    return true;
  }

  private boolean values(JsonParser parser) throws IOException {
    hasValues = true;
    while (parser.nextToken() == JsonToken.FIELD_NAME) {
      String tag = parser.currentName();
      int place = parser.currentTokenLocation().getColumnNr();
      parser.nextToken();
      if (parser.currentToken().isStructStart()) {
        return complain(place, "key " + Excerpt.of(tag) + " holds an object or a list",
            "'values' holds one plain value for each signal");
      }
      cells.add(new Cell(tag, text(parser), place));
    }
    return true;
  }

  private static String text(JsonParser parser) throws IOException {
    return parser.currentToken() == JsonToken.VALUE_NULL ? null : parser.getText();
  }

  private boolean complete() {
    if (time == null || settings.columns().timeOfDay().isPresent() && timeOfDay == null) {
      return complain(1, "this row states no time",
          "give each row a key such as time_ms, or say under 'columns' in a bindings file"
          + " which key or pointer it has, such as: time ts");
    }
    time = timeOfDay == null ? time : time + " " + timeOfDay;
    boolean single = signal != null && hasValue;
    boolean columns = !hasValues && signal == null && !hasValue;
    for (Cell other : others) {
      if (columns) {
        cells.add(other);
      } else if (!channels.ignores(other.tag())) {
        return complain(other.column(), "key " + Excerpt.of(other.tag()) + " has no meaning here",
            "the keys of a row are time, signal, value, quality, or values, or end; list others under 'ignore' in a "
                + "bindings file");
      }
    }
    if (!single && cells.isEmpty() && !end) {
      return complain(1, "this row states no signal with a value",
          "give each row the keys signal and value, or values, or a key for each signal");
    }
    if (single) {
      cells.add(new Cell(signal, value, valueColumn));
    }
    return true;
  }

  private boolean complain(int place, String message, String hint) {
    column = place;
    complaint = message;
    advice = hint;
    return false;
  }

  String timeKey() {
    return timeKey;
  }

  String time() {
    return time;
  }

  int timeColumn() {
    return timeColumn;
  }

  List<Cell> cells() {
    return cells;
  }

  /** The row's quality, which holds for all its values; empty if there is none. */
  String quality() {
    return quality;
  }

  /** Whether the row has its signals for keys. */
  boolean isTable() {
    return signal == null && !cells.isEmpty();
  }

  /** Whether the row states the trace's end. */
  boolean isEnd() {
    return end;
  }

  String complaint() {
    return complaint;
  }

  String advice() {
    return advice;
  }

  int column() {
    return column;
  }
}
