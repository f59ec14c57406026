package dev.pawl.report.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonStreamContext;
import com.fasterxml.jackson.core.JsonToken;
import dev.pawl.grammar.rules.model.Rule;
import java.io.ByteArrayInputStream;
import java.io.CharConversionException;
import java.io.IOException;
import java.lang.reflect.Array;
import java.lang.reflect.Constructor;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Reads records from JSON objects as {@link RecordWriter} writes them. Fields that a record does not have are passed
 * over; every complaint names the place, such as {@code traces[0].rules[3].verdict}.
 */
final class RecordReader {

  private final String name;
  private final JsonParser json;
  private final List<Rule> rules;

  private RecordReader(String name, JsonParser json, List<Rule> rules) {
    this.name = name;
    this.json = json;
    this.rules = rules;
  }

  /**
   * The record that a text holds; empty if the text is no JSON object.
   *
   * @param name what the text is called in messages
   * @param rules those that can be named in it
   */
  static <T extends Record> Optional<T> read(String name, byte[] text, Class<T> type, List<Rule> rules)
      throws ReportFormatException {
    try (JsonParser json = new JsonFactory().createParser(new ByteArrayInputStream(text))) {
      return json.nextToken() == JsonToken.START_OBJECT ? Optional.of(type.cast(new RecordReader(name, json, rules)
          .object(type)))
          : Optional.empty();
    } catch (JsonProcessingException e) {
      String where = e.getLocation() == null ? "" : ":" + e.getLocation().getLineNr() + ":"
          + e.getLocation().getColumnNr();
      throw new ReportFormatException(name + where + ": not JSON: " + e.getOriginalMessage());
    } catch (CharConversionException e) {
      throw new ReportFormatException(name + ": not JSON in UTF-8");
    } catch (IOException e) {
      throw new IllegalStateException("a text in memory can be read", e);
    }
  }

  private Object value(Type type) throws IOException, ReportFormatException {
    if (type instanceof ParameterizedType of) {
      Type inner = of.getActualTypeArguments()[0];
      return of.getRawType() == List.class ? list(inner) : Optional.of(value(inner));
    }
    Class<?> plain = (Class<?>) type;
    if (plain == OptionalLong.class) {
      return OptionalLong.of(integer());
    } else if (plain == Rule.class) {
      String id = text();
      return rules.stream().filter(rule -> rule.id().equals(id)).findFirst().orElseThrow(() -> wrong("a rule"));
    } else if (plain == String.class) {
      return text();
    } else if (plain == boolean.class) {
      return truth();
    } else if (plain == long.class) {
      return integer();
    } else if (plain == int.class) {
      return (int) integer();
    } else if (plain == double.class) {
      return number();
    } else if (plain.isEnum()) {
      return member(plain);
    }
    return plain.isArray() ? array(plain.getComponentType()) : object(plain);
  }

  private Object object(Class<?> type) throws IOException, ReportFormatException {
    if (json.currentToken() != JsonToken.START_OBJECT) {
      throw wrong("an object");
    }
    String place = place();
    RecordComponent[] components = type.getRecordComponents();
    Map<String, Object> fields = new HashMap<>();
    while (json.nextToken() == JsonToken.FIELD_NAME) {
      String field = json.currentName();
      json.nextToken();
      Optional<RecordComponent> component = Stream.of(components).filter(each -> each.getName().equals(field))
          .findFirst();
      if (component.isPresent()) {
        fields.put(field, value(component.get().getGenericType()));
      } else {
        json.skipChildren();
      }
    }
    Class<?>[] types = new Class<?>[components.length];
    Object[] values = new Object[components.length];
    for (int i = 0; i < components.length; i++) {
      RecordComponent component = components[i];
      types[i] = component.getType();
      values[i] = fields.containsKey(component.getName()) ? fields.get(component.getName()) : missing(component, place);
    }
    try {
      Constructor<?> constructor = type.getDeclaredConstructor(types);
      constructor.setAccessible(true);
      return constructor.newInstance(values);
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException(type + " can be made of its components", e);
    }
  }

  private Object missing(RecordComponent component, String place) throws ReportFormatException {
    if (component.getType() == Optional.class) {
      return Optional.empty();
    } else if (component.getType() == OptionalLong.class) {
      return OptionalLong.empty();
    }
    throw new ReportFormatException(name + ": " + place + (place.isEmpty() ? "" : ".") + component.getName()
        + " is missing");
  }

  private List<Object> list(Type inner) throws IOException, ReportFormatException {
    if (json.currentToken() != JsonToken.START_ARRAY) {
      throw wrong("a list");
    }
    List<Object> items = new ArrayList<>();
    while (json.nextToken() != JsonToken.END_ARRAY) {
      items.add(value(inner));
    }
    return items;
  }

  private Object array(Class<?> inner) throws IOException, ReportFormatException {
    List<Object> items = list(inner);
    Object array = Array.newInstance(inner, items.size());
    for (int i = 0; i < items.size(); i++) {
      Array.set(array, i, items.get(i));
    }
    return array;
  }

  private String text() throws IOException, ReportFormatException {
    if (json.currentToken() != JsonToken.VALUE_STRING) {
      throw wrong("a text");
    }
    return json.getText();
  }

  private boolean truth() throws IOException, ReportFormatException {
    if (!json.currentToken().isBoolean()) {
      throw wrong("true or false");
    }
    return json.getBooleanValue();
  }

  private long integer() throws IOException, ReportFormatException {
    if (json.currentToken() != JsonToken.VALUE_NUMBER_INT
        || json.getNumberType() == JsonParser.NumberType.BIG_INTEGER) {
      throw wrong("a whole number");
    }
    return json.getLongValue();
  }

  /** A number; JSON has none that are not finite, so that these are written as texts. */
  private double number() throws IOException, ReportFormatException {
    if (json.currentToken() == JsonToken.VALUE_STRING && List.of("NaN", "Infinity", "-Infinity")
        .contains(json.getText())) {
      return Double.parseDouble(json.getText());
    }
    if (!json.currentToken().isNumeric()) {
      throw wrong("a number");
    }
    return json.getDoubleValue();
  }

  private Object member(Class<?> type) throws IOException, ReportFormatException {
    String name = text();
    List<Enum<?>> members = Stream.of(type.getEnumConstants()).<Enum<?>>map(member -> (Enum<?>) member).toList();
    return members.stream().filter(member -> RecordWriter.name(member).equals(name)).findFirst().orElseThrow(() ->
        wrong("one of " + members.stream().map(RecordWriter::name).collect(Collectors.joining(", "))));
  }

  private ReportFormatException wrong(String expected) {
    String place = place();
    return new ReportFormatException(name + (place.isEmpty() ? "" : ": " + place) + " is not as expected; expected "
        + expected);
  }

  /** Where the present value stands; the empty string for the whole text. */
  private String place() {
    JsonToken token = json.currentToken();
    JsonStreamContext at = json.getParsingContext();
    StringBuilder place = new StringBuilder();
    for (at = token != null && token.isStructStart() ? at.getParent() : at; at != null
        && !at.inRoot(); at = at.getParent()) {
      place.insert(0, at.inArray() ? "[" + at.getCurrentIndex() + "]" : "." + at.getCurrentName());
    }
    return place.isEmpty() || place.charAt(0) != '.' ? place.toString() : place.substring(1);
  }
}
