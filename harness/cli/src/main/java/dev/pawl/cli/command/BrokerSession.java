package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.option.BrokerOptions;
import dev.pawl.mqtt.broker.EmbeddedBroker;
import dev.pawl.mqtt.client.BrokerAddress;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.guard.BenchGuard;
import dev.pawl.mqtt.guard.EmbeddedMarker;
import dev.pawl.mqtt.time.HarnessClock;
import java.time.Duration;
import java.util.Optional;

/** The broker of one command: the one that the options name, or an embedded one that lives as long as the command. */
public final class BrokerSession implements AutoCloseable {

  private static final Duration MARKER_PATIENCE = Duration.ofSeconds(3);
  private static final String EMBEDDED_BENCH = "embedded";

  private final BrokerOptions options;
  private final Optional<EmbeddedBroker> embedded;
  private final BrokerAddress address;
  private final HarnessClock clock;

  /** Starts the embedded broker if that is asked for; says where it is. */
  BrokerSession(BrokerOptions options, HarnessClock clock, Console console) {
    this.options = options;
    this.clock = clock;
    this.embedded = options.address().isPresent() ? Optional.empty()
        : Optional.of(EmbeddedBroker.start(options.embeddedPort(), options.credentials()));
    this.address = options.address().orElseGet(() -> embedded.get().address());
    embedded.ifPresent(broker -> console.err().println("pawl: embedded broker at " + address
        + (options.credentials().isPresent() ? ", which asks for user and password"
            : ", open to all on this machine")));
  }

  String bench() {
    return options.bench().orElse(EMBEDDED_BENCH);
  }

  BrokerAddress address() {
    return address;
  }

  ConnectionSettings settings(String role) {
    ConnectionSettings settings = options.settings(address, role);
    return embedded.isPresent() ? settings.withBrokerDrops(embedded.get()::dropped) : settings;
  }

  /**
   * The permit to publish; puts up the marker of an embedded broker.
   *
   * @throws CommandException if no bench is named, or its marker does not stand
   */
  BenchGuard guard(String role) {
    if (options.bench().isEmpty() && embedded.isEmpty()) {
      throw new CommandException("nothing is published without --bench NAME and a marker of that name on the broker;"
          + " see 'pawl help replay'");
    }
    embedded.ifPresent(broker -> EmbeddedMarker.putUp(broker, bench(), clock));
    BenchGuard guard = new BenchGuard(settings(role + "-guard"), bench(), clock, MARKER_PATIENCE);
    Optional<String> refusal = guard.refusal("");
    if (refusal.isPresent()) {
      guard.close();
      throw new CommandException(refusal.get());
    }
    return guard;
  }

  @Override
  public void close() {
    embedded.ifPresent(EmbeddedBroker::close);
  }
}
