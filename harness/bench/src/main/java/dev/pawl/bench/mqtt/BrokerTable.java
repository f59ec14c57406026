package dev.pawl.bench.mqtt;

import dev.pawl.mqtt.broker.EmbeddedBroker;
import dev.pawl.mqtt.client.BrokerAddress;
import dev.pawl.mqtt.time.Distribution;
import java.io.PrintStream;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.LongSupplier;

/**
 * The table of a broker's load: how many messages a second get through and how many are lost, at quality 0 and 1; and
 * how long it takes from a message being due to its verdict at a steady rate. A loss that the result does not state is
 * a fault of this harness. Each beside the bare client library, which only hears. Sender, broker and taker share this
 * machine, and so its processors.
 */
public final class BrokerTable {

  private static final int WARM_UP = 50_000;
  private static final int[] STEADY_RATES = {1_000, 10_000};
  /** A taker that hears nothing for so long hears no more. */
  private static final long SILENCE = 3_000_000_000L;

  private final PrintStream out;
  private final int messages;
  private final int seconds;

  private BrokerTable(PrintStream out, int messages, int seconds) {
    this.out = out;
    this.messages = messages;
    this.seconds = seconds;
  }

  /**
   * Prints the table.
   *
   * @param arguments messages of each run without pause (200000), seconds of each steady run (10), and the only broker
   *     to measure
   */
  public static void main(String[] arguments) throws Exception {
    int messages = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 200_000;
    int seconds = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 10;
    BrokerTable table = new BrokerTable(System.out, messages, seconds);
    String only = arguments.length > 2 ? arguments[2] : "";
    if (!only.equals("mosquitto")) {
      EmbeddedBroker embedded = EmbeddedBroker.start();
      table.broker("embedded", new Server(embedded.address(), embedded::dropped));
      embedded.close();
    }
    if (!only.equals("embedded")) {
      table.mosquitto();
    }
    System.exit(0);
  }

  private void mosquitto() throws Exception {
    Optional<Mosquitto> other = Mosquitto.start();
    if (other.isPresent()) {
      try (Mosquitto mosquitto = other.get()) {
        broker("mosquitto", new Server(mosquitto.address(), () -> 0));
      }
    } else {
      out.println("  Mosquitto is not installed");
    }
  }

  /** A broker, and the count of messages dropped that it can be asked for. */
  private record Server(BrokerAddress address, LongSupplier dropped) {}

  private void broker(String name, Server server) throws Exception {
    run(server, true, 1, 0, WARM_UP);
    run(server, false, 1, 0, WARM_UP);
    out.printf("  %-10s %-22s %8s %10s %8s %8s %10s %10s %10s%n", name, "", "sent", "per s", "lost", "stated",
        "median ms", "p99 ms", "worst ms");
    for (int quality = 0; quality <= 1; quality++) {
      line("bare, quality " + quality, run(server, false, quality, 0, messages));
      line("judged, quality " + quality, run(server, true, quality, 0, messages));
    }
    for (int rate : STEADY_RATES) {
      line(String.format(Locale.ROOT, "bare, %,d/s", rate), run(server, false, 1, rate, rate * seconds));
      line(String.format(Locale.ROOT, "judged, %,d/s", rate), run(server, true, 1, rate, rate * seconds));
    }
  }

  /** One run: what was sent and heard, how many the result says were dropped, and how long each message took. */
  private record Outcome(int sent, int heard, long stated, double seconds, Distribution delays) {}

  private static Outcome run(Server server, boolean judged, int quality, int rate, int count) throws Exception {
    long[] sent = new long[count];
    long[] heardAt = new long[count];
    AtomicInteger heard = new AtomicInteger();
    AtomicLong last = new AtomicLong(System.nanoTime());
    Taker.Heard note = (number, time) -> {
      if (heardAt[number] == 0) {
        heardAt[number] = time;
        last.set(time);
        heard.incrementAndGet();
      }
    };
    int expected = judged ? count - 1 : count;
    long start;
    BrokerAddress broker = server.address();
    Taker taker = judged ? new JudgingTaker(broker, server.dropped(), note)
        : new BareTaker(broker, JudgingTaker.TOPIC, quality, note);
    try (taker; Load load = new Load(broker, JudgingTaker.TOPIC)) {
      start = System.nanoTime();
      load.send(quality, rate, sent);
      last.accumulateAndGet(System.nanoTime(), Math::max);
      while (heard.get() < expected && System.nanoTime() - last.get() < SILENCE) {
        Thread.sleep(1);
      }
    }
    long end = start;
    Distribution delays = new Distribution();
    for (int number = count - expected; number < count; number++) {
      if (heardAt[number] != 0) {
        delays.add(heardAt[number] - sent[number]);
        end = Math.max(end, heardAt[number]);
      }
    }
    long stated = taker instanceof JudgingTaker judging ? judging.statedLost() : 0;
    return new Outcome(expected, heard.get(), stated, (end - start) / 1e9, delays);
  }

  private void line(String name, Outcome outcome) {
    Distribution delays = outcome.delays();
    out.printf(Locale.ROOT, "  %-10s %-22s %8d %10.0f %8d %8d %10.3f %10.3f %10.3f%n", "", name, outcome.sent(),
        outcome.heard() / outcome.seconds(), outcome.sent() - outcome.heard(), outcome.stated(),
        delays.quantile(0.5) / 1e6, delays.quantile(0.99) / 1e6, delays.greatest() / 1e6);
  }
}
