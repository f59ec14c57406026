package dev.pawl.mqtt.payload;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.mqtt.binding.PayloadForm;
import dev.pawl.mqtt.binding.TopicBinding;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.trace.intake.ValueReader;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** The readers of all topics that carry plain values or JSON. */
public final class TopicReaders {

  private final Map<String, TopicReader> byTopic = new HashMap<>();

  /** Readers for all bindings but those to Sparkplug metrics. */
  public TopicReaders(RuleBook book, TopicBindings bindings) {
    Map<String, List<JsonReader.Place>> json = new HashMap<>();
    Map<String, List<TopicReader>> plain = new HashMap<>();
    for (TopicBinding binding : bindings.list()) {
      ValueReader values = ValueReader.of(book.signals().get(binding.signal()), binding.conversion());
      if (binding.form() instanceof PayloadForm.Json place) {
        json.computeIfAbsent(binding.topic(), t -> new ArrayList<>())
            .add(new JsonReader.Place(binding.signal(), place.value(), place.time(), values));
      } else if (binding.form() instanceof PayloadForm.Plain) {
        plain.computeIfAbsent(binding.topic(), t -> new ArrayList<>()).add(new PlainReader(binding.signal(), values));
      }
    }
    plain.forEach((topic, readers) -> byTopic.put(topic, readers.get(0)));
    json.forEach((topic, places) -> byTopic.put(topic, new JsonReader(places)));
  }

  /** The reader of a topic; null if it carries no bound signal. */
  public TopicReader of(String topic) {
    return byTopic.get(topic);
  }
}
