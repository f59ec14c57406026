package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.ExitStatus;
import dev.pawl.cli.keep.KeptFeed;
import dev.pawl.cli.option.BrokerOptions;
import dev.pawl.cli.option.CheckOptions;
import dev.pawl.cli.option.Durations;
import dev.pawl.cli.option.RuleOptions;
import dev.pawl.cli.option.RunInputs;
import dev.pawl.cli.output.LiveLines;
import dev.pawl.engine.Caution;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.BrokerAddress;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.client.ConnectionTrouble;
import dev.pawl.mqtt.client.Credentials;
import dev.pawl.mqtt.feed.Recording;
import dev.pawl.mqtt.live.LiveOptions;
import dev.pawl.mqtt.live.VerdictPublisher;
import dev.pawl.mqtt.live.VerdictTopics;
import dev.pawl.mqtt.page.LiveBoard;
import dev.pawl.mqtt.page.LivePage;
import dev.pawl.mqtt.time.HarnessClock;
import dev.pawl.run.files.BindingsFiles;
import dev.pawl.run.files.FileTrouble;
import dev.pawl.run.files.RuleFiles;
import dev.pawl.run.live.LiveOutcome;
import dev.pawl.run.live.LiveSession;
import dev.pawl.trace.sampling.StatedSampling;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/**
 * {@code pawl watch} and {@code pawl record}: a live feed, judged as it comes or kept for later. Both only listen;
 * findings go by a connection apart.
 */
public final class LiveCommand implements Command {

  private final boolean judges;

  /** The command that judges, or the one that only keeps. */
  LiveCommand(boolean judges) {
    this.judges = judges;
  }

  private String name() {
    return judges ? "pawl watch" : "pawl record";
  }

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CheckOptions.rulesSpec(name(), TopicBindings.RIDE_PREFIX);
    spec.usageMessage().description(judges
        ? "Judges a live feed. It only listens: findings go to the terminal and, where asked for, to a page. Only with"
            + " --verdicts is anything"
            + " published, and then each finding as JSON on PREFIX/RULE or PREFIX/zone/ZONE, and 'gone' on"
                + " PREFIX/state should this program"
            + " vanish; nothing else, and nothing anywhere else."
        : "Keeps a live feed as a trace that 'pawl check' reads. It only listens, and publishes nothing.",
        "Ends when interrupted, or after --for. Exit status: 0 nothing broken, 1 a rule broken, 2 wrong input or"
            + " command.");
    BrokerOptions.addTo(spec);
    spec.addOption(CheckOptions.text("FILE", "Keep the feed as a CSV trace, in a file that is not there yet.",
        "--keep"));
    spec.addOption(CheckOptions.flag("Continue the recording in the file of --keep, if it is there. Its last whole row"
        + " stays, what is torn behind"
        + " it is cut off, and from its end on each signal is unknown until its next value.", "--append"));
    spec.addOption(CheckOptions.text("TIME", "End after this time.", "--for"));
    spec.addOption(CheckOptions.text("TIME",
        "How long to wait for what comes out of order, where messages state times; usual is 200ms.",
        "--window"));
    if (judges) {
      spec.addOption(CheckOptions.text("PREFIX",
          "Publish findings under this topic, by a connection of its own; to the feed's broker, unless"
          + " --verdicts-broker names another. Not above, below or at a topic of a signal, of a bench, of Sparkplug,"
              + " or one that begins with $.",
          "--verdicts"));
      spec.addOption(CheckOptions.text("URL",
          "The broker that --verdicts publishes to, so that nothing at all goes to the feed's:"
          + " mqtt://HOST:PORT or mqtts://HOST:PORT.", "--verdicts-broker"));
      spec.addOption(CheckOptions.text("FILE",
          "User and password for --verdicts-broker, which is never given those of the feed's.",
          "--verdicts-credentials"));
      spec.addOption(CheckOptions.text("PORT", "Show a live page on this port of loopback; 0 takes a free one.",
          "--page"));
    }
    return spec;
  }

  @Override
  public List<Caution> cautions() {
    return Caution.OF_LISTENING;
  }

  @Override
  public int run(ParseResult words, Console console) {
    CheckOptions check = CheckOptions.rulesOnly(words, name());
    Optional<String> keep = CheckOptions.value(words, "--keep");
    if (!judges && keep.isEmpty()) {
      throw new CommandException("no file: say with --keep where to record to");
    }
    boolean append = words.hasMatchedOption("--append");
    if (append && keep.isEmpty()) {
      throw new CommandException("--append: say with --keep which recording is continued");
    }
    RuleFiles rules = RuleOptions.load(check.rules(), check.usable(), console);
    TopicBindings topics = BrokerOptions.topics(check.bindings(), rules.book(), TopicBindings.RIDE_PREFIX, console);
    RunInputs.of(words).refuse(keep);
    requireSoundVerdicts(words, topics);
    HarnessClock clock = HarnessClock.started();
    try (KeptFeed kept = keep.map(file -> KeptFeed.of(file, append, rules.book(), console)).orElse(null);
        BrokerSession session = new BrokerSession(BrokerOptions.of(words, console), clock, console)) {
      StatedSampling sampling = check.bindings().map(file -> BindingsFiles.load(file, rules.book()).bindings().sampling())
          .orElse(StatedSampling.NONE);
      return listen(words, console, rules, topics, sampling, Optional.ofNullable(kept).map(KeptFeed::recording), session, clock);
    } catch (ConnectionTrouble e) {
      throw new CommandException(e.getMessage());
    } catch (IOException e) {
      throw new CommandException(FileTrouble.message("the page", e));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return ExitStatus.WRONG_INPUT;
    }
  }

  /** Refused before anything is connected. */
  private static void requireSoundVerdicts(ParseResult words, TopicBindings topics) {
    try {
      CheckOptions.value(words, "--verdicts").ifPresent(prefix -> VerdictTopics.under(prefix, topics));
    } catch (ConnectionTrouble e) {
      throw new CommandException(e.getMessage());
    }
  }

  private int listen(ParseResult words, Console console, RuleFiles rules, TopicBindings topics, StatedSampling sampling,
      Optional<Recording> recording, BrokerSession session, HarnessClock clock) throws IOException, InterruptedException {
    LiveOptions options = LiveOptions.DEFAULT;
    Optional<String> window = CheckOptions.value(words, "--window");
    if (window.isPresent()) {
      options = options.withWindow(Duration.ofNanos(Durations.of("--window", window.get())));
    }
    console.interruption().isTheUsualEnd();
    BooleanSupplier stop = stop(words, console, clock);
    LiveSession live = new LiveSession(rules.book(), topics, options, clock);
    live.take(sampling);
    live.tellNews(news -> console.err().println("pawl: " + news));
    live.tellFindings(new LiveLines(rules.book(), console));
    Optional<LivePage> page = page(words, live, rules.book(), console);
    Optional<VerdictPublisher> publisher = judges ? publisher(words, console, rules, topics, session, clock)
        : Optional.empty();
    publisher.ifPresent(live::tellFindings);
    try {
      ConnectionSettings settings = session.settings("watch");
      LiveOutcome outcome = judges ? live.watch(settings, recording, stop)
          : live.record(settings, recording.orElseThrow(), stop);
      int status = said(outcome, console);
      console.remind(cautions());
      return status;
    } finally {
      publisher.ifPresent(telling -> close(telling, console));
      page.ifPresent(LivePage::close);
      recording.ifPresent(Recording::close);
    }
  }

  private static Optional<VerdictPublisher> publisher(ParseResult words, Console console, RuleFiles rules,
      TopicBindings topics,
      BrokerSession session, HarnessClock clock) {
    Optional<String> prefix = CheckOptions.value(words, "--verdicts");
    Optional<String> other = CheckOptions.value(words, "--verdicts-broker");
    Optional<String> credentials = CheckOptions.value(words, "--verdicts-credentials");
    if (prefix.isEmpty() && other.isPresent()) {
      throw new CommandException("--verdicts-broker: say with --verdicts under which topic the verdicts go there");
    }
    if (other.isEmpty() && credentials.isPresent()) {
      throw new CommandException("--verdicts-credentials: they are for --verdicts-broker, which is not given");
    }
    if (prefix.isEmpty()) {
      return Optional.empty();
    }
    VerdictTopics under = VerdictTopics.under(prefix.get(), topics);
    ConnectionSettings feed = session.settings("verdicts");
    ConnectionSettings settings = other.map(url -> ConnectionSettings.of(BrokerAddress.parse(url), feed.clientId())
        .withTls(feed.tls())
        .withCredentials(credentials.map(file -> Credentials.fromFile(Path.of(file))))).orElse(feed);
    VerdictPublisher publisher = new VerdictPublisher(rules.book(), under, settings, clock);
    console.err().println("pawl: findings are published under " + under.prefix() + " of " + settings.address());
    return Optional.of(publisher);
  }

  private Optional<LivePage> page(ParseResult words, LiveSession live, RuleBook book, Console console)
      throws IOException {
    if (!judges || CheckOptions.value(words, "--page").isEmpty()) {
      return Optional.empty();
    }
    LiveBoard board = new LiveBoard(book);
    LivePage page = new LivePage(CheckOptions.number(words, "--page", 0, 0, 65535), board);
    live.drawOn(board);
    console.err().println("pawl: live page at " + page.address());
    return Optional.of(page);
  }

  private static BooleanSupplier stop(ParseResult words, Console console, HarnessClock clock) {
    Optional<String> limit = CheckOptions.value(words, "--for");
    long end = limit.map(text -> clock.now() + Durations.of("--for", text)).orElse(Long.MAX_VALUE);
    return () -> console.interruption().isRequested() || clock.now() >= end;
  }

  private static void close(VerdictPublisher publisher, Console console) {
    publisher.close();
    if (publisher.untold() > 0) {
      console.err().println("pawl: findings not published, because the broker took none: " + publisher.untold());
    }
  }

  private int said(LiveOutcome outcome, Console console) {
    console.out().println(outcome.messages() + " messages, " + outcome.events() + " events");
    outcome.remarks().forEach(console.out()::println);
    if (outcome.recordingFailure().isPresent()) {
      console.err().println("pawl: recording ended early: " + outcome.recordingFailure().get());
      return ExitStatus.WRONG_INPUT;
    }
    outcome.verdicts().forEach(each -> console.out().println(each.label() + "  " + each.rule().id() + "  "
        + each.rule().title()));
    return outcome.isBroken() ? ExitStatus.RULE_BROKEN : ExitStatus.NOTHING_BROKEN;
  }
}
