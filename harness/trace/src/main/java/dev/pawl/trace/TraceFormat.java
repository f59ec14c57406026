package dev.pawl.trace;

import dev.pawl.trace.csv.CsvDecoder;
import dev.pawl.trace.intake.Decoder;
import dev.pawl.trace.intake.Settings;
import dev.pawl.trace.json.JsonDecoder;
import dev.pawl.trace.vcd.VcdDecoder;
import java.util.List;
import java.util.function.Function;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** The formats of traces: all there is to know about each, in one place. */
public enum TraceFormat {
  /** Comma-separated, one event or one time in a row. A text that begins like no other format is taken for it. */
  CSV("CSV", List.of(".csv"), List.of(), CsvDecoder::new),
  JSON("JSON Lines", List.of(".jsonl", ".ndjson"), Starts.OF_JSON, JsonDecoder::new),
  /** IEEE Std 1364. */
  VCD("a value change dump", List.of(".vcd"),
      List.of("$date", "$version", "$timescale", "$comment", "$scope", "$var", "$enddefinitions"),
          settings -> new VcdDecoder());

  /** How texts of some formats begin. */
  private static final class Starts {

    /** An object; or a list, whose time comes first: a bracket with a word may stand above a table. */
    private static final List<String> OF_JSON = Stream.concat(Stream.of("{", "[\""),
        IntStream.rangeClosed(0, 9).mapToObj(digit -> "[" + digit)).toList();
  }

  private final String words;
  private final List<String> endings;
  private final List<String> starts;
  private final Function<Settings, Decoder> decoder;

  /**
   * A format.
   *
   * @param words what a message calls it
   * @param endings of the names of its files, in lower case
   * @param starts how its texts can begin
   * @param decoder makes its reader
   */
  TraceFormat(String words, List<String> endings, List<String> starts, Function<Settings, Decoder> decoder) {
    this.words = words;
    this.endings = endings;
    this.starts = starts;
    this.decoder = decoder;
  }

  /** Whether the name of a file, in lower case and without the ending of a compression, is that of a trace. */
  public static boolean isTrace(String name) {
    return Stream.of(values()).flatMap(format -> format.endings.stream()).anyMatch(name::endsWith);
  }

  /** The names of traces, as a message puts them. */
  public static String namesInWords() {
    return anyOf(Stream.of(values()).flatMap(format -> format.endings.stream()).map(ending -> "*" + ending).toList());
  }

  /** All formats, as a message puts them. */
  static String inWords() {
    return anyOf(Stream.of(values()).map(format -> format.words).toList());
  }

  private static String anyOf(List<String> choices) {
    int last = choices.size() - 1;
    return String.join(", ", choices.subList(0, last)) + " or " + choices.get(last);
  }

  /** The format of a text that begins so. */
  static TraceFormat of(String start) {
    return Stream.of(values()).filter(format -> format.starts.stream().anyMatch(start::startsWith)).findFirst()
        .orElse(CSV);
  }

  Decoder decoder(Settings settings) {
    return decoder.apply(settings);
  }
}
