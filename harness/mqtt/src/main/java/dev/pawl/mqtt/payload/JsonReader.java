package dev.pawl.mqtt.payload;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParseException;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonPointer;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import dev.pawl.engine.EventSink;
import dev.pawl.mqtt.binding.PayloadForm;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.trace.intake.ValueReader;
import dev.pawl.trace.time.TimeReader;
import java.io.IOException;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A reader of payloads that are JSON texts, with values at pointers. A signal whose pointer leads to nothing has no
 * reading in that message; one whose value is {@code null} is unknown. A text in which no pointer leads to anything is
 * malformed.
 */
final class JsonReader implements TopicReader {

  private static final int DEEPEST = 64;
  private static final JsonFactory FACTORY = JsonFactory.builder()
      .streamReadConstraints(StreamReadConstraints.builder().maxNestingDepth(DEEPEST).build())
      .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION).build();

  /** One signal in the text. */
  record Place(int signal, JsonPointer pointer, Optional<PayloadForm.StatedTime> time, ValueReader values) {}

  private final List<Place> places;
  private final Map<JsonPointer, String> found = new HashMap<>();
  private final Map<JsonPointer, Boolean> wanted = new HashMap<>();
  private final TimeReader[] times;

  JsonReader(List<Place> places) {
    this.places = List.copyOf(places);
    this.times = new TimeReader[places.size()];
    for (int i = 0; i < times.length; i++) {
      Place place = this.places.get(i);
      wanted.put(place.pointer(), true);
      place.time().ifPresent(t -> wanted.put(t.pointer(), true));
      times[i] = place.time().map(t -> new TimeReader(t.scale())).orElse(null);
    }
  }

  @Override
  public void read(byte[] payload, ReadingTaker taker) {
    found.clear();
    try (JsonParser parser = FACTORY.createParser(payload)) {
      collect(parser);
    } catch (JsonProcessingException e) {
      String where = e.getLocation() == null ? "" : " at byte " + e.getLocation().getByteOffset();
      taker.anomaly(Anomaly.MALFORMED, only(), "a payload is no JSON text: " + shortReason(e) + where);
      return;
    } catch (IOException e) {
      taker.anomaly(Anomaly.MALFORMED, only(), "a payload is no JSON text in UTF-8");
      return;
    }
    boolean any = false;
    for (int i = 0; i < times.length; i++) {
      any |= tell(places.get(i), times[i], taker);
    }
    if (!any) {
      taker.anomaly(Anomaly.MALFORMED, only(),
          "a JSON text has nothing at " + places.get(0).pointer() + (places.size() > 1 ? " and the other pointers"
              : ""));
    }
  }

  private int only() {
    return places.size() == 1 ? places.get(0).signal() : -1;
  }

  private static String shortReason(JsonProcessingException e) {
    String reason = e.getOriginalMessage();
    int end = reason.indexOf('\n');
    return Excerpts.of(end < 0 ? reason : reason.substring(0, end));
  }

  private void collect(JsonParser parser) throws IOException {
    boolean complete = false;
    for (JsonToken token = parser.nextToken(); token != null; token = parser.nextToken()) {
      boolean value = token.isScalarValue() || token.isStructStart();
      if (complete && value) {
        throw new JsonParseException(parser, "more than one JSON text");
      }
      if (value) {
        JsonPointer place = pointer(parser, token);
        if (wanted.containsKey(place)) {
          found.put(place, token.isStructStart() ? token.asString() : token == JsonToken.VALUE_NULL ? null
              : parser.getText());
        }
      }
      complete = parser.getParsingContext().inRoot() && !token.isStructStart();
    }
    if (!complete) {
      throw new JsonParseException(parser, "empty");
    }
  }

  /** The pointer to the value just read; a structure's own start already counts as inside it to the parser. */
  private static JsonPointer pointer(JsonParser parser, JsonToken token) {
    var context = token.isStructStart() ? parser.getParsingContext().getParent() : parser.getParsingContext();
    return context.pathAsPointer();
  }

  private boolean tell(Place place, TimeReader time, ReadingTaker taker) {
    if (!found.containsKey(place.pointer())) {
      return false;
    }
    long stated = ReadingTaker.NO_TIME;
    if (time != null && !leavesOutItsTime(place)) {
      stated = statedTime(place, time, taker);
      if (stated == TimeReader.INVALID) {
        return true;
      }
    }
    String text = found.get(place.pointer());
    long value = text == null ? EventSink.UNKNOWN : place.values().read(text);
    if (value == ValueReader.INVALID) {
      taker.anomaly(Anomaly.MALFORMED, place.signal(), Excerpts.of(text) + " at " + place.pointer() + " is not "
          + place.values().expectation());
    } else if (stated != ReadingTaker.NO_TIME && place.time().orElseThrow().clock() == PayloadForm.Clock.TRACE) {
      taker.traced(place.signal(), value, stated);
    } else {
      taker.reading(place.signal(), value, stated);
    }
    return true;
  }

  /** A bench side that runs at a pace knows no time of the trace. */
  private boolean leavesOutItsTime(Place place) {
    PayloadForm.StatedTime time = place.time().orElseThrow();
    return time.clock() == PayloadForm.Clock.TRACE && !found.containsKey(time.pointer());
  }

  private long statedTime(Place place, TimeReader time, ReadingTaker taker) {
    JsonPointer pointer = place.time().orElseThrow().pointer();
    String text = found.get(pointer);
    long stated = text == null ? TimeReader.INVALID : TimeTexts.read(time, text);
    if (stated == TimeReader.INVALID) {
      taker.anomaly(Anomaly.MALFORMED, place.signal(), text == null ? "a JSON text has no time at " + pointer
          : Excerpts.of(text) + " at " + pointer + " is no time");
    }
    return stated;
  }
}
