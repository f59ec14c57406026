package dev.pawl.report.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.report.model.TraceResult;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.StringWriter;
import java.lang.reflect.Array;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;

/**
 * One trace's result as one line of JSON, pictures included, and back again. The line follows the result's records, component by component, so that
 * none can be forgotten; a rule is written as its id. It is for a pawl of the same build, and no format for others.
 */
public final class JsonResult {

  /** JSON has no such numbers; they are written as texts. */
  private static final Set<Object> NOT_FINITE = Set.of("NaN", "Infinity", "-Infinity");

  private final RuleBook book;

  private JsonResult(RuleBook book) {
    this.book = book;
  }

  /** The result on one line, without a line break. */
  public static String write(TraceResult result) {
    StringWriter line = new StringWriter();
    try (JsonGenerator json = new JsonFactory().createGenerator(line)) {
      write(json, result);
    } catch (IOException e) {
      throw new IllegalStateException("a text in memory can be written", e);
    }
    return line.toString();
  }

  private static void write(JsonGenerator json, Object value) throws IOException {
    if (value instanceof Optional<?> optional) {
      write(json, optional.orElse(null));
    } else if (value instanceof OptionalLong optional) {
      write(json, optional.isPresent() ? optional.getAsLong() : null);
    } else if (value instanceof Rule rule) {
      json.writeString(rule.id());
    } else if (value instanceof Enum<?> member) {
      json.writeString(member.name());
    } else if (value instanceof List<?> || value != null && value.getClass().isArray()) {
      json.writeStartArray();
      for (Object item : value instanceof List<?> list ? list : items(value)) {
        write(json, item);
      }
      json.writeEndArray();
    } else if (value instanceof Record) {
      json.writeStartObject();
      for (RecordComponent component : value.getClass().getRecordComponents()) {
        json.writeFieldName(component.getName());
        write(json, component(component, value));
      }
      json.writeEndObject();
    } else {
      json.writeObject(value);
    }
  }

  private static List<Object> items(Object array) {
    List<Object> items = new ArrayList<>();
    for (int i = 0; i < Array.getLength(array); i++) {
      items.add(Array.get(array, i));
    }
    return items;
  }

  private static Object component(RecordComponent component, Object of) {
    try {
      return component.getAccessor().invoke(of);
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException(component + " can be asked for", e);
    }
  }

  /**
   * The result that a line holds.
   *
   * @param name what the line is called in messages
   * @param book the rules that it was judged by
   * @throws ReportFormatException if it is no result, or one by other rules
   */
  public static TraceResult read(String name, String line, RuleBook book) throws ReportFormatException {
    try {
      JsonNode node = JsonNode.read(name, new ByteArrayInputStream(line.getBytes(StandardCharsets.UTF_8)));
      return (TraceResult) new JsonResult(book).value(node, TraceResult.class);
    } catch (IOException e) {
      throw new IllegalStateException("a text in memory can be read", e);
    }
  }

  private Object value(JsonNode node, Type type) throws ReportFormatException {
    if (type instanceof ParameterizedType of) {
      Type inner = of.getActualTypeArguments()[0];
      return of.getRawType() == List.class ? values(node, inner) : Optional.ofNullable(node.value() == null ? null : value(node, inner));
    }
    Class<?> plain = (Class<?>) type;
    if (plain == OptionalLong.class) {
      return node.value() == null ? OptionalLong.empty() : OptionalLong.of(node.integer());
    } else if (plain == Rule.class) {
      String id = node.text();
      return book.rules().stream().filter(rule -> rule.id().equals(id)).findFirst().orElseThrow(() -> node.wrong("a rule"));
    } else if (plain == String.class) {
      return node.text();
    } else if (plain == boolean.class) {
      return node.truth();
    } else if (plain == long.class) {
      return node.integer();
    } else if (plain == int.class) {
      return (int) node.integer();
    } else if (plain == double.class) {
      return NOT_FINITE.contains(node.value()) ? Double.valueOf(node.text()) : node.number();
    } else if (plain.isEnum()) {
      return member(node, plain);
    }
    return plain.isArray() ? array(node, plain.getComponentType()) : made(node, plain);
  }

  private List<Object> values(JsonNode node, Type inner) throws ReportFormatException {
    List<Object> values = new ArrayList<>();
    for (JsonNode item : node.items()) {
      values.add(value(item, inner));
    }
    return values;
  }

  private static Object member(JsonNode node, Class<?> type) throws ReportFormatException {
    for (Object member : type.getEnumConstants()) {
      if (((Enum<?>) member).name().equals(node.text())) {
        return member;
      }
    }
    throw node.wrong("a " + type.getSimpleName());
  }

  private Object array(JsonNode node, Class<?> inner) throws ReportFormatException {
    List<Object> values = values(node, inner);
    Object array = Array.newInstance(inner, values.size());
    for (int i = 0; i < values.size(); i++) {
      Array.set(array, i, values.get(i));
    }
    return array;
  }

  private Object made(JsonNode node, Class<?> type) throws ReportFormatException {
    RecordComponent[] components = type.getRecordComponents();
    Class<?>[] types = new Class<?>[components.length];
    Object[] values = new Object[components.length];
    for (int i = 0; i < components.length; i++) {
      types[i] = components[i].getType();
      values[i] = value(node.at(components[i].getName()), components[i].getGenericType());
    }
    try {
      return type.getConstructor(types).newInstance(values);
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException(type + " can be made of its components", e);
    }
  }
}
