package dev.pawl.mqtt.client;

import java.util.Optional;

/** Says about every message whether it may be sent. Asked when it is handed over and again just before it goes out. */
public interface PublishPermit {

  /** Why a message on the topic may not be sent now; empty if it may. */
  Optional<String> refusal(String topic);
}
