package dev.pawl.mqtt.support;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.mqtt.client.BrokerAddress;
import dev.pawl.trace.bindings.Conversion;
import dev.pawl.trace.intake.ValueReader;
import dev.pawl.trace.output.ValueSpelling;
import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.function.UnaryOperator;
import javax.net.SocketFactory;
import org.eclipse.paho.client.mqttv3.IMqttDeliveryToken;
import org.eclipse.paho.client.mqttv3.MqttAsyncClient;
import org.eclipse.paho.client.mqttv3.MqttCallback;
import org.eclipse.paho.client.mqttv3.MqttConnectOptions;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.eclipse.paho.client.mqttv3.MqttMessage;
import org.eclipse.paho.client.mqttv3.persist.MemoryPersistence;

/**
 * A bench side as somebody else would write it, from what the harness says of its hand-shake: a client of MQTT 3.1.1
 * that knows neither user properties nor the harness's own client. Inputs are plain texts on {@code PREFIX/SIGNAL};
 * outputs are either that, or JSON with the value and the time of the trace.
 */
public final class ForeignBench implements MqttCallback, AutoCloseable {

  private static final long TICK_MILLISECONDS = 1;

  private final MqttAsyncClient client;
  private final RuleBook book;
  private final String prefix;
  private final boolean timed;
  private final double factor;
  private final UnaryOperator<EventSink> power;
  private final ValueSpelling texts;
  private final Map<String, Signal> inputs = new HashMap<>();
  private final Map<Integer, ValueReader> readers = new HashMap<>();
  private final List<long[]> waiting = new ArrayList<>();
  private final ScheduledExecutorService ticking = Executors.newSingleThreadScheduledExecutor();
  private EventSink logic;
  private long taken;
  private long sent;
  private long started;
  private Throwable failure;

  private ForeignBench(BrokerAddress broker, RuleBook book, String prefix, boolean timed, double factor,
      UnaryOperator<EventSink> power) {
    this.book = book;
    this.prefix = prefix;
    this.timed = timed;
    this.factor = factor;
    this.power = power;
    this.texts = new ValueSpelling(book.signals());
    for (Signal signal : book.signals()) {
      if (signal.direction() == Signal.Direction.INPUT) {
        inputs.put(prefix + "/" + signal.name(), signal);
        readers.put(signal.index(), ValueReader.of(signal, new Conversion.Plain()));
      }
    }
    try {
      client = new MqttAsyncClient("tcp://" + broker.host() + ":" + broker.port(), "bench-side",
          new MemoryPersistence());
      client.setCallback(this);
      MqttConnectOptions options = new MqttConnectOptions();
      options.setMqttVersion(MqttConnectOptions.MQTT_VERSION_3_1_1);
      options.setMaxInflight(10_000);
      options.setSocketFactory(new Prompt());
      client.connect(options).waitForCompletion(10_000);
      client.subscribe(prefix + "/#", 1).waitForCompletion(10_000);
      client.subscribe("pawl/step", 1).waitForCompletion(10_000);
    } catch (MqttException e) {
      throw new IllegalStateException(e);
    }
    if (factor > 0) {
      logic = power.apply(new Out());
      ticking.scheduleAtFixedRate(this::tick, 0, TICK_MILLISECONDS, TimeUnit.MILLISECONDS);
    }
  }

  /** Answers step by step, with the time of the trace in its outputs or without. */
  public static ForeignBench stepped(BrokerAddress broker, RuleBook book, String prefix, boolean timed,
      UnaryOperator<EventSink> power) {
    return new ForeignBench(broker, book, prefix, timed, 0, power);
  }

  /** Runs by its own clock, so many times as fast. */
  public static ForeignBench paced(BrokerAddress broker, RuleBook book, String prefix, double factor,
      UnaryOperator<EventSink> power) {
    return new ForeignBench(broker, book, prefix, false, factor, power);
  }

  @Override
  public synchronized void messageArrived(String topic, MqttMessage message) {
    String text = new String(message.getPayload(), StandardCharsets.UTF_8);
    try {
      if (topic.equals("pawl/step")) {
        String[] words = text.split(" ");
        step(Long.parseLong(words[0]), Long.parseLong(words[1]), Long.parseLong(words[2]));
      } else if (inputs.containsKey(topic)) {
        Signal signal = inputs.get(topic);
        taken++;
        waiting.add(new long[] {signal.index(), readers.get(signal.index()).read(text)});
      }
    } catch (MqttException | RuntimeException e) {
      failure = e;
    }
  }

  /** Messages of one sender come in order here, as both brokers have it, so the inputs are there before their step. */
  private void step(long number, long inputsSent, long time) throws MqttException {
    if (number == 1) {
      logic = power.apply(new Out());
      sent = 0;
      taken = inputsSent;
    }
    if (taken != inputsSent) {
      throw new IllegalStateException("step " + number + " counts " + inputsSent + " inputs, " + taken + " have come");
    }
    logic.advanceTo(time);
    waiting.forEach(input -> logic.event(time, (int) input[0], input[1], 0));
    waiting.clear();
    publish("pawl/done", number + " " + sent);
  }

  private synchronized void tick() {
    if (started == 0 && waiting.isEmpty()) {
      return;
    }
    started = started == 0 ? System.nanoTime() : started;
    long time = (long) ((System.nanoTime() - started) * factor);
    logic.advanceTo(time);
    waiting.forEach(input -> logic.event(time, (int) input[0], input[1], 0));
    waiting.clear();
  }

  private void publish(String topic, String text) throws MqttException {
    client.publish(topic, text.getBytes(StandardCharsets.UTF_8), 1, false);
  }

  /** What the logic gives; it passes its inputs on, too, which are no outputs. */
  private final class Out implements EventSink {

    @Override
    public void event(long time, int signal, long value, long line) {
      Signal out = book.signals().get(signal);
      if (out.direction() == Signal.Direction.INPUT || value == UNKNOWN) {
        return;
      }
      String text = texts.of(signal, value);
      String json = "{\"t\":" + time + ",\"v\":" + (text.matches("-?[0-9.eE+-]+") ? text : "\"" + text + "\"") + "}";
      try {
        publish(prefix + "/" + out.name(), timed ? json : text);
        sent++;
      } catch (MqttException e) {
        failure = e;
      }
    }

    @Override
    public void advanceTo(long time) {
      // Outputs go out as they come.
    }
  }

  @Override
  public void connectionLost(Throwable cause) {
    failure = cause;
  }

  @Override
  public void deliveryComplete(IMqttDeliveryToken token) {
    // The hand-shake says what has come.
  }

  @Override
  public void close() {
    ticking.shutdownNow();
    try {
      client.disconnectForcibly(0, 500);
      client.close(true);
    } catch (MqttException e) {
      throw new IllegalStateException(e);
    }
    if (failure != null) {
      throw new AssertionError(failure);
    }
  }

  /** Sockets that send at once; a delay of 40 ms at each step would be for nothing. */
  private static final class Prompt extends SocketFactory {

    @Override
    public Socket createSocket() throws IOException {
      Socket socket = new Socket();
      socket.setTcpNoDelay(true);
      return socket;
    }

    @Override
    public Socket createSocket(String host, int port) throws IOException {
      throw new IOException("made unconnected only");
    }

    @Override
    public Socket createSocket(String host, int port, InetAddress local, int localPort) throws IOException {
      throw new IOException("made unconnected only");
    }

    @Override
    public Socket createSocket(InetAddress host, int port) throws IOException {
      throw new IOException("made unconnected only");
    }

    @Override
    public Socket createSocket(InetAddress host, int port, InetAddress local, int localPort) throws IOException {
      throw new IOException("made unconnected only");
    }
  }
}
