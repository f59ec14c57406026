package dev.pawl.mqtt.client;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.mqtt.support.ScriptedBroker;
import dev.pawl.mqtt.time.HarnessClock;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

/** The library hands over what comes before a connection is ready; it may not be let in before the news of that. */
class ArrivalTest {

  /** More than the library keeps waiting, so that some are handed over before it reads the answer behind them. */
  private static final int MANY = 200;

  private final HarnessClock clock = HarnessClock.started();

  private static ListeningConnection listen(ScriptedBroker broker, InboundQueue queue) {
    return new ListeningConnection(ConnectionSettings.of(broker.address(), "arrival"), List.of("greeting"), queue);
  }

  private static String text(Inbound item) {
    return new String(((Inbound.Message) item).payload());
  }

  @Test
  void whatComesBeforeTheConnectionIsReadyComesBehindTheNewsOfIt() throws Exception {
    InboundQueue queue = new InboundQueue(10_000, clock);
    try (ScriptedBroker broker = new ScriptedBroker()) {
      broker.greet(MANY);
      try (ListeningConnection listening = listen(broker, queue)) {
        assertThat(queue.take(10, TimeUnit.SECONDS)).isInstanceOf(Inbound.Connected.class);
        for (int i = 0; i < MANY; i++) {
          assertThat(text(queue.take(10, TimeUnit.SECONDS))).isEqualTo(Integer.toString(i));
        }
      }
    }
  }
}
