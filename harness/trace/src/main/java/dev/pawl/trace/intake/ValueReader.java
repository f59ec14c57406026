package dev.pawl.trace.intake;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.Scale;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.trace.bindings.Conversion;
import dev.pawl.trace.bindings.ValueWords;
import dev.pawl.trace.bytes.Decimals;
import dev.pawl.trace.bytes.NameTable;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.stream.LongStream;

/** A reader of the logged values of one tag into engine values. */
public abstract class ValueReader {

  /** What {@link #read} gives for a text that is no value of the signal; never an engine value. */
  public static final long INVALID = Long.MAX_VALUE;

  private NameTable unknown = new NameTable(List.of());

  ValueReader() {}

  /** The reader for a signal under a conversion. */
  public static ValueReader of(Signal signal, Conversion conversion) {
    return of(signal, conversion, ValueWords.NONE, '.');
  }

  /**
   * The same, where a site has its own spellings.
   *
   * @param words how it spells values
   * @param point what stands before the decimals of numbers
   */
  public static ValueReader of(Signal signal, Conversion conversion, ValueWords words, char point) {
    ValueReader reader = of(signal.type(), conversion, words, point);
    reader.unknown = new NameTable(List.copyOf(words.unknown()));
    return reader;
  }

  private static ValueReader of(ValueType type, Conversion conversion, ValueWords words, char point) {
    return conversion.match(
        plain -> of(type, false, ValueType.Quantity::scale, words, point),
        inverted -> of(type, true, ValueType.Quantity::scale, words, point),
        scaled -> of(type, false, scaled::toSi, words, point),
        mapped -> {
          List<String> codes = List.copyOf(mapped.values().keySet());
          return new Names(codes, codes.stream().mapToLong(mapped.values()::get).toArray(), "one of the bound codes ");
        });
  }

  private static ValueReader of(ValueType type, boolean inverted, Function<ValueType.Quantity, Scale> scale,
      ValueWords words, char point) {
    return type.match(
        bool -> new Bit(inverted, words),
        enumeration -> new Names(enumeration.names(), LongStream.range(0, enumeration.names().size()).toArray(),
            Names.MEMBERS),
        quantity -> new Number(scale.apply(quantity), point));
  }

  /**
   * The engine value of the text; unknown where the site says so in a word of its own.
   *
   * @param bytes readable for {@link NameTable#SLACK} bytes on both sides of the text
   */
  public final long read(byte[] bytes, int from, int to) {
    long value = known(bytes, from, to);
    return value == INVALID && unknown.find(bytes, from, to - from) >= 0 ? EventSink.UNKNOWN : value;
  }

  /** The engine value of a text that says what the value is, or {@link #INVALID}. */
  abstract long known(byte[] bytes, int from, int to);

  /** The engine value of the text. */
  public final long read(String text) {
    byte[] utf8 = text.getBytes(StandardCharsets.UTF_8);
    byte[] padded = new byte[utf8.length + 2 * NameTable.SLACK];
    System.arraycopy(utf8, 0, padded, NameTable.SLACK, utf8.length);
    return read(padded, NameTable.SLACK, NameTable.SLACK + utf8.length);
  }

  /** The engine value of a whole number, for formats that write codes as numbers. */
  public long readNumber(long number) {
    return read(Long.toString(number));
  }

  /** What a value should have been, for messages. */
  public abstract String expectation();

  /** What to do about a text that is none. */
  public final String remedy(String text) {
    return text.equals(text.strip()) ? advice(text)
        : "leave the spaces out, or say under 'columns' in a bindings file: spaces dropped";
  }

  String advice(String text) {
    return "write " + expectation();
  }

  /** Whether the bytes are the word, in any case. */
  static boolean spells(String word, byte[] bytes, int from, int to) {
    if (to - from != word.length()) {
      return false;
    }
    for (int i = 0; i < word.length(); i++) {
      if ((bytes[from + i] | 0x20) != word.charAt(i)) {
        return false;
      }
    }
    return true;
  }

  /** A switch or bit. */
  static final class Bit extends ValueReader {

    private static final String[] WORDS = {"false", "true"};

    private final int flip;
    private final NameTable table;
    private final int[] values;

    Bit(boolean inverted, ValueWords site) {
      this.flip = inverted ? 1 : 0;
      List<String> words = List.copyOf(site.bools().keySet());
      this.table = new NameTable(words);
      this.values = words.stream().mapToInt(word -> site.bools().get(word) ? 1 : 0).toArray();
    }

    /** 1 if the logged bit is inverted, else 0. */
    int flip() {
      return flip;
    }

    @Override
    long known(byte[] bytes, int from, int to) {
      if (to - from == 1) {
        int bit = bytes[from] - '0';
        return (bit & ~1) == 0 ? bit ^ flip : stated(bytes, from, to);
      }
      for (int value = 0; value < 2; value++) {
        if (spells(WORDS[value], bytes, from, to)) {
          return value ^ flip;
        }
      }
      return stated(bytes, from, to);
    }

    private long stated(byte[] bytes, int from, int to) {
      int found = values.length == 0 ? -1 : table.find(bytes, from, to - from);
      return found < 0 ? INVALID : values[found] ^ flip;
    }

    @Override
    public long readNumber(long number) {
      return (number & ~1L) == 0 ? number ^ flip : INVALID;
    }

    @Override
    public String expectation() {
      return "0, 1, true or false";
    }

    @Override
    String advice(String text) {
      return "write " + expectation()
          + ", or list the site's words in a bindings file: where ON = true, OFF = false; or for all"
          + " signals under 'values': true ON";
    }
  }

  /** One of a fixed set of texts. */
  private static final class Names extends ValueReader {

    static final String MEMBERS = "one of ";

    private final List<String> names;
    private final NameTable table;
    private final long[] values;
    private final String lead;

    Names(List<String> names, long[] values, String lead) {
      this.names = names;
      this.table = new NameTable(names);
      this.values = values.clone();
      this.lead = lead;
    }

    @Override
    long known(byte[] bytes, int from, int to) {
      int found = table.find(bytes, from, to - from);
      return found < 0 ? INVALID : values[found];
    }

    @Override
    public long readNumber(long number) {
      if (values.length > 0 && lead.equals(MEMBERS)) {
        return number >= 0 && number < values.length ? number : INVALID;
      }
      return super.readNumber(number);
    }

    @Override
    public String expectation() {
      List<String> shown = new ArrayList<>(names.subList(0, Math.min(12, names.size())));
      shown.sort(null);
      return lead + String.join(", ", shown) + (names.size() > shown.size() ? ", ..." : "");
    }
  }

  /** A number, on the signal's own scale or the site's. */
  private static final class Number extends ValueReader {

    private final Scale scale;
    private final char point;

    Number(Scale scale, char point) {
      this.scale = scale;
      this.point = point;
    }

    @Override
    long known(byte[] bytes, int from, int to) {
      return toEngine(Decimals.parse(bytes, from, to, scale, point));
    }

    @Override
    public long readNumber(long number) {
      return toEngine(scale.isSame() ? number : scale.convert(number, 0));
    }

    @Override
    public String expectation() {
      return "a decimal number";
    }

    @Override
    String advice(String text) {
      boolean comma = point == '.' && text.indexOf(',') >= 0;
      boolean word = !text.isEmpty() && text.chars().noneMatch(c -> c >= '0' && c <= '9');
      return "write " + expectation()
          + (comma ? "; where decimals follow a comma, say so under 'columns' in a bindings file: decimal comma"
          : word ? "; a word for a value that is not known can be stated under 'values' in a bindings file: unknown "
              + word(text)
          : point == ',' ? " with its decimals behind a comma" : "");
    }
  }

  private static String word(String text) {
    return text.matches("[\\w./#?!-]{1,30}") && !text.startsWith("--") ? text : "\"...\"";
  }

  /**
   * A number's bits, or {@link #INVALID}. Adding zero turns negative zero, whose bits mean unknown to the engine, into
   * zero.
   */
  private static long toEngine(double value) {
    return Double.isFinite(value) ? Double.doubleToRawLongBits(value + 0.0) : INVALID;
  }
}
