package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import dev.pawl.mqtt.broker.EmbeddedBroker;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.client.Inbound;
import dev.pawl.mqtt.client.InboundQueue;
import dev.pawl.mqtt.client.ListeningConnection;
import dev.pawl.mqtt.guard.EmbeddedMarker;
import dev.pawl.mqtt.time.HarnessClock;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The commands that talk to a broker, each a process of its own, and what an interrupt or a termination leaves of them.
 */
class BrokerCommandsTest {

  private static final String RULES = """
      ride "Test stand"
      resolution 1 ms
      input  estop_chain  : bool
      input  start_button : bool
      output lift_run     : bool
      rule STOP-01 "E-stop stops the lift"
        severity critical
        basis practice
        when falls(estop_chain)
        must not lift_run within 100 ms
      """;
  private static final String LOGIC = """
      PROGRAM Lift
      VAR_INPUT
        estop_chain, start_button : BOOL;
      END_VAR
      VAR_OUTPUT
        lift_run : BOOL;
      END_VAR
      VAR
        started : R_TRIG;
        stop    : TON;
      END_VAR
        started(CLK := start_button);
        stop(IN := NOT estop_chain, PT := T#DELAY);
        IF started.Q THEN
          lift_run := TRUE;
        END_IF;
        IF stop.Q THEN
          lift_run := FALSE;
        END_IF;
      END_PROGRAM
      """;
  private static final int SECONDS = 60;

  @TempDir
  private Path folder;
  private final int port = freePort();

  private static int freePort() {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getByName("127.0.0.1"))) {
      return socket.getLocalPort();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private String path(String name) {
    return folder.resolve(name).toString();
  }

  private String broker() {
    return "mqtt://127.0.0.1:" + port;
  }

  /** A start and a stop in every second. */
  @BeforeEach
  void write() throws IOException {
    Files.writeString(folder.resolve("stand.rules"), RULES);
    Files.writeString(folder.resolve("right.st"), LOGIC.replace("DELAY", "50ms"));
    Files.writeString(folder.resolve("late.st"), LOGIC.replace("DELAY", "300ms"));
    StringBuilder trace = new StringBuilder("time_ms,signal,value\n0,estop_chain,1\n0,start_button,0\n");
    for (int second = 0; second < SECONDS; second++) {
      trace.append(second * 1000 + 100).append(",start_button,1\n").append(second * 1000 + 200)
          .append(",start_button,0\n")
          .append(second * 1000 + 400).append(",estop_chain,0\n").append(second * 1000 + 900)
              .append(",estop_chain,1\n");
    }
    Files.writeString(folder.resolve("day.csv"), trace);
  }

  private PawlProcess serve(String logic, String pace) throws Exception {
    PawlProcess serve = PawlProcess.start(folder, "serve", "--rules", path("stand.rules"), "--logic", path(logic),
        "--broker", "embedded:" + port, "--bench", "test", "--pace", pace, "--listen", "200ms");
    serve.awaitWords("pawl: serving");
    return serve;
  }

  private PawlProcess replay(String pace, String... more) throws IOException {
    String[] words = {"replay", "--rules", path("stand.rules"), "--broker", broker(), "--bench", "test", "--keep",
        path("kept.csv"), "--out", path("out"), "--pace", pace, "--listen", "200ms", path("day.csv")};
    String[] all = Arrays.copyOf(words, words.length + more.length);
    System.arraycopy(more, 0, all, words.length, more.length);
    return PawlProcess.start(folder, all);
  }

  private JsonNode report() throws IOException {
    return new ObjectMapper().readTree(folder.resolve("out/report.json").toFile());
  }

  @Test
  void aBenchIsServedAndReplayedToAndEndsOnRequest() throws Exception {
    try (PawlProcess serve = serve("late.st", "as-fast-as-possible")) {
      for (int round = 0; round < 2; round++) {
        try (PawlProcess replay = replay("as-fast-as-possible", round == 0 ? "--quiet" : "--replace")) {
          assertThat(replay.end()).as(replay.err()).isEqualTo(ExitStatus.RULE_BROKEN);
        }
        assertThat(report().get("partial").asBoolean()).isFalse();
        JsonNode rule = report().get("traces").get(0).get("rules").get(0);
        assertThat(rule.get("verdict").asText()).isEqualTo("broken");
        assertThat(rule.get("obligations").get("missed").asInt()).isEqualTo(SECONDS);
        assertThat(Run.of("check", "--quiet", "--rules", path("stand.rules"), path("kept.csv")).status())
            .isEqualTo(ExitStatus.RULE_BROKEN);
      }
      serve.signal("TERM");
      assertThat(serve.end()).isEqualTo(ExitStatus.NOTHING_BROKEN);
      assertThat(serve.err()).endsWith("pawl: serving ended on request\n");
    }
  }

  /**
   * The recorded lift stopped 50 ms after each stop. By a bench that stops it 250 ms later the chain's speed says
   * nothing.
   */
  @Test
  void recordedFeedbackCountsAsLongAsTheBenchDoesWhatWasRecorded() throws Exception {
    Files.writeString(folder.resolve("stand.rules"), RULES.replace("output lift_run", "input chain_speed : m/s\noutput lift_run") + """
        rule CHAIN-01 "E-stop stops the chain"
          severity critical
          basis practice
          when falls(estop_chain)
          must chain_speed < 0.1 m/s within 900 ms
        """);
    StringBuilder trace =
        new StringBuilder("time_ms,signal,value\n0,estop_chain,1\n0,start_button,0\n0,lift_run,0\n0,chain_speed,0\n");
    for (int second = 0; second < 5; second++) {
      trace.append("""
          S100,start_button,1
          S110,lift_run,1
          S200,start_button,0
          S300,chain_speed,2
          S400,estop_chain,0
          S450,lift_run,0
          S600,chain_speed,0
          S900,estop_chain,1
          """.replace("S", Integer.toString(second)));
    }
    Files.writeString(folder.resolve("day.csv"), trace);
    assertThat(chainVerdict("right.st", 1).get("verdict").asText()).isEqualTo("held");
    JsonNode late = chainVerdict("late.st", 2);
    assertThat(late.get("verdict").asText()).isEqualTo("undecided");
    assertThat(late.get("seen").get("departures").toString())
        .contains("\"output\":\"lift_run\"", "\"unknown\":[\"chain_speed\"]");

    Files.writeString(folder.resolve("day.csv"), trace.toString().lines().filter(row -> !row.contains("lift_run"))
        .collect(Collectors.joining("\n")));
    JsonNode unrecorded = chainVerdict("right.st", 3);
    assertThat(unrecorded.get("verdict").asText()).isEqualTo("not-exercised");
    assertThat(unrecorded.get("seen").get("unrecorded").toString()).isEqualTo("[\"lift_run\"]");
  }

  private JsonNode chainVerdict(String logic, int round) throws Exception {
    try (PawlProcess serve = serve(logic, "as-fast-as-possible");
        PawlProcess replay = replay("as-fast-as-possible", "--step", "10ms", round == 1 ? "--quiet" : "--replace")) {
      assertThat(replay.end()).as(replay.err()).isLessThan(2);
      serve.signal("TERM");
      serve.end();
    }
    return report().get("traces").get(0).get("rules").get(1);
  }

  @Test
  void anInterruptedReplayIsJudgedAsFarAsItCameAndSaysThatItIsPartial() throws Exception {
    try (PawlProcess serve = serve("right.st", "2x"); PawlProcess replay = replay("2x")) {
      replay.await(() -> lines("kept.csv.unfinished") > 20, "some of the replay is recorded");
      replay.signal("INT");
      replay.end();
      assertThat(replay.err()).contains("the replay ended before the trace did: stopped by request");
      assertThat(report().get("partial").asBoolean()).isTrue();
      assertThat(report().get("traces").get(0).get("partial").asBoolean()).isTrue();
      // On a busy machine the pace is kept so badly that all are borderline.
      JsonNode obligations = report().get("traces").get(0).get("rules").get(0).get("obligations");
      assertThat(obligations.get("met").asInt() + obligations.get("borderline").asInt()).isBetween(1, SECONDS - 1);
      // The recording does not say how badly the pace was kept, but the report does: by rules as wide as that it is
      // judged the same.
      JsonNode again = checkedWith(report().get("traces").get(0).get("rules").get(0).get("resolutionNs").asLong());
      assertThat(again.get("verdict")).isEqualTo(report().get("traces").get(0).get("rules").get(0).get("verdict"));
      assertThat(again.get("obligations")).isEqualTo(obligations);
      serve.signal("INT");
      assertThat(serve.end()).isEqualTo(ExitStatus.NOTHING_BROKEN);
    }
  }

  /** What a check of the recording, by rules of that resolution, says of the first rule. */
  private JsonNode checkedWith(long resolution) throws IOException {
    Files.writeString(folder.resolve("wide.rules"), RULES.replaceFirst("resolution \\d+ ms", "resolution " + resolution
        + " ns"));
    Run check = Run.of("check", "--format", "json", "--rules", path("wide.rules"), path("kept.csv"));
    assertThat(check.status()).as(check.err()).isEqualTo(ExitStatus.NOTHING_BROKEN);
    return new ObjectMapper().readTree(check.out()).get("traces").get(0).get("rules").get(0);
  }

  private long lines(String name) {
    try {
      return Files.exists(folder.resolve(name)) ? Files.readAllLines(folder.resolve(name)).size() : 0;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Test
  void aMarkerTakenDownEndsBothSidesAndLeavesAPartialReport() throws Exception {
    try (EmbeddedBroker broker = EmbeddedBroker.start(port)) {
      EmbeddedMarker.putUp(broker, "test", HarnessClock.started());
      try (PawlProcess serve = PawlProcess.start(folder, "serve", "--rules", path("stand.rules"), "--logic",
          path("right.st"), "--broker", broker(), "--bench", "test", "--pace", "2x", "--listen", "200ms")) {
        serve.awaitWords("pawl: serving");
        try (PawlProcess replay = replay("2x")) {
          replay.await(() -> lines("kept.csv.unfinished") > 20, "some of the replay is recorded");
          takeTheMarkerDown();
          assertThat(replay.end()).isEqualTo(ExitStatus.WRONG_INPUT);
          assertThat(replay.err()).contains("nothing is published: the bench marker was taken down");
          assertThat(report().get("partial").asBoolean()).isTrue();
          assertThat(serve.end()).isEqualTo(ExitStatus.WRONG_INPUT);
          assertThat(serve.err()).contains("nothing is published: the bench marker was taken down");
        }
      }
    }
  }

  private void takeTheMarkerDown() {
    send(new String[][] {{"pawl/bench", ""}}, true);
  }

  private void send(String[][] messages, boolean retain) {
    Feeder.send(port, messages, retain);
  }

  @Test
  void watchingEndsOnRequestWithItsVerdicts() throws Exception {
    try (PawlProcess watch = PawlProcess.start(folder, "watch", "--rules", path("stand.rules"), "--broker", "embedded:"
        + port, "--keep", path("watched.csv"))) {
      watch.awaitWords("pawl: listening to " + broker());
      send(new String[][] {{"ride/lift_run", "1"}, {"ride/estop_chain", "1"}, {"ride/estop_chain", "0"}}, false);
      watch.awaitWords("broken  STOP-01");
      watch.signal("INT");
      assertThat(watch.end()).isEqualTo(ExitStatus.RULE_BROKEN);
      assertThat(watch.out()).contains("3 messages, 3 events", "broken  STOP-01  E-stop stops the lift");
      assertThat(Run.of("check", "--quiet", "--rules", path("stand.rules"), path("watched.csv")).status())
          .isEqualTo(ExitStatus.RULE_BROKEN);
    }
  }

  /**
   * Two signals that are said once, of which one may be silent for no longer than 1 s, while a third one counts on.
   * What is kept has no more rows than the feed had messages: a check finds the same by the bindings.
   */
  @Test
  void aSignalThatIsSilentForTooLongBecomesUnknown() throws Exception {
    Files.writeString(folder.resolve("silent.rules"), """
        ride "Test stand"
        resolution 1 ms
        input counter : number
        input gate_shut, brake_shut : bool
        rule GATE-01 "The gate is shut" severity critical basis practice when changes(counter) must gate_shut
        rule BRAKE-01 "The brake is shut" severity critical basis practice when changes(counter) must brake_shut
        """);
    Files.writeString(folder.resolve("site.bindings"), "sampling\n  gate_shut silence 1 s\n");
    try (PawlProcess watch = PawlProcess.start(folder, "watch", "--rules", path("silent.rules"), "--bindings",
        path("site.bindings"), "--broker", "embedded:" + port, "--keep", path("watched.csv"))) {
      watch.awaitWords("pawl: listening to " + broker());
      send(new String[][] {{"ride/gate_shut", "1"}, {"ride/brake_shut", "1"}}, false);
      long deadline = System.nanoTime() + TimeUnit.SECONDS.toNanos(SECONDS);
      Feeder.count(port, "ride/counter", () -> watch.err().contains("undecided  GATE-01")
          || System.nanoTime() > deadline);
      watch.signal("INT");
      assertThat(watch.end()).isEqualTo(ExitStatus.NOTHING_BROKEN);
      assertThat(watch.out()).contains("undecided  GATE-01", "held  BRAKE-01");
      assertThat(watch.err()).contains("undecided  GATE-01  unknown").doesNotContain("BRAKE-01");
    }
    assertThat(Files.readAllLines(folder.resolve("watched.csv"))).filteredOn(row -> row.contains("gate_shut"))
        .hasSize(1);
    Run again = Run.of("check", "--quiet", "--rules", path("silent.rules"), "--bindings", path("site.bindings"),
        path("watched.csv"));
    assertThat(again.out()).contains("UNDECIDED  GATE-01").doesNotContain("UNDECIDED  BRAKE-01");
    Run believed = Run.of("check", "--quiet", "--rules", path("silent.rules"), path("watched.csv"));
    assertThat(believed.out()).doesNotContain("UNDECIDED");
  }

  /** Nothing ever comes of the gate: a rule that asks for it shut holds, and one that asks for it open is broken. */
  @Test
  void whatBindingsStateOfTheBeginningHoldsInALiveFeedToo() throws Exception {
    Files.writeString(folder.resolve("gate.rules"), """
        ride "Test stand"
        resolution 1 ms
        input counter : number
        input gate_shut, brake_shut : bool
        rule GATE-01 "The gate is shut" severity critical basis practice when changes(counter) must gate_shut
        rule GATE-02 "The gate is open" severity critical basis practice when changes(counter) must not gate_shut
        """);
    Files.writeString(folder.resolve("site.bindings"),
        "beginning\n  gate_shut  was true\n  brake_shut was other\n");
    try (PawlProcess watch = PawlProcess.start(folder, "watch", "--rules", path("gate.rules"), "--bindings",
        path("site.bindings"), "--broker", "embedded:" + port)) {
      watch.awaitWords("pawl: listening to " + broker());
      long deadline = System.nanoTime() + TimeUnit.SECONDS.toNanos(SECONDS);
      Feeder.count(port, "ride/counter", () -> watch.err().contains("broken  GATE-02")
          || System.nanoTime() > deadline);
      watch.signal("INT");
      assertThat(watch.end()).isEqualTo(ExitStatus.RULE_BROKEN);
      assertThat(watch.out()).contains("held  GATE-01", "broken  GATE-02",
          "1 x signal taken to have been so until something came of it, as the bindings state: gate_shut true",
          "first values that the bindings state to be changes are none in a live feed, where they may have been kept: "
              + "brake_shut");
    }
  }

  @Test
  void whatHasNotBeenHeardIsNamedAfterAWhileAndAtTheEnd() throws Exception {
    Files.writeString(folder.resolve("site.bindings"), """
        topics
          estop_chain  on "park/safety" json "/chain"
          start_button on "park/safety" json "/start"
          lift_run     on "park/drive"
        """);
    for (String command : List.of("watch", "record")) {
      try (EmbeddedBroker broker = EmbeddedBroker.start(port);
          PawlProcess watch = PawlProcess.start(folder, command, "--rules", path("stand.rules"), "--broker", broker(),
              "--bindings", path("site.bindings"), "--first-values", "400ms", "--keep", path(command + ".csv"))) {
        watch.awaitWords("pawl: after 400 ms: nothing has come at all: no message on park/safety, park/drive; look"
            + " whether the sender runs");
        send(new String[][] {{"park/safety", "{\"chain\": true}"}}, false);
        watch.awaitWords("pawl: messages come again, after ");
        watch.awaitWords("pawl: nothing has come for 400 ms, though the broker answers");
        watch.signal("INT");
        assertThat(watch.end()).isEqualTo(ExitStatus.NOTHING_BROKEN);
        assertThat(watch.out()).contains("""
            1 message, 1 event
            messages came on park/safety, but no value of start_button
            no message on park/drive, so no value of lift_run
            """);
      }
    }
  }

  @Test
  void theEndSaysWhatWouldTryTheRulesThatWereNotTried() throws Exception {
    // The messages come in less than a millisecond.
    Files.writeString(folder.resolve("stand.rules"), RULES.replace("resolution 1 ms", "resolution 1 us") + """
        rule STOP-02 "After a stop only a start runs the lift"
          severity critical
          basis practice
          when rises(lift_run)
          must not falls(estop_chain) since rises(start_button)
          tried by rises(estop_chain)
          tried by trigger
        """);
    try (PawlProcess watch = PawlProcess.start(folder, "watch", "--rules", path("stand.rules"), "--broker", "embedded:"
        + port, "--keep", path("watched.csv"))) {
      watch.awaitWords("pawl: listening to " + broker());
      send(new String[][] {{"ride/lift_run", "0"}, {"ride/estop_chain", "1"}, {"ride/start_button", "0"},
          {"ride/start_button", "1"}, {"ride/lift_run", "1"}, {"ride/estop_chain", "0"}, {"ride/lift_run", "0"}},
          false);
      watch.await(() -> lines("watched.csv") == 8, "all is recorded");
      watch.signal("INT");
      watch.end();
      assertThat(watch.out()).contains("""
          held  STOP-01  E-stop stops the lift
          not-exercised  STOP-02  After a stop only a start runs the lift
          Not tried yet: 1 of 2 rules. What would try each, done where it is ticked:
            STOP-02  After a stop only a start runs the lift
              [ ] estop_chain becomes true, at an instant at which it is not so that (estop_chain does not
                  become false without a break since start_button becomes true)
              [x] lift_run becomes true (once)
          """);
    }
  }

  /** Killed, not interrupted: nothing but the kept rows tells the next one what was open. */
  @Test
  void afterAKillWatchingGoesOnWithWhatWasOpenAndWhatWasBroken() throws Exception {
    Files.writeString(folder.resolve("stand.rules"), RULES + """
        rule START-01 "A start runs the lift"
          severity minor
          basis practice
          when rises(start_button)
          must lift_run within 10 min
        """);
    String[] command = {"watch", "--rules", path("stand.rules"), "--broker", broker(), "--append", "--keep",
        path("watched.csv"), "--verdicts", "told"};
    try (EmbeddedBroker broker = EmbeddedBroker.start(port)) {
      try (PawlProcess first = PawlProcess.start(folder, command)) {
        first.awaitWords("pawl: listening to " + broker());
        send(new String[][] {{"ride/start_button", "0"}, {"ride/lift_run", "1"}, {"ride/estop_chain", "1"},
            {"ride/estop_chain", "0"}}, false);
        first.awaitWords("broken  STOP-01");
        Feeder.send(port, new String[][] {{"ride/lift_run", "0"}}, true);
        Feeder.send(port, new String[][] {{"ride/start_button", "1"}}, true);
        first.await(() -> lines("watched.csv") >= 5, "something is recorded");
        first.await(() -> text("watched.csv").contains("start_button,1"), "the start is recorded");
        first.signal("KILL");
        first.end();
      }
      try (PawlProcess second = PawlProcess.start(folder, command)) {
        second.awaitWords("pawl: what was kept is judged again: 6 events and 1 finding, which is not told again");
        second.awaitWords("pawl: listening to " + broker());
        second.await(() -> text("watched.csv").lines().filter(row -> row.contains("lift_run,0")).count() == 2,
            "the broker has said again what it kept");
        Feeder.send(port, new String[][] {{"ride/estop_chain", "1"}}, false);
        Feeder.send(port, new String[][] {{"ride/lift_run", "1"}}, true);
        second.await(() -> text("watched.csv").lines().filter(row -> row.contains("lift_run,1")).count() == 2,
            "the answer is recorded");
        second.signal("INT");
        assertThat(second.end()).isEqualTo(ExitStatus.RULE_BROKEN);
        assertThat(second.err()).doesNotContain("broken  STOP-01");
        assertThat(second.out()).contains("broken  STOP-01  E-stop stops the lift\nheld  START-01  A start runs");
      }
    }
    Run check = Run.of("check", "--rules", path("stand.rules"), path("watched.csv"));
    assertThat(check.out()).contains("1 broken", "1 held");
  }

  private String text(String name) {
    try {
      return Files.readString(folder.resolve(name));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Test
  void verdictsGoUnderTheirPrefixOfABrokerOfTheirOwnAndTheFeedsGetsNothing() throws Exception {
    try (EmbeddedBroker feed = EmbeddedBroker.start(port); EmbeddedBroker other = EmbeddedBroker.start();
        PawlProcess watch = PawlProcess.start(folder, "watch", "--rules", path("stand.rules"), "--broker", broker(),
            "--verdicts", "told/here", "--verdicts-broker", other.address().toString())) {
      InboundQueue heard = new InboundQueue(100, HarnessClock.started());
      InboundQueue atFeed = new InboundQueue(100, HarnessClock.started());
      watch.awaitWords("pawl: listening to " + broker());
      assertThat(watch.err()).contains("pawl: findings are published under told/here of " + other.address());
      try (ListeningConnection ear = new ListeningConnection(ConnectionSettings.of(other.address(), "ear"),
          List.of("#"), heard);
          ListeningConnection feedEar = new ListeningConnection(ConnectionSettings.of(feed.address(), "ear"),
              List.of("#"), atFeed)) {
        send(new String[][] {{"ride/lift_run", "1"}, {"ride/estop_chain", "1"}, {"ride/estop_chain", "0"}}, false);
        watch.awaitWords("broken  STOP-01");
        assertThat(topics(heard, 1)).containsExactly("told/here/STOP-01");
        watch.signal("INT");
        assertThat(watch.end()).isEqualTo(ExitStatus.RULE_BROKEN);
        assertThat(topics(atFeed, 3)).containsExactly("ride/lift_run", "ride/estop_chain", "ride/estop_chain");
        assertThat(atFeed.take(0)).isNull();
      }
    }
  }

  @Test
  void anEmbeddedBrokerOfWatchAndRecordHasNoMarkerAndLetsNobodyPublish() throws Exception {
    for (String command : List.of("watch", "record")) {
      try (PawlProcess listening = PawlProcess.start(folder, command, "--rules", path("stand.rules"), "--broker",
          "embedded:" + port, "--keep", path(command + ".csv"))) {
        listening.awaitWords("pawl: listening to " + broker());
        Run serve = Run.of("serve", "--rules", path("stand.rules"), "--logic", path("right.st"), "--broker", broker(),
            "--bench", "embedded");
        assertThat(serve.status()).isEqualTo(ExitStatus.WRONG_INPUT);
        assertThat(serve.err()).contains("nothing is published: no bench marker 'embedded' stands on pawl/bench");
        listening.signal("TERM");
        listening.end();
      }
    }
  }

  private void keepSecret(String name, String text) throws IOException {
    Files.setPosixFilePermissions(Files.writeString(folder.resolve(name), text),
        PosixFilePermissions.fromString("rw-------"));
  }

  @Test
  void anEmbeddedBrokerWithCredentialsLetsInOnlyWhoStatesThem() throws Exception {
    keepSecret("right.txt", "user bench\npassword secret\n");
    keepSecret("wrong.txt", "user bench\npassword secreT\n");
    keepSecret("other.txt", "user ride\npassword secret\n");
    try (PawlProcess serve = PawlProcess.start(folder, "serve", "--rules", path("stand.rules"), "--logic",
        path("right.st"), "--broker", "embedded:" + port, "--bench", "test", "--listen", "200ms", "--credentials",
        path("right.txt"))) {
      serve.awaitWords("pawl: serving");
      for (String file : List.of("wrong.txt", "other.txt")) {
        Run refused = listenShortly("--credentials", path(file));
        assertThat(refused.status()).as(file).isEqualTo(ExitStatus.WRONG_INPUT);
        assertThat(refused.err()).contains("cannot connect to " + broker()).doesNotContain("secret");
      }
      assertThat(listenShortly().status()).as("no password").isEqualTo(ExitStatus.WRONG_INPUT);
      assertThat(listenShortly("--credentials", path("right.txt")).status()).isEqualTo(ExitStatus.NOTHING_BROKEN);
    }
  }

  private Run listenShortly(String... more) {
    List<String> words = new ArrayList<>(List.of("watch", "--rules", path("stand.rules"), "--broker", broker(), "--for",
        "100ms"));
    words.addAll(List.of(more));
    return Run.of(words.toArray(String[]::new));
  }

  /** Topics of the first so many messages. */
  private static List<String> topics(InboundQueue heard, int count) throws InterruptedException {
    List<String> topics = new ArrayList<>();
    while (topics.size() < count) {
      Inbound item = heard.take(20, TimeUnit.SECONDS);
      assertThat(item).as("after " + topics).isNotNull();
      if (item instanceof Inbound.Message message) {
        topics.add(message.topic());
      }
    }
    return topics;
  }

  @Test
  void verdictsThatCouldReachASignalOrABenchAreRefusedBeforeAnythingIsSent() {
    for (String prefix : List.of("ride", "ride/lift_run", "ride/lift_run/x", "pawl/bench", "pawl", "bench", "$SYS",
        "spBv1.0/a")) {
      Run watch = Run.of("watch", "--rules", path("stand.rules"), "--broker", "embedded", "--for", "1ms", "--verdicts",
          prefix);
      assertThat(watch.status()).as(prefix).isEqualTo(ExitStatus.WRONG_INPUT);
      assertThat(watch.err()).contains("pawl: ").contains("'" + prefix + "'").doesNotContain("listening to");
    }
  }

  @Test
  void whatIsForAnEncryptedConnectionIsRefusedForOneInTheClear() throws IOException {
    keepSecret("file.pem", "no certificate");
    for (String option : List.of("--ca", "--certificate", "--key")) {
      for (String clear : List.of("mqtt://127.0.0.1:" + port, "embedded:" + port)) {
        Run watch = Run.of("watch", "--rules", path("stand.rules"), "--broker", clear, option, path("file.pem"));
        assertThat(watch.status()).isEqualTo(ExitStatus.WRONG_INPUT);
        assertThat(watch.err()).isEqualTo("pawl: --ca, --certificate and --key are for an encrypted connection, and '"
            + clear
            + "' is none; write mqtts://HOST:PORT, or leave them out\n");
      }
    }
  }

  @Test
  void recordingEndsOnRequestWithAWholeTrace() throws Exception {
    try (PawlProcess record = PawlProcess.start(folder, "record", "--rules", path("stand.rules"), "--broker",
        "embedded:" + port, "--keep", path("recorded.csv"))) {
      record.awaitWords("pawl: listening to " + broker());
      send(new String[][] {{"ride/lift_run", "0"}, {"ride/estop_chain", "1"}, {"ride/estop_chain", "0"}}, false);
      record.await(() -> lines("recorded.csv") == 4, "all is recorded");
      record.signal("TERM");
      assertThat(record.end()).isEqualTo(ExitStatus.NOTHING_BROKEN);
      assertThat(record.out()).contains("3 messages, 3 events");
      Run check = Run.of("check", "--quiet", "--rules", path("stand.rules"), path("recorded.csv"));
      assertThat(check.status()).as(check.out()).isEqualTo(ExitStatus.NOTHING_BROKEN);
    }
  }

  @Test
  void withoutAMarkerNothingIsServedOrReplayed() throws Exception {
    try (EmbeddedBroker broker = EmbeddedBroker.start(port)) {
      Run serve = Run.of("serve", "--rules", path("stand.rules"), "--logic", path("right.st"), "--broker", broker(),
          "--bench", "test");
      assertThat(serve.status()).isEqualTo(ExitStatus.WRONG_INPUT);
      assertThat(serve.err()).contains("pawl: nothing is published: no bench marker 'test' stands on pawl/bench of "
          + broker.address());
      Run replay = Run.of("replay", "--rules", path("stand.rules"), "--broker", broker(), "--keep", path("kept.csv"),
          path("day.csv"));
      assertThat(replay.status()).isEqualTo(ExitStatus.WRONG_INPUT);
      assertThat(replay.err()).contains("nothing is published without --bench NAME");
    }
  }
}
