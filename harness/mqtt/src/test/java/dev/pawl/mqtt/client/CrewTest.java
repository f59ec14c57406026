package dev.pawl.mqtt.client;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.mqtt.support.ScriptedBroker;
import dev.pawl.mqtt.time.HarnessClock;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;

/** A thread of a connection that fails, ours or the library's, takes the connection with it. */
class CrewTest {

  private static final HarnessClock CLOCK = HarnessClock.started();

  private static void requireLost(InboundQueue queue, String detail) throws InterruptedException {
    Inbound lost = queue.take(10, TimeUnit.SECONDS);
    assertThat(lost).isInstanceOf(Inbound.Lost.class);
    assertThat(((Inbound.Lost) lost).detail()).isEqualTo(detail);
    assertThat(queue.take(10, TimeUnit.SECONDS)).isInstanceOf(Inbound.Connected.class);
  }

  @Test
  void whoTakesAMessage() throws Exception {
    AtomicBoolean full = new AtomicBoolean();
    InboundQueue queue = new InboundQueue(10, () -> {
      if (full.getAndSet(false)) {
        throw new OutOfMemoryError("as the virtual machine would");
      }
      return CLOCK.now();
    });
    try (ScriptedBroker broker = new ScriptedBroker();
        ListeningConnection listening = new ListeningConnection(ConnectionSettings.of(broker.address(), "crew"),
            List.of("a"), queue)) {
      assertThat(queue.take(10, TimeUnit.SECONDS)).isInstanceOf(Inbound.Connected.class);
      full.set(true);
      broker.publish("a", "x");
      requireLost(queue, "out of memory");
    }
  }

  /** What the virtual machine calls when a thread ends by an error. */
  @Test
  void theLibrarysOwn() throws Exception {
    InboundQueue queue = new InboundQueue(10, CLOCK);
    try (ScriptedBroker broker = new ScriptedBroker();
        ListeningConnection listening = new ListeningConnection(ConnectionSettings.of(broker.address(), "crew"),
            List.of("a"), queue)) {
      assertThat(queue.take(10, TimeUnit.SECONDS)).isInstanceOf(Inbound.Connected.class);
      for (String name : List.of("MQTT Rec: crew", "MQTT Call: crew", "MQTT Snd: crew")) {
        Thread thread = Thread.getAllStackTraces().keySet().stream().filter(t -> t.getName().equals(name)).findFirst()
            .orElseThrow();
        thread.getUncaughtExceptionHandler().uncaughtException(thread, new StackOverflowError());
        requireLost(queue, "a thread of it failed");
      }
    }
  }

  @Test
  void bytesThatWaitAreBounded() throws Exception {
    InboundQueue queue = new InboundQueue(1000, CLOCK);
    byte[] payload = new byte[16 << 20];
    for (int i = 0; i < 6; i++) {
      queue.putMessage(payload.length, arrival -> new Inbound.Message("a", payload, false, Stamp.NONE,
          Inbound.NO_NUMBER, arrival), Optional.empty());
    }
    for (int i = 0; i < 4; i++) {
      assertThat(queue.take(0)).isInstanceOf(Inbound.Message.class);
    }
    Inbound overflow = queue.take(0);
    assertThat(overflow).isInstanceOf(Inbound.Overflow.class);
    assertThat(((Inbound.Overflow) overflow).detail()).isEqualTo("more than 67108864 bytes waited");
    assertThat(queue.dropped()).isEqualTo(2);
  }
}
