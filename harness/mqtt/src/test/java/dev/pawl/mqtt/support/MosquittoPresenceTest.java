package dev.pawl.mqtt.support;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class MosquittoPresenceTest {

  @Test
  void theSecondBrokerRunsHere(@TempDir Path folder) {
    assumeTrue(Mosquitto.isInstalled(),
        "Mosquitto is not installed: the tests of this module ran against the embedded broker only"
        + " (install Debian's mosquitto and mosquitto-clients)");
    Mosquitto broker = Mosquitto.start(folder);
    try {
      assertThat(broker.command("mosquitto_pub", "-t", "x", "-m", "y", "-q", "1")).isEmpty();
    } finally {
      broker.close();
    }
  }
}
