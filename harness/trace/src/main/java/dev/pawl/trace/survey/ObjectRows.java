package dev.pawl.trace.survey;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import dev.pawl.trace.bindings.BindingsFile;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/** Rows that are JSON objects: each leaf has its pointer (RFC 6901) for a name, a key at the top its own. */
final class ObjectRows {

  private static final JsonFactory FACTORY = new JsonFactory();
  private static final List<String> TIME = List.of("time", "ts", "timestamp", "stamp", "date", "t");
  private static final List<String> SIGNAL = List.of("signal", "tag", "name", "point");
  private static final List<String> VALUE = List.of("value", "val", "v");

  private final Map<String, SeenTag> tags;
  private String time = "";
  private TimeGuess times = new TimeGuess("");
  private boolean begun;
  private long rows;
  private long strange;
  private Optional<String> signal = Optional.empty();
  private Optional<String> value = Optional.empty();

  ObjectRows(Map<String, SeenTag> tags) {
    this.tags = tags;
  }

  void take(String line) {
    rows++;
    Map<String, String> leaves = new LinkedHashMap<>();
    try (JsonParser parser = FACTORY.createParser(line)) {
      for (JsonToken token = parser.nextToken(); token != null; token = parser.nextToken()) {
        if (token.isScalarValue()) {
          String pointer = parser.getParsingContext().pathAsPointer().toString();
          leaves.put(pointer.lastIndexOf('/') == 0 ? pointer.substring(1) : pointer,
              token == JsonToken.VALUE_NULL ? "" : parser.getText());
        }
      }
    } catch (IOException e) {
      strange++;
      return;
    }
    if (!begun) {
      begun = true;
      roles(leaves);
    }
    double seconds = times.seconds(leaves.getOrDefault(time, ""));
    strange += Double.isNaN(seconds) ? 1 : 0;
    if (signal.isPresent() && value.isPresent()) {
      tags.computeIfAbsent(leaves.getOrDefault(signal.get(), ""), SeenTag::new)
          .take(leaves.getOrDefault(value.get(), ""), seconds);
    } else {
      leaves.forEach((name, text) -> {
        if (!name.equals(time)) {
          tags.computeIfAbsent(name, SeenTag::new).take(text, seconds);
        }
      });
    }
  }

  private void roles(Map<String, String> leaves) {
    time = leaf(leaves, TIME).orElse(leaves.keySet().stream().filter(name -> name.startsWith("time")).findFirst()
        .orElse(leaves.keySet().stream().findFirst().orElse("")));
    signal = leaf(leaves, SIGNAL);
    value = signal.flatMap(name -> leaf(leaves, VALUE));
    times = new TimeGuess(time);
  }

  private static Optional<String> leaf(Map<String, String> leaves, List<String> names) {
    return leaves.keySet().stream().filter(name -> names.contains(name.substring(name.lastIndexOf('/') + 1)
        .toLowerCase(Locale.ROOT))).findFirst();
  }

  LogSurvey survey() {
    List<String> columns = new ArrayList<>();
    if (!time.equals("time") && !time.matches("time_(s|ms|us|ns)")) {
      columns.add("time " + BindingsFile.word(time));
    }
    value.ifPresent(name -> {
      if (!signal.orElseThrow().equals("signal")) {
        columns.add("signal " + BindingsFile.word(signal.get()));
      }
      if (!name.equals("value")) {
        columns.add("value " + BindingsFile.word(name));
      }
    });
    return new LogSurvey("JSON Lines", columns, times.seen(), List.copyOf(tags.values()), rows, strange);
  }
}
