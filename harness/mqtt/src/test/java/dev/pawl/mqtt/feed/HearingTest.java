package dev.pawl.mqtt.feed;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Source;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.support.Ride;
import dev.pawl.trace.bindings.BindingsFile;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** What is said of topics without a message and of signals without a value. */
class HearingTest {

  private final Hearing hearing = new Hearing(Ride.BOOK, TopicBindings.resolve(BindingsFile.parse(new Source("t", """
      topics
        near_flag   on sparkplug "park/plc" metric "Near"
        estop_chain on sparkplug "park/plc/safety" metric "Chain"
        lift_run    on sparkplug "park/plc/safety" metric "Run"
        lift_speed  on "park/drive"
      """)), Ride.BOOK).bindings());

  @Test
  void aNodeAndItsDevicesAreHeardEachForItself() {
    assertThat(hearing.missing()).containsExactly("nothing has come at all: no message on sparkplug park/plc,"
        + " sparkplug park/plc/safety, park/drive; look whether the sender runs and publishes to this broker, and"
        + " whether its topics are those of the bindings", "the bindings name no topic of lift_mode");
    hearing.message("spBv1.0/park/DCMD/plc/safety");
    hearing.message("spBv1.0/park/NBIRTH/other");
    hearing.message("spBv1.0");
    assertThat(hearing.isNothing()).isTrue();
    hearing.message("spBv1.0/park/DDATA/plc/safety");
    hearing.value(Ride.signal("lift_run"), 1);
    hearing.value(Ride.signal("estop_chain"), EventSink.UNKNOWN);
    assertThat(hearing.missing()).containsExactly("no message on sparkplug park/plc, so no value of near_flag",
        "messages came on sparkplug park/plc/safety, but no value of estop_chain",
        "no message on park/drive, so no value of lift_speed", "the bindings name no topic of lift_mode");
  }

  @Test
  void ofManyTopicsTheFirstAreNamed() {
    String inputs = List.of("a", "b", "c", "d", "e", "f", "g").stream().map(name -> "input " + name + " : bool\n")
        .collect(Collectors.joining());
    RuleBook book = Ride.book(inputs);
    Hearing many = new Hearing(book, TopicBindings.byName(book, "ride"));
    assertThat(many.missing()).singleElement().asString()
        .contains("no message on ride/a, ride/b, ride/c, ride/d, ride/e and 2 more topics");
  }
}
