package dev.pawl.report.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.PrettyPrinter;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import dev.pawl.grammar.rules.model.Rule;
import java.io.IOException;
import java.io.Writer;
import java.lang.reflect.Array;
import java.lang.reflect.RecordComponent;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * Writes records as JSON objects, component by component, so that none can be forgotten. What is empty is left out, a
 * rule is its id, and a member of an enumeration is its name in small letters.
 */
final class RecordWriter {

  private final JsonGenerator json;
  private final Map<Class<?>, RecordComponent[]> components = new HashMap<>();

  private RecordWriter(JsonGenerator json) {
    this.json = json;
  }

  /** Writes a record over several lines with a final line break; leaves {@code out} open and flushed. */
  static void writePage(Record value, Writer out) throws IOException {
    DefaultPrettyPrinter layout = new DefaultPrettyPrinter();
    layout.indentArraysWith(new Levels());
    layout.indentObjectsWith(new Levels());
    write(value, out, Optional.of(layout));
    out.write('\n');
    out.flush();
  }

  /**
   * Two blanks for each level down to that of a finding, which is on one line with all that is in it: blanks are half
   * of a long report otherwise. Line breaks are the same on every system.
   */
  private static final class Levels extends DefaultIndenter {

    private static final int LINES = 6;

    Levels() {
      super("  ", "\n");
    }

    @Override
    public void writeIndentation(JsonGenerator json, int level) throws IOException {
      if (level <= LINES) {
        super.writeIndentation(json, level);
      }
    }
  }

  /** Writes a record on one line, without a line break. */
  static void writeLine(Record value, Writer out) throws IOException {
    write(value, out, Optional.empty());
  }

  private static void write(Record value, Writer out, Optional<PrettyPrinter> layout) throws IOException {
    try (JsonGenerator json = new JsonFactory().disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET).createGenerator(out)) {
      layout.ifPresent(json::setPrettyPrinter);
      new RecordWriter(json).write(value);
    }
  }

  /** The name of a member of an enumeration, as it is written. */
  static String name(Enum<?> member) {
    return member.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private void write(Object value) throws IOException {
    if (value instanceof Record object && !(value instanceof Rule)) {
      object(object);
    } else if (value instanceof List<?> list) {
      array(list.iterator());
    } else if (value instanceof Stream<?> stream) {
      array(stream.iterator());
    } else if (value.getClass().isArray()) {
      array(IntStream.range(0, Array.getLength(value)).mapToObj(i -> Array.get(value, i)).iterator());
    } else if (value instanceof Map<?, ?> fields) {
      json.writeStartObject();
      for (Map.Entry<?, ?> field : fields.entrySet()) {
        json.writeFieldName((String) field.getKey());
        write(field.getValue());
      }
      json.writeEndObject();
    } else if (value instanceof Rule rule) {
      json.writeString(rule.id());
    } else if (value instanceof Enum<?> member) {
      json.writeString(name(member));
    } else {
      json.writeObject(value);
    }
  }

  private void array(Iterator<?> items) throws IOException {
    json.writeStartArray();
    while (items.hasNext()) {
      write(items.next());
    }
    json.writeEndArray();
  }

  private void object(Record value) throws IOException {
    json.writeStartObject();
    for (RecordComponent component : components.computeIfAbsent(value.getClass(), RecordWriter::components)) {
      Optional<?> field = field(component, value);
      if (field.isPresent()) {
        json.writeFieldName(component.getName());
        write(field.get());
      }
    }
    json.writeEndObject();
  }

  private static RecordComponent[] components(Class<?> type) {
    RecordComponent[] components = type.getRecordComponents();
    Stream.of(components).forEach(component -> component.getAccessor().setAccessible(true));
    return components;
  }

  private static Optional<?> field(RecordComponent component, Record of) {
    try {
      Object value = component.getAccessor().invoke(of);
      if (value instanceof OptionalLong number) {
        return number.isPresent() ? Optional.of(number.getAsLong()) : Optional.empty();
      }
      return value instanceof Optional<?> optional ? optional : Optional.of(value);
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException(component + " can be asked for", e);
    }
  }
}
