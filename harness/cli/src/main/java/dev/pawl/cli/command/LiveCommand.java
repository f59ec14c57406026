package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.ExitStatus;
import dev.pawl.cli.keep.KeptFeed;
import dev.pawl.cli.option.BrokerOptions;
import dev.pawl.cli.option.Meaning;
import dev.pawl.cli.option.Operands;
import dev.pawl.cli.option.Option;
import dev.pawl.cli.option.ReadingOptions;
import dev.pawl.cli.option.ReplayOptions;
import dev.pawl.cli.option.RuleOptions;
import dev.pawl.cli.option.RunInputs;
import dev.pawl.cli.option.Syntax;
import dev.pawl.cli.option.TimeSpan;
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
import dev.pawl.report.text.ExerciseText;
import dev.pawl.run.files.BindingsFiles;
import dev.pawl.run.files.FileTrouble;
import dev.pawl.run.live.LiveOutcome;
import dev.pawl.run.live.LiveSession;
import dev.pawl.trace.bindings.Bindings;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import picocli.CommandLine.ParseResult;

/**
 * {@code pawl watch} and {@code pawl record}: a live feed, judged as it comes or kept for later. Both only listen;
 * findings go by a connection apart.
 */
public final class LiveCommand implements Command {

  private static final int GREATEST_PORT = 65_535;

  private static final Option<Optional<String>> KEEP = ReplayOptions.KEEP.withHelp(
      "Keep the feed as a CSV trace, in a file that is not there yet.");
  private static final Option<Boolean> APPEND = Option.flag("Continue the recording in the file of --keep, if it is"
      + " there. Its last whole row stays, what is torn behind it is cut off, and from its end on each signal is"
      + " unknown until its next value.", "--append");
  private static final Option<Optional<Duration>> FOR = Option.text("TIME", "End after this time.", "--for")
      .as(TimeSpan::optional);
  private static final Option<Optional<Duration>> WINDOW = Option.text("TIME",
      "How long to wait for what comes out of order, where messages state times; usual is 200ms.", "--window")
      .as(TimeSpan::optional);
  private static final Option<Optional<Duration>> FIRST_VALUES = Option.text("TIME",
      "How long the first values may take; usual is 10s. Then it is said which topics had no message and which signals"
          + " no value, and from then on whenever nothing comes for as long.", "--first-values")
      .as(TimeSpan::optional);
  private static final Option<Optional<String>> VERDICTS = Option.text("PREFIX",
      "Publish findings under this topic, by a connection of its own; to the feed's broker, unless --verdicts-broker"
          + " names another. Not above, below or at a topic of a signal, of a bench, of Sparkplug, or one that begins"
          + " with $.", "--verdicts");
  private static final Option<Optional<String>> VERDICTS_BROKER = Option.text("URL",
      "The broker that --verdicts publishes to, so that nothing at all goes to the feed's: mqtt://HOST:PORT or"
          + " mqtts://HOST:PORT.", "--verdicts-broker");
  private static final Option<Optional<String>> VERDICTS_CREDENTIALS = Option.text("FILE",
      "User and password for --verdicts-broker, which is never given those of the feed's.", "--verdicts-credentials");
  private static final Option<Optional<Integer>> PAGE = Option.text("PORT",
      "Show a live page on this port of loopback; 0 takes a free one.", "--page").as(LiveCommand::port);

  private static final List<Option<?>> BOTH = Syntax.all(
      List.of(RuleOptions.RULES, RuleOptions.USE_FROM, BrokerOptions.bindings(TopicBindings.RIDE_PREFIX)),
      BrokerOptions.LISTENING, List.of(KEEP, APPEND, FOR, WINDOW, FIRST_VALUES));
  private static final List<Option<?>> OF_WATCH = List.of(VERDICTS, VERDICTS_BROKER, VERDICTS_CREDENTIALS, PAGE);

  private final boolean judges;

  /** The command that judges, or the one that only keeps. */
  LiveCommand(boolean judges) {
    this.judges = judges;
  }

  @Override
  public Syntax syntax() {
    return Syntax.of(judges ? Syntax.all(BOTH, OF_WATCH) : BOTH,
        Operands.any("RULES", "Rule files (*.rules), as with --rules."),
        judges ? "Judges a live feed. It only listens: findings go to the terminal and, where asked for, to a page."
            + " Only with --verdicts is anything published, and then each finding as JSON on PREFIX/RULE or"
            + " PREFIX/zone/ZONE, and 'gone' on PREFIX/state should this program vanish; nothing else, and nothing"
            + " anywhere else."
            : "Keeps a live feed as a trace that 'pawl check' reads. It only listens, and publishes nothing.",
        "Ends when interrupted, or after --for. Exit status: 0 nothing broken, 1 a rule broken, 2 wrong input or"
            + " command.");
  }

  @Override
  public List<Caution> cautions() {
    return Caution.OF_LISTENING;
  }

  @Override
  public int run(ParseResult words, Console console) {
    RuleOptions named = RuleOptions.alone(words);
    Optional<String> keep = KEEP.of(words);
    if (!judges && keep.isEmpty()) {
      throw new CommandException("no file: say with --keep where to record to");
    }
    boolean append = APPEND.of(words);
    if (append && keep.isEmpty()) {
      throw new CommandException("--append: say with --keep which recording is continued");
    }
    RuleBook book = named.load(console).book();
    Optional<String> bindings = ReadingOptions.BINDINGS.of(words);
    TopicBindings topics = BrokerOptions.topics(bindings, book, TopicBindings.RIDE_PREFIX, console);
    RunInputs.of(words).refuse(keep);
    requireSoundVerdicts(words, topics);
    HarnessClock clock = HarnessClock.started();
    try (KeptFeed kept = keep.map(file -> KeptFeed.of(file, append, book, console)).orElse(null);
        BrokerSession session = new BrokerSession(BrokerOptions.of(words, console), clock, console)) {
      Bindings stated = bindings.map(file -> BindingsFiles.load(file, book).bindings()).orElse(Bindings.NONE);
      Feed feed = new Feed(book, topics, stated, session, clock);
      return listen(words, feed, Optional.ofNullable(kept), console);
    } catch (ConnectionTrouble e) {
      throw new CommandException(e.getMessage());
    } catch (IOException e) {
      throw new CommandException(FileTrouble.message("the page", e));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return ExitStatus.WRONG_INPUT;
    }
  }

  /** The feed: what it is made of, and where it comes from. */
  private record Feed(RuleBook book, TopicBindings topics, Bindings stated, BrokerSession session,
      HarnessClock clock) {}

  /** Refused before anything is connected. */
  private static void requireSoundVerdicts(ParseResult words, TopicBindings topics) {
    try {
      VERDICTS.of(words).ifPresent(prefix -> VerdictTopics.under(prefix, topics));
    } catch (ConnectionTrouble e) {
      throw new CommandException(e.getMessage());
    }
  }

  private int listen(ParseResult words, Feed feed, Optional<KeptFeed> kept, Console console)
      throws IOException, InterruptedException {
    Optional<Recording> recording = kept.map(KeptFeed::recording);
    LiveOptions usual = LiveOptions.DEFAULT;
    LiveOptions options = usual.withWindow(WINDOW.of(words).orElse(usual.window()))
        .withPatience(FIRST_VALUES.of(words).orElse(usual.patience()));
    console.interruption().isTheUsualEnd();
    BooleanSupplier stop = stop(words, console, feed.clock());
    LiveSession live = new LiveSession(feed.book(), feed.topics(), options, feed.clock());
    live.take(feed.stated().sampling());
    live.take(feed.stated().beginning());
    kept.ifPresent(rows -> live.goOnAfter(rows::tell));
    live.tellNews(news -> console.err().println("pawl: " + news));
    LiveLines lines = new LiveLines(feed.book(), console);
    live.tellFindings(lines);
    live.tellSettled(lines::flush);
    Optional<LivePage> page = page(words, live, feed.book(), console);
    Optional<VerdictPublisher> publisher = publisher(words, feed, console);
    publisher.ifPresent(live::tellFindings);
    try {
      ConnectionSettings settings = feed.session().settings("watch");
      LiveOutcome outcome = judges ? live.watch(settings, recording, stop)
          : live.record(settings, recording.orElseThrow(), stop);
      lines.flush();
      int status = said(outcome, console);
      console.remind(cautions());
      return status;
    } finally {
      publisher.ifPresent(telling -> close(telling, console));
      page.ifPresent(LivePage::close);
      recording.ifPresent(Recording::close);
    }
  }

  private static Optional<VerdictPublisher> publisher(ParseResult words, Feed feed, Console console) {
    Optional<String> prefix = VERDICTS.of(words);
    Optional<String> other = VERDICTS_BROKER.of(words);
    Optional<String> credentials = VERDICTS_CREDENTIALS.of(words);
    if (prefix.isEmpty() && other.isPresent()) {
      throw new CommandException("--verdicts-broker: say with --verdicts under which topic the verdicts go there");
    }
    if (other.isEmpty() && credentials.isPresent()) {
      throw new CommandException("--verdicts-credentials: they are for --verdicts-broker, which is not given");
    }
    if (prefix.isEmpty()) {
      return Optional.empty();
    }
    VerdictTopics under = VerdictTopics.under(prefix.get(), feed.topics());
    ConnectionSettings own = feed.session().settings("verdicts");
    ConnectionSettings settings = other.map(url -> ConnectionSettings.of(BrokerAddress.parse(url), own.clientId())
        .withTls(own.tls())
        .withCredentials(credentials.map(file -> Credentials.fromFile(Path.of(file))))).orElse(own);
    VerdictPublisher publisher = new VerdictPublisher(feed.book(), under, settings, feed.clock());
    console.err().println("pawl: findings are published under " + under.prefix() + " of " + settings.address());
    return Optional.of(publisher);
  }

  private static Optional<LivePage> page(ParseResult words, LiveSession live, RuleBook book, Console console)
      throws IOException {
    Optional<Integer> port = PAGE.of(words);
    if (port.isEmpty()) {
      return Optional.empty();
    }
    LiveBoard board = new LiveBoard(book);
    LivePage page = new LivePage(port.get(), board);
    live.drawOn(board);
    console.err().println("pawl: live page at " + page.address());
    return Optional.of(page);
  }

  private static Optional<Integer> port(String option, Optional<String> word) {
    return word.isEmpty() ? Optional.empty() : Optional.of(Meaning.number(0, 0, GREATEST_PORT).of(option, word));
  }

  private static BooleanSupplier stop(ParseResult words, Console console, HarnessClock clock) {
    long end = FOR.of(words).map(limit -> clock.now() + limit.toNanos()).orElse(Long.MAX_VALUE);
    return () -> console.interruption().isRequested() || clock.now() >= end;
  }

  private static void close(VerdictPublisher publisher, Console console) {
    publisher.close();
    if (publisher.untold() > 0) {
      console.err().println("pawl: findings not published, because the broker took none: " + publisher.untold());
    }
  }

  private static String counted(long count, String what) {
    return count + " " + what + (count == 1 ? "" : "s");
  }

  private int said(LiveOutcome outcome, Console console) {
    console.out().println(counted(outcome.messages(), "message") + ", " + counted(outcome.events(), "event"));
    outcome.remarks().forEach(console.out()::println);
    if (outcome.recordingFailure().isPresent()) {
      console.err().println("pawl: recording ended early: " + outcome.recordingFailure().get());
      return ExitStatus.WRONG_INPUT;
    }
    outcome.verdicts().forEach(each -> console.out().println(each.label() + "  " + each.rule().id() + "  "
        + each.rule().title()));
    if (!outcome.exercises().isEmpty()) {
      console.out().print(ExerciseText.of(outcome.exercises(), console.style()));
    }
    return outcome.isBroken() ? ExitStatus.RULE_BROKEN : ExitStatus.NOTHING_BROKEN;
  }
}
