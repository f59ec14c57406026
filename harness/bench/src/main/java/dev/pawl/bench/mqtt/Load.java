package dev.pawl.bench.mqtt;

import dev.pawl.mqtt.client.BrokerAddress;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttActionListener;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;

/** A bare client that sends the number of each message as its payload, all on one topic. */
final class Load implements AutoCloseable {

  /** Unacknowledged messages at a time; both brokers allow as many. */
  private static final int MOST_ON_THE_WAY = 500;
  /** Does not sleep for less: a thread of this machine wakes up later than that. */
  private static final long SHORTEST_SLEEP = 100_000;

  private final MqttAsyncClient client;
  private final String topic;
  private final Semaphore room = new Semaphore(MOST_ON_THE_WAY);

  Load(BrokerAddress broker, String topic) throws MqttException {
    this.topic = topic;
    this.client = new MqttAsyncClient("tcp://" + broker.host() + ":" + broker.port(), "load", new MemoryPersistence());
    MqttConnectionOptions options = new MqttConnectionOptions();
    options.setSocketFactory(new PromptSockets());
    client.connect(options).waitForCompletion(10_000);
  }

  /**
   * Sends messages 0 to {@code sent.length - 1}.
   *
   * @param rate messages per second; 0 for as many as go
   * @param sent set to the time of each, {@link System#nanoTime} as it was due: what a late sender adds is not hidden
   */
  void send(int quality, int rate, long[] sent) throws MqttException, InterruptedException {
    long start = System.nanoTime();
    for (int number = 0; number < sent.length; number++) {
      long due = rate == 0 ? System.nanoTime() : start + number * 1_000_000_000L / rate;
      for (long left = due - System.nanoTime(); left > 0; left = due - System.nanoTime()) {
        if (left > SHORTEST_SLEEP) {
          LockSupport.parkNanos(left - SHORTEST_SLEEP / 2);
        } else {
          Thread.onSpinWait();
        }
      }
      if (!room.tryAcquire(30, TimeUnit.SECONDS)) {
        throw new IllegalStateException("the broker has acknowledged nothing for 30 s");
      }
      sent[number] = due;
      MqttMessage message = new MqttMessage(Integer.toString(number).getBytes(StandardCharsets.US_ASCII));
      message.setQos(quality);
      client.publish(topic, message, null, new Freed());
    }
    if (!room.tryAcquire(MOST_ON_THE_WAY, 60, TimeUnit.SECONDS)) {
      throw new IllegalStateException("the broker has not acknowledged all within 60 s");
    }
    room.release(MOST_ON_THE_WAY);
  }

  @Override
  public void close() throws MqttException {
    client.disconnectForcibly(0, 500, false);
    client.close(true);
  }

  /** Makes room for another message, however the one before ended; what did not arrive is counted by its taker. */
  private final class Freed implements MqttActionListener {

    @Override
    public void onSuccess(IMqttToken token) {
      room.release();
    }

    @Override
    public void onFailure(IMqttToken token, Throwable failure) {
      room.release();
    }
  }
}
