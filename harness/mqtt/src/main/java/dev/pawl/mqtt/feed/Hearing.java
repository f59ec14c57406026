package dev.pawl.mqtt.feed;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.mqtt.binding.SparkplugSource;
import dev.pawl.mqtt.binding.TopicBinding;
import dev.pawl.mqtt.binding.TopicBindings;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** What has been heard: on which topics a message came, and which signals had a value. */
public final class Hearing {

  private static final int NAMED = 5;
  private static final String COMMAND = "CMD";

  private final RuleBook book;
  private final Map<String, Place> places = new LinkedHashMap<>();
  private final List<String> unbound;
  private final BitSet valued = new BitSet();

  /** A topic, or a node or device of Sparkplug, with the signals that are bound to it. */
  private static final class Place {
    private final List<Integer> signals = new ArrayList<>();
    private boolean heard;
  }

  Hearing(RuleBook book, TopicBindings bindings) {
    this.book = book;
    this.unbound = bindings.unbound(book);
    bindings.list().forEach(binding -> places.computeIfAbsent(place(binding), name -> new Place()).signals
        .add(binding.signal()));
  }

  private static String place(TopicBinding binding) {
    return binding.form().match(plain -> binding.topic(), json -> binding.topic(),
        metric -> "sparkplug " + metric.source());
  }

  void message(String topic) {
    Place place = places.get(topic);
    if (place == null && topic.startsWith(SparkplugSource.NAMESPACE + "/")) {
      place = places.get(sender(topic.split("/", -1)));
    }
    if (place != null) {
      place.heard = true;
    }
  }

  /** The node or device that says something on such a topic; a command is said to it, not by it. */
  private static String sender(String[] levels) {
    boolean sends = levels.length >= 4 && !levels[2].endsWith(COMMAND);
    return sends ? "sparkplug " + new SparkplugSource(levels[1], levels[3], levels.length > 4 ? levels[4] : "") : "";
  }

  void value(int signal, long value) {
    if (value != EventSink.UNKNOWN) {
      valued.set(signal);
    }
  }

  /** Whether no message has come on any topic of a signal. */
  public boolean isNothing() {
    return places.values().stream().noneMatch(place -> place.heard);
  }

  /** Topics without a message and signals without a value: a sentence each, without a full stop. */
  public List<String> missing() {
    List<String> sentences = new ArrayList<>();
    if (isNothing() && !places.isEmpty()) {
      sentences.add("nothing has come at all: no message on " + someOf(List.copyOf(places.keySet()), "topics")
          + "; look whether the sender runs and publishes to this broker, and whether its topics are those of the"
          + " bindings");
    } else {
      places.forEach((name, place) -> {
        List<String> silent = place.signals.stream().filter(signal -> !valued.get(signal))
            .map(signal -> book.signals().get(signal).name()).toList();
        if (!silent.isEmpty()) {
          sentences.add((place.heard ? "messages came on " + name + ", but no value of " : "no message on " + name
              + ", so no value of ") + someOf(silent, "signals"));
        }
      });
    }
    if (!unbound.isEmpty()) {
      sentences.add("the bindings name no topic of " + someOf(unbound, "signals"));
    }
    return sentences;
  }

  private static String someOf(List<String> names, String what) {
    return names.size() <= NAMED ? String.join(", ", names)
        : String.join(", ", names.subList(0, NAMED)) + " and " + (names.size() - NAMED) + " more " + what;
  }
}
