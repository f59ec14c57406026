package dev.pawl.cli.option;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.engine.Caution;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.DiagnosticRenderer;
import dev.pawl.grammar.source.Source;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.BrokerAddress;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.client.Credentials;
import dev.pawl.mqtt.client.TlsSettings;
import dev.pawl.mqtt.guard.BenchGuard;
import dev.pawl.run.files.RuleFiles;
import dev.pawl.trace.bindings.BindingsFile;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.ParseResult;

/**
 * Which broker, and who to be there.
 *
 * @param address where it is; empty for the embedded one
 * @param embeddedPort port of the embedded one; 0 for a free one
 * @param bench name of the bench that the broker's marker must bear
 * @param credentials user and password
 * @param tls whom to trust
 * @param largestMessage most bytes taken in one message
 */
public record BrokerOptions(Optional<BrokerAddress> address, int embeddedPort, Optional<String> bench,
    Optional<Credentials> credentials, TlsSettings tls, int largestMessage) {

  private static final String EMBEDDED = "embedded";
  private static final Duration LEAST_LISTENING = Duration.ofMillis(200);
  private static final String USUAL_LISTENING = "3s";
  private static final int MOST_MEBIBYTES = 64;

  public static final Option<Optional<String>> BROKER = Option.text("URL",
      "The broker: mqtt://HOST:PORT, mqtts://HOST:PORT, or embedded (embedded:PORT) for one in this process, on"
          + " loopback.", "--broker");
  static final Option<Optional<String>> CREDENTIALS = Option.text("FILE",
      "User and password: a line 'user NAME' and a line 'password SECRET'. Or set " + Credentials.USER_VARIABLE
          + " and " + Credentials.PASSWORD_VARIABLE + ". An embedded broker asks its clients for them.",
      "--credentials");
  static final Option<Optional<String>> CA = Option.text("FILE",
      "Certificates (PEM) of the authorities to trust instead of the machine's own.", "--ca");
  static final Option<Optional<String>> CERTIFICATE = Option.text("FILE",
      "Certificate (PEM) to show to the broker.", "--certificate");
  static final Option<Optional<String>> KEY = Option.text("FILE", "Its private key (PEM, PKCS #8).", "--key");
  private static final Option<Integer> LARGEST_MESSAGE = Option.text("MIB",
      "Largest message taken, in MiB; usual is 1. A larger one ends the connection: a gap, with all unknown.",
      "--largest-message").as(Meaning.number(1, 1, MOST_MEBIBYTES));
  private static final Option<Optional<String>> BENCH = Option.text("NAME",
      "The bench: nothing is published unless a person has put up its marker on the broker. " + Caution.INJECTION.text()
          + " On a bench's own broker: " + BenchGuard.COMMAND + ". An embedded broker is given one.", "--bench");

  /** For how long to listen before the first message. */
  public static final Option<Duration> LISTEN = Option.text("TIME",
      "Listen so long before the first message; usual is " + USUAL_LISTENING + ". Nothing is sent if anybody else"
          + " publishes to a topic of this run, or the broker has kept a message there; and the run ends as soon as"
          + " somebody does later.", "--listen").as(BrokerOptions::listening)
      .usually(USUAL_LISTENING);

  /** The options of a command that only listens. */
  public static final List<Option<?>> LISTENING = List.of(BROKER, CREDENTIALS, CA, CERTIFICATE, KEY, LARGEST_MESSAGE);

  /** The options of a command that publishes. */
  public static final List<Option<?>> PUBLISHING = Syntax.all(LISTENING, List.of(BENCH, LISTEN));

  private static Duration listening(String option, Optional<String> word) {
    String text = word.orElse(USUAL_LISTENING);
    Duration listening = TimeSpan.of(option, text);
    if (listening.compareTo(LEAST_LISTENING) < 0) {
      throw new CommandException(option + ": '" + text + "' is too short to hear anybody; listen for at least 200ms");
    }
    return listening;
  }

  /** Says that listening begins. */
  public static void sayListening(Duration listening, Console console) {
    console.err().println("pawl: listening for " + listening.toMillis()
        + " ms whether anybody else publishes to the topics of this run");
  }

  /** Reads the options out of the words. */
  public static BrokerOptions of(ParseResult words, Console console) {
    String broker = BROKER.of(words).orElse(EMBEDDED);
    Optional<Credentials> credentials = CREDENTIALS.of(words).map(file -> Credentials.fromFile(Path.of(file)))
        .or(() -> Credentials.fromEnvironment(console.environment()));
    TlsSettings tls = new TlsSettings(CA.of(words).map(Path::of), CERTIFICATE.of(words).map(Path::of),
        KEY.of(words).map(Path::of));
    boolean embedded = broker.equals(EMBEDDED) || broker.matches(EMBEDDED + ":[0-9]{1,5}");
    int port = embedded && broker.length() > EMBEDDED.length()
        ? Integer.parseInt(broker.substring(EMBEDDED.length() + 1)) : 0;
    Optional<BrokerAddress> address = embedded ? Optional.empty() : Optional.of(BrokerAddress.parse(broker));
    if (tls.isStated() && !address.map(BrokerAddress::secure).orElse(false)) {
      throw new CommandException("--ca, --certificate and --key are for an encrypted connection, and '" + broker
          + "' is none; write mqtts://HOST:PORT, or leave them out");
    }
    int largest = LARGEST_MESSAGE.of(words) * ConnectionSettings.MEBIBYTE;
    return new BrokerOptions(address, port, BENCH.of(words), credentials, tls, largest);
  }

  public ConnectionSettings settings(BrokerAddress where, String role) {
    String id = "pawl-" + role + "-" + ProcessHandle.current().pid();
    return ConnectionSettings.of(where, id).withCredentials(credentials).withTls(tls).withLargestPacket(largestMessage);
  }

  /** The option that says the places of signals; without it they are under this prefix. */
  public static Option<Optional<String>> bindings(String prefix) {
    return ReadingOptions.BINDINGS.withHelp("Bindings: which topic is which signal; without it, signal NAME is on topic"
        + " " + prefix + "/NAME.");
  }

  /**
   * The places of signals: those of the bindings file, or topics named after the signals, under a prefix, where it
   * states none.
   */
  public static TopicBindings topics(Optional<String> file, RuleBook book, String prefix, Console console) {
    if (file.isEmpty()) {
      return TopicBindings.byName(book, prefix);
    }
    Source source = RuleFiles.read(Path.of(file.get()));
    TopicBindings.Resolved resolved = TopicBindings.resolve(BindingsFile.parse(source), book);
    console.err().print(new DiagnosticRenderer(List.of(source)).render(resolved.diagnostics()));
    if (resolved.hasErrors()) {
      throw new CommandException("the bindings have errors, nothing was done");
    }
    return resolved.bindings().list().isEmpty() ? TopicBindings.byName(book, prefix) : resolved.bindings();
  }
}
