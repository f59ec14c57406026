package dev.pawl.trace.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadFeature;
import dev.pawl.trace.intake.Excerpt;
import dev.pawl.trace.intake.Settings;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/** One object of a trace, taken apart. Used again for every line. */
final class JsonRow {

  private final JsonFactory factory = JsonFactory.builder().enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
      .build();
  private final Settings settings;
  private final List<Cell> cells = new ArrayList<>();
  private String timeKey;
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

  /** A value under {@code values}; null for JSON's null. */
  record Cell(String tag, String value, int column) {}

  JsonRow(Settings settings) {
    this.settings = settings;
  }

  /** Takes an object apart; returns whether it has the shape of a row. */
  boolean parse(byte[] bytes, int from, int to) {
    cells.clear();
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
    if (parser.nextToken() != JsonToken.START_OBJECT) {
      return complain(1, "this line is no JSON object", "write one whole object in each line");
    }
    while (parser.nextToken() == JsonToken.FIELD_NAME) {
      String key = parser.currentName();
      column = parser.currentTokenLocation().getColumnNr();
      parser.nextToken();
      if (!field(parser, key)) {
        return false;
      }
    }
    if (parser.nextToken() != null) {
      return complain(parser.currentTokenLocation().getColumnNr(), "something follows the object",
          "write one whole object in each line");
    }
    return complete();
  }

  private boolean field(JsonParser parser, String key) throws IOException {
    if (key.equals("values") && parser.currentToken() == JsonToken.START_OBJECT) {
      return values(parser);
    }
    if (parser.currentToken().isStructStart()) {
      return complain(column, "key " + Excerpt.of(key) + " holds an object or a list",
          "a row holds plain values, or objects under 'values'");
    }
    String text = text(parser);
    if (settings.isTime(key)) {
      if (timeKey != null) {
        return complain(column, "the time is stated twice, as " + Excerpt.of(timeKey) + " and " + Excerpt.of(key),
            "keep one");
      }
      timeKey = key;
      time = text;
      timeColumn = column;
    } else if (settings.isSignal(key)) {
      signal = text;
    } else if (settings.isValue(key)) {
      hasValue = true;
      value = text;
      valueColumn = column;
    } else if (settings.isQuality(key)) {
      quality = text == null ? "" : text;
    } else if (key.equals("end") && "true".equals(text)) {
      end = true;
    } else {
      return complain(column, "key " + Excerpt.of(key) + " has no meaning here",
          "the keys of a row are time, signal, value, quality, or values, or end");
    }
    return true;
  }

  private boolean values(JsonParser parser) throws IOException {
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
    if (time == null) {
      return complain(1, "this row states no time", "give each row a key such as time_ms");
    }
    boolean single = signal != null && hasValue;
    if (!single && cells.isEmpty() && !end) {
      return complain(1, "this row states no signal with a value",
          "give each row the keys signal and value, or values");
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
