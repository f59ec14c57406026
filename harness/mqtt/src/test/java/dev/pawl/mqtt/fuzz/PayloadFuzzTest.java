package dev.pawl.mqtt.fuzz;

import com.code_intelligence.jazzer.junit.FuzzTest;
import dev.pawl.grammar.source.Source;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.payload.TopicReaders;
import dev.pawl.mqtt.sparkplug.SparkplugReader;
import dev.pawl.mqtt.support.Ride;
import dev.pawl.trace.bindings.BindingsFile;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Timeout;

/** Any bytes at all as the payload of a message. The time limit stands for "does not end". */
@Timeout(30)
class PayloadFuzzTest {

  private static final TopicBindings PLAIN = bindings("""
        near_flag  on "near"
        lift_run   on "run" inverted
        lift_speed on "speed" in mm/s
        lift_mode  on "mode" where 0 = off, 7 = auto
      """);
  private static final TopicBindings JSON = bindings("""
        near_flag   on "d" json "/near"
        estop_chain on "d" json "/safety/chain" where HEALTHY = true, TRIPPED = false
        lift_run    on "d" json "/list/1" time "/t" ms
        lift_speed  on "d" json "" trace time "/t" ns
        lift_mode   on "d" json "/m~1" time "/when" rfc3339
      """);
  private static final TopicBindings SPARKPLUG = bindings("""
        near_flag  on sparkplug "park/plc" metric "Near"
        lift_run   on sparkplug "park/plc/drive" metric "Run"
        lift_speed on sparkplug "park/plc/drive" metric "Speed" in mm/s
        lift_mode  on sparkplug "park/plc/drive" metric "Mode" where 0 = off, 1 = auto
      """);
  private static final List<String> SPARKPLUG_TOPICS = List.of("NBIRTH/plc", "DBIRTH/plc/drive", "NDATA/plc",
      "DDATA/plc/drive", "NDEATH/plc", "DDEATH/plc/drive", "NCMD/plc", "DDATA/plc/other");

  private static final byte[] CUT = "{\"near\":true,".getBytes(StandardCharsets.UTF_8);

  private static TopicBindings bindings(String entries) {
    return TopicBindings.resolve(BindingsFile.parse(new Source("fuzz.bindings", "topics\n" + entries)), Ride.BOOK)
        .bindings();
  }

  @FuzzTest(maxDuration = "")
  void plain(byte[] bytes) {
    for (String topic : List.of("near", "run", "speed", "mode")) {
      SoundReadings taker = new SoundReadings();
      new TopicReaders(Ride.BOOK, PLAIN).of(topic).read(bytes, taker);
      taker.require(taker.count() == 1, "one message on " + topic + " gave " + taker.count() + " readings");
    }
  }

  /** Read twice by one reader, since nothing of a message may stay in it. */
  @FuzzTest(maxDuration = "")
  void json(byte[] bytes) {
    TopicReaders readers = new TopicReaders(Ride.BOOK, JSON);
    SoundReadings first = new SoundReadings();
    readers.of("d").read(bytes, first);
    first.require(first.count() > 0, "a message was left out silently");
    SoundReadings second = new SoundReadings();
    readers.of("d").read(CUT, new SoundReadings());
    readers.of("d").read(bytes, second);
    first.require(first.digest().equals(second.digest()), "read again it gave other readings");
  }

  /** A series of messages: which topic, how many bytes (two octets), the bytes. */
  @FuzzTest(maxDuration = "")
  void sparkplug(byte[] bytes) {
    SparkplugReader reader = new SparkplugReader(Ride.BOOK, SPARKPLUG);
    SoundReadings taker = new SoundReadings();
    for (int at = 0; at + 3 <= bytes.length; ) {
      String topic = "spBv1.0/park/" + SPARKPLUG_TOPICS.get(bytes[at] & 7);
      int end = Math.min(bytes.length, at + 3 + ((bytes[at + 1] & 0xff) << 8 | bytes[at + 2] & 0xff));
      reader.read(topic, Arrays.copyOfRange(bytes, at + 3, end), taker);
      at = end;
    }
  }
}
