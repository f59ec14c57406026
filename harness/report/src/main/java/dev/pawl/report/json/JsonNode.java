package dev.pawl.report.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import java.io.CharConversionException;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * A value of a JSON text with its place in it, which every complaint names.
 *
 * @param file name of the text
 * @param place such as {@code traces[0].rules[3].verdict}; the empty string for the whole text
 * @param value a Map, List, String, Boolean, Long, Double or null
 */
record JsonNode(String file, String place, Object value) {

  private static final Object MISSING = new Object();

  static JsonNode read(String file, InputStream in) throws IOException, ReportFormatException {
    try (JsonParser parser = new JsonFactory().createParser(in)) {
      parser.nextToken();
      return new JsonNode(file, "", value(parser));
    } catch (JsonProcessingException e) {
      String where = e.getLocation() == null ? "" : ":" + e.getLocation().getLineNr() + ":" + e.getLocation().getColumnNr();
      throw new ReportFormatException(file + where + ": not JSON: " + e.getOriginalMessage());
    } catch (CharConversionException e) {
      throw new ReportFormatException(file + ": not JSON in UTF-8");
    }
  }

  private static Object value(JsonParser parser) throws IOException {
    JsonToken token = parser.currentToken();
    if (token == JsonToken.START_OBJECT) {
      Map<String, Object> fields = new LinkedHashMap<>();
      while (parser.nextToken() == JsonToken.FIELD_NAME) {
        String name = parser.currentName();
        parser.nextToken();
        fields.put(name, value(parser));
      }
      return fields;
    } else if (token == JsonToken.START_ARRAY) {
      List<Object> items = new ArrayList<>();
      while (parser.nextToken() != JsonToken.END_ARRAY) {
        items.add(value(parser));
      }
      return items;
    } else if (token == JsonToken.VALUE_STRING) {
      return parser.getText();
    } else if (token == JsonToken.VALUE_TRUE || token == JsonToken.VALUE_FALSE) {
      return parser.getBooleanValue();
    } else if (token == JsonToken.VALUE_NUMBER_INT && parser.getNumberType() != JsonParser.NumberType.BIG_INTEGER) {
      return parser.getLongValue();
    } else if (token == JsonToken.VALUE_NUMBER_INT || token == JsonToken.VALUE_NUMBER_FLOAT) {
      return parser.getDoubleValue();
    }
    return token == null ? MISSING : null;
  }

  boolean has(String field) {
    return value instanceof Map<?, ?> fields && fields.containsKey(field);
  }

  JsonNode at(String field) throws ReportFormatException {
    if (!(value instanceof Map<?, ?> fields)) {
      throw wrong("an object");
    }
    Object inner = fields.containsKey(field) ? fields.get(field) : MISSING;
    return new JsonNode(file, place.isEmpty() ? field : place + "." + field, inner);
  }

  List<JsonNode> items() throws ReportFormatException {
    if (!(value instanceof List<?> items)) {
      throw wrong("a list");
    }
    List<JsonNode> nodes = new ArrayList<>();
    for (Object item : items) {
      nodes.add(new JsonNode(file, place + "[" + nodes.size() + "]", item));
    }
    return nodes;
  }

  String text() throws ReportFormatException {
    if (value instanceof String text) {
      return text;
    }
    throw wrong("a text");
  }

  boolean truth() throws ReportFormatException {
    if (value instanceof Boolean truth) {
      return truth;
    }
    throw wrong("true or false");
  }

  long count() throws ReportFormatException {
    if (value instanceof Long count && count >= 0) {
      return count;
    }
    throw wrong("a count");
  }

  long integer() throws ReportFormatException {
    if (value instanceof Long integer) {
      return integer;
    }
    throw wrong("a whole number");
  }

  double number() throws ReportFormatException {
    if (value instanceof Number number) {
      return number.doubleValue();
    }
    throw wrong("a number");
  }

  ReportFormatException wrong(String expected) {
    String where = place.isEmpty() ? file : file + ": " + place;
    String found = value == MISSING ? "is missing" : "is not as expected";
    return new ReportFormatException(where + " " + found + "; expected " + expected);
  }
}
