package dev.pawl.cli;

import dev.pawl.engine.Caution;
import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.EventSink;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.BrokerAddress;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.client.ConnectionTrouble;
import dev.pawl.mqtt.client.Credentials;
import dev.pawl.mqtt.evidence.DoubtedVerdict;
import dev.pawl.mqtt.feed.Recording;
import dev.pawl.mqtt.feed.SenderClocks;
import dev.pawl.mqtt.live.LiveOptions;
import dev.pawl.mqtt.live.LiveResult;
import dev.pawl.mqtt.live.LiveRun;
import dev.pawl.mqtt.live.VerdictPublisher;
import dev.pawl.mqtt.live.VerdictTopics;
import dev.pawl.mqtt.live.Watching;
import dev.pawl.mqtt.page.LiveBoard;
import dev.pawl.mqtt.page.LivePage;
import dev.pawl.mqtt.replay.Widening;
import dev.pawl.mqtt.time.HarnessClock;
import dev.pawl.report.model.Reading;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code pawl watch} and {@code pawl record}: a live feed, judged as it comes or kept for later. Both only listen; findings go by a connection apart. */
final class LiveCommand implements Command {

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
        ? "Judges a live feed. It only listens: findings go to the terminal and, where asked for, to a page. Only with --verdicts is anything"
            + " published, and then each finding as JSON on PREFIX/RULE or PREFIX/zone/ZONE, and 'gone' on PREFIX/state should this program"
            + " vanish; nothing else, and nothing anywhere else."
        : "Keeps a live feed as a trace that 'pawl check' reads. It only listens, and publishes nothing.",
        "Ends when interrupted, or after --for. Exit status: 0 nothing broken, 1 a rule broken, 2 wrong input or command.");
    BrokerOptions.addTo(spec);
    spec.addOption(CheckOptions.text("FILE", "Keep the feed as a CSV trace, in a file that is not there yet.", "--keep"));
    spec.addOption(CheckOptions.flag("Continue the recording in the file of --keep, if it is there. Its last whole row stays, what is torn behind"
        + " it is cut off, and from its end on each signal is unknown until its next value.", "--append"));
    spec.addOption(CheckOptions.text("TIME", "End after this time.", "--for"));
    spec.addOption(CheckOptions.text("TIME", "How long to wait for what comes out of order, where messages state times; usual is 200ms.",
        "--window"));
    if (judges) {
      spec.addOption(CheckOptions.text("PREFIX", "Publish findings under this topic, by a connection of its own; to the feed's broker, unless"
          + " --verdicts-broker names another. Not above, below or at a topic of a signal, of a bench, of Sparkplug, or one that begins with $.",
          "--verdicts"));
      spec.addOption(CheckOptions.text("URL", "The broker that --verdicts publishes to, so that nothing at all goes to the feed's:"
          + " mqtt://HOST:PORT or mqtts://HOST:PORT.", "--verdicts-broker"));
      spec.addOption(CheckOptions.text("FILE", "User and password for --verdicts-broker, which is never given those of the feed's.",
          "--verdicts-credentials"));
      spec.addOption(CheckOptions.text("PORT", "Show a live page on this port of loopback; 0 takes a free one.", "--page"));
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
    RuleFiles rules = RuleFiles.load(check.rules(), check.usable(), console);
    TopicBindings topics = BrokerOptions.topics(check.bindings(), rules.book(), TopicBindings.RIDE_PREFIX, console);
    RunInputs.of(words).refuse(keep);
    requireSoundVerdicts(words, topics);
    HarnessClock clock = HarnessClock.started();
    try (KeptFeed kept = keep.map(file -> KeptFeed.of(file, append, rules.book(), console)).orElse(null);
        BrokerSession session = new BrokerSession(BrokerOptions.of(words, console), clock, console)) {
      return listen(words, console, rules, topics, Optional.ofNullable(kept).map(KeptFeed::recording), session, clock);
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

  private int listen(ParseResult words, Console console, RuleFiles rules, TopicBindings topics, Optional<Recording> recording,
      BrokerSession session, HarnessClock clock) throws IOException, InterruptedException {
    LiveOptions options = LiveOptions.DEFAULT;
    Optional<String> window = CheckOptions.value(words, "--window");
    if (window.isPresent()) {
      options = options.withWindow(Duration.ofNanos(Durations.of("--window", window.get())));
    }
    console.interruption().isTheUsualEnd();
    BooleanSupplier stop = stop(words, console, clock);
    Watching watching = new Watching();
    watching.tell(news -> console.err().println("pawl: " + news));
    LiveBoard board = new LiveBoard(rules.book());
    watching.add(new LiveLines(rules.book(), console));
    watching.add(board);
    Optional<VerdictPublisher> publisher = judges ? publisher(words, console, rules, topics, session, clock) : Optional.empty();
    publisher.ifPresent(watching::add);
    Optional<LivePage> page = page(words, board, console);
    SenderClocks clocks = new SenderClocks(topics, options.window());
    RuleEngine engine = new RuleEngine(Widening.of(rules.book(), clocks), new EngineOptions(true, Integer.MAX_VALUE), watching);
    LiveRun run = new LiveRun(rules.book(), topics, options, judges ? engine : new Unjudged(), recording, !judges, watching, clock);
    watching.show(board, engine, run, clock);
    try {
      LiveResult result = run.run(session.settings("watch"), stop);
      return close(result, clocks, engine, rules, console);
    } finally {
      publisher.ifPresent(telling -> close(telling, console));
      page.ifPresent(LivePage::close);
      recording.ifPresent(Recording::close);
    }
  }

  private static Optional<VerdictPublisher> publisher(ParseResult words, Console console, RuleFiles rules, TopicBindings topics,
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
    ConnectionSettings settings = other.map(url -> ConnectionSettings.of(BrokerAddress.parse(url), feed.clientId()).withTls(feed.tls())
        .withCredentials(credentials.map(file -> Credentials.fromFile(Path.of(file))))).orElse(feed);
    VerdictPublisher publisher = new VerdictPublisher(rules.book(), under, settings, clock);
    console.err().println("pawl: findings are published under " + under.prefix() + " of " + settings.address());
    return Optional.of(publisher);
  }

  private Optional<LivePage> page(ParseResult words, LiveBoard board, Console console) throws IOException {
    if (!judges || CheckOptions.value(words, "--page").isEmpty()) {
      return Optional.empty();
    }
    LivePage page = new LivePage(CheckOptions.number(words, "--page", 0, 0, 65535), board);
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

  private int close(LiveResult result, SenderClocks clocks, RuleEngine engine, RuleFiles rules, Console console) {
    int status = said(result, clocks, engine, rules, console);
    console.remind(cautions());
    return status;
  }

  private int said(LiveResult result, SenderClocks clocks, RuleEngine engine, RuleFiles rules, Console console) {
    console.out().println(result.messages() + " messages, " + result.events() + " events");
    List<String> signals = rules.book().signals().stream().map(Signal::name).toList();
    result.clocks().forEach(clock -> console.out().println(EvidenceWords.clock(clock, signals)));
    List<String> mixed = rules.book().rules().stream().filter(rule -> clocks.uncertainty(RuleParts.signals(rule, rules.book())) > 0)
        .map(Rule::id).toList();
    if (!mixed.isEmpty()) {
      console.out().println(EvidenceWords.mixed(clocks.window(), mixed, judges));
    }
    for (Reading.Counter counter : EvidenceWords.counters(result.evidence(), signals)) {
      console.out().println(counter.count() + " x " + counter.label());
    }
    if (result.recordingFailure().isPresent()) {
      console.err().println("pawl: recording ended early: " + result.recordingFailure().get());
      return ExitStatus.WRONG_INPUT;
    }
    if (!judges) {
      return ExitStatus.NOTHING_BROKEN;
    }
    TraceOutcome outcome = result.events() == 0 ? engine.finish() : engine.finish(result.end());
    outcome.rules().forEach(rule -> console.out().println(DoubtedVerdict.of(rule, rules.book(), result.evidence()).label() + "  " + rules.book().rules().get(rule.rule()).id() + "  "
        + rules.book().rules().get(rule.rule()).title()));
    return outcome.rules().stream().anyMatch(rule -> rule.verdict() == Verdict.BROKEN) ? ExitStatus.RULE_BROKEN : ExitStatus.NOTHING_BROKEN;
  }

  /** A feed that is only kept. */
  private static final class Unjudged implements EventSink {

    @Override
    public void event(long time, int signal, long value, long line) {
      // The recording has it already.
    }

    @Override
    public void advanceTo(long time) {
      // Time alone is nothing to keep.
    }
  }
}
