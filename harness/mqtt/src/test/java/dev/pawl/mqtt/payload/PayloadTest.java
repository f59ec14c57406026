package dev.pawl.mqtt.payload;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.source.Source;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.evidence.Anomaly;
import dev.pawl.mqtt.support.Ride;
import dev.pawl.trace.bindings.BindingsFile;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PayloadTest {

  private static final int NEAR = Ride.signal("near_flag");
  private static final int SPEED = Ride.signal("lift_speed");
  private static final int MODE = Ride.signal("lift_mode");

  static TopicBindings bindings(String entries) {
    TopicBindings.Resolved resolved =
        TopicBindings.resolve(BindingsFile.parse(new Source("t.bindings", "topics\n" + entries)), Ride.BOOK);
    assertThat(resolved.diagnostics()).isEmpty();
    return resolved.bindings();
  }

  /** What came of a payload, in short words. */
  static final class Told implements ReadingTaker {
    final List<String> list = new ArrayList<>();

    @Override
    public void reading(int signal, long value, long stated) {
      String shown = value == EventSink.UNKNOWN ? "unknown"
          : signal == SPEED ? Double.toString(Double.longBitsToDouble(value)) : Long.toString(value);
      list.add(Ride.BOOK.signals().get(signal).name() + "=" + shown + (stated == NO_TIME ? "" : "@" + stated));
    }

    @Override
    public void traced(int signal, long value, long time) {
      list.add(Ride.BOOK.signals().get(signal).name() + "=" + value + " of trace time " + time);
    }

    @Override
    public void anomaly(Anomaly anomaly, int signal, String what) {
      list.add(anomaly + " " + what);
    }
  }

  private static List<String> read(String entries, String topic, String payload) {
    Told told = new Told();
    new TopicReaders(Ride.BOOK, bindings(entries)).of(topic).read(payload.getBytes(StandardCharsets.UTF_8), told);
    return told.list;
  }

  @Test
  void plainValuesWithConversions() {
    assertThat(read("  near_flag on \"a\"", "a", " 1\n")).containsExactly("near_flag=1");
    assertThat(read("  near_flag on \"a\" inverted", "a", "true")).containsExactly("near_flag=0");
    assertThat(read("  lift_speed on \"a\" in mm/s", "a", "2500")).containsExactly("lift_speed=2.5");
    assertThat(read("  lift_mode on \"a\" where 0 = off, 7 = auto", "a", "7")).containsExactly("lift_mode=1");
    assertThat(read("  lift_speed on \"a\"", "a", "fast")).containsExactly("MALFORMED 'fast' is not a decimal number");
    assertThat(read("  near_flag on \"a\"", "a", "\u001b[31m<script>"))
        .containsExactly("MALFORMED '\uFFFD[31m<script>' is not 0, 1, true or false");
  }

  @Test
  void jsonAtPointersWithTimes() {
    String entries = "  lift_speed on \"d\" json \"/drive/v\" time \"/ts\" ms\n  lift_mode on \"d\" json \"/mode\"\n";
    assertThat(read(entries, "d", "{\"ts\":1700000000123,\"drive\":{\"v\":1.5},\"mode\":\"auto\"}"))
        .containsExactly("lift_speed=1.5@1700000000123000000", "lift_mode=1");
    assertThat(read(entries, "d", "{\"mode\":\"off\"}")).containsExactly("lift_mode=0");
    assertThat(read(entries, "d", "{\"drive\":{\"v\":null},\"ts\":5}")).containsExactly("lift_speed=unknown@5000000");
    assertThat(read(entries, "d", "{\"drive\":{\"v\":1}}")).containsExactly("MALFORMED a JSON text has no time at /ts");
    assertThat(read(entries, "d", "{\"drive\":{\"v\":{}},\"ts\":5}").get(0))
        .startsWith("MALFORMED '{' at /drive/v is not");
    assertThat(read(entries, "d", "{\"x\":1}"))
        .containsExactly("MALFORMED a JSON text has nothing at /drive/v and the other pointers");
    assertThat(read(entries, "d", "{\"mode\":\"auto\"")).singleElement().asString()
        .startsWith("MALFORMED a payload is no JSON text");
    assertThat(read(entries, "d", "{\"mode\":\"auto\"} 5")).singleElement().asString().startsWith("MALFORMED");
    assertThat(read(entries, "d", "\u0000\u0000\u0000{\uffff\uffff"))
        .containsExactly("MALFORMED a payload is no JSON text in UTF-8");
    assertThat(read(entries, "d", "[".repeat(5000))).singleElement().asString().startsWith("MALFORMED");
  }

  @Test
  void theTimeOfAPlayedTraceIsToldApartAndMayBeMissing() {
    String entries = "  lift_run on \"d\" json \"/v\" trace time \"/t\" us\n";
    assertThat(read(entries, "d", "{\"v\":true,\"t\":1500}")).containsExactly("lift_run=1 of trace time 1500000");
    assertThat(read(entries, "d", "{\"v\":false}")).containsExactly("lift_run=0");
    assertThat(read(entries, "d", "{\"v\":false,\"t\":\"soon\"}")).containsExactly("MALFORMED 'soon' at /t is no time");
    PayloadWriter writer = new PayloadWriter(Ride.BOOK, bindings(entries));
    assertThat(writer.payload(Ride.signal("lift_run"), 1, 7, 1_500_000).orElseThrow()).asString()
        .isEqualTo("{\"v\":true,\"t\":1500}");
    assertThat(writer.payload(Ride.signal("lift_run"), 1, 7, ReadingTaker.NO_TIME).orElseThrow()).asString()
        .isEqualTo("{\"v\":true}");
  }

  /** The pointers and values of RFC 6901, section 5 (from memory), as far as their values are numbers. */
  @ParameterizedTest
  @CsvSource({"/,0", "/a~1b,1", "/c%d,2", "/e^f,3", "/g|h,4", "/i\\j,5", "/k\"l,6", "'/ ',7", "/m~0n,8"})
  void pointersAreThoseOfTheirStandard(String pointer, double expected) {
    String document = "{\"foo\":[\"bar\",\"baz\"],\"\":0,\"a/b\":1,\"c%d\":2,\"e^f\":3,\"g|h\":4,\"i\\\\j\":5,\"k\\\"l\":6,\" \":7,\"m~n\":8}";
    assertThat(read("  lift_speed on \"d\" json \"" + pointer.replace("\"", "\"\"") + "\"", "d", document))
        .containsExactly("lift_speed=" + expected);
  }

  @Test
  void arrayElementsAndTheWholeText() {
    assertThat(read("  lift_mode on \"d\" json \"/foo/1\"", "d", "{\"foo\":[\"off\",\"auto\"]}"))
        .containsExactly("lift_mode=1");
    assertThat(read("  near_flag on \"d\" json \"\"", "d", "true")).containsExactly("near_flag=1");
  }

  @Test
  void whatIsWrittenReadsBackTheSame() {
    String entries = """
          near_flag   on "n" inverted
          estop_chain on "e" json "/a/b" time "/a/t" rfc3339
          lift_speed  on "s" json "/v" in mph
          lift_mode   on "m" where OFF = off, AUTO = auto
        """;
    TopicBindings bindings = bindings(entries);
    PayloadWriter writer = new PayloadWriter(Ride.BOOK, bindings);
    TopicReaders readers = new TopicReaders(Ride.BOOK, bindings);
    long time = 1_700_000_000_123_000_000L;
    assertThat(writer.payload(Ride.signal("estop_chain"), 1, time, ReadingTaker.NO_TIME).orElseThrow()).asString()
        .isEqualTo("{\"a\":{\"b\":true,\"t\":\"2023-11-14T22:13:20.123Z\"}}");
    Told told = new Told();
    readers.of("n").read(writer.payload(NEAR, 1, time, ReadingTaker.NO_TIME).orElseThrow(), told);
    readers.of("e").read(writer.payload(Ride.signal("estop_chain"), 0, time, ReadingTaker.NO_TIME).orElseThrow(), told);
    readers.of("m").read(writer.payload(MODE, 1, time, ReadingTaker.NO_TIME).orElseThrow(), told);
    assertThat(told.list).containsExactly("near_flag=1", "estop_chain=0@" + time, "lift_mode=1");
    told.list.clear();
    readers.of("s").read(writer.payload(SPEED, Double.doubleToRawLongBits(2.68224), time, ReadingTaker.NO_TIME)
        .orElseThrow(), told);
    assertThat(Double.parseDouble(told.list.get(0).substring("lift_speed=".length()))).isCloseTo(2.68224,
        org.assertj.core.data.Offset.offset(1e-12));
  }
}
