package dev.pawl.mqtt.binding;

import dev.pawl.grammar.source.Position;
import dev.pawl.trace.bindings.Conversion;
import java.util.Optional;

/**
 * The place of a signal on a broker.
 *
 * @param signal index of the signal in the rule book
 * @param topic topic name; for Sparkplug the topic by which a host writes it
 * @param form how messages carry it
 * @param conversion what is done to its values
 * @param position where it is bound
 */
public record TopicBinding(int signal, String topic, PayloadForm form, Conversion conversion, Position position) {

  /**
   * What stands for the clock that states the times of its values, as far as a listener can tell clocks apart; empty
   * where none does.
   */
  public Optional<String> sender() {
    return form.match(
        plain -> Optional.empty(),
        json -> json.time().filter(time -> time.clock() == PayloadForm.Clock.SENDER)
            .map(time -> topic + " " + time.pointer()),
        metric -> Optional.of(SparkplugSource.NAMESPACE + "/" + metric.source()));
  }
}
