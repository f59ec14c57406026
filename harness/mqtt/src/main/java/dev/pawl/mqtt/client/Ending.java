package dev.pawl.mqtt.client;

import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;
import org.eclipse.paho.mqttv5.common.packet.MqttReturnCode;

/** The ways in which a client of the library is ended. */
final class Ending {

  private static final long QUIESCE_MILLISECONDS = 100;
  /** A broker that closes its end at once can leave the library waiting for nothing. */
  private static final long FAREWELL_MILLISECONDS = 1000;

  private Ending() {}

  /** Says goodbye, so that the broker keeps nothing and sends no will; waits a little for that. */
  static void politely(MqttAsyncClient client) {
    try {
      MqttProperties nothingKept = new MqttProperties();
      nothingKept.setSessionExpiryInterval(0L);
      client.disconnect(QUIESCE_MILLISECONDS, null, null, MqttReturnCode.RETURN_CODE_SUCCESS, nothingKept)
          .waitForCompletion(FAREWELL_MILLISECONDS);
    } catch (MqttException e) {
      // It is ended at once next, as every client is.
    }
  }

  /** Ends whatever there still is of it. */
  static void atOnce(MqttAsyncClient client) {
    try {
      client.disconnectForcibly(0, QUIESCE_MILLISECONDS, false);
    } catch (MqttException | RuntimeException e) {
      // It was not connected any more, which is what is wanted.
    }
    try {
      client.close(true);
    } catch (MqttException | RuntimeException e) {
      // Nothing of it is used again.
    }
  }
}
