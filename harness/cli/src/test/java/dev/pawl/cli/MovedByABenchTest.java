package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Trains that move as a bench behind a broker commands: each side is a process of its own. */
class MovedByABenchTest {

  private static final String RIDE = "../../fixtures/fallow-loop/";
  private static final String RULES = RIDE + "fallow-loop.rules";
  private static final String LIBRARY = "../../rules";
  private static final String LOGIC = RIDE + "logic/fallow-loop.st";
  /** Messages from one cabinet are lost while a train is on its way, so that rules are broken. */
  private static final String SCENARIO = "lasts 50 s\nat 1 s mode = automatic\nat 4 s press reset_button\n"
      + "at 6 s press start_button\nat 20 s do dispatch\nat 30 s fault approach_flag silent\n"
      + "at 47 s estop_chain = false\n";

  @TempDir
  private Path folder;

  private String path(String name) {
    return folder.resolve(name).toString();
  }

  private static int freePort() throws IOException {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getByName("127.0.0.1"))) {
      return socket.getLocalPort();
    }
  }

  private PawlProcess serve(int port, String pace) throws Exception {
    PawlProcess serve = PawlProcess.start(folder, "serve", "--rules", RULES, "--use-from", LIBRARY, "--logic", LOGIC,
        "--broker", "embedded:" + port, "--bench", "test", "--pace", pace, "--listen", "200ms");
    serve.awaitWords("pawl: serving");
    return serve;
  }

  private PawlProcess replay(int port, String bench, String pace, String scenario) throws IOException {
    return PawlProcess.start(folder, "replay", "-q", "--format", "json", "--rules", RULES, "--use-from",
        LIBRARY, "--ride", RIDE + "fallow-loop.ride", "--broker", "mqtt://127.0.0.1:" + port, "--bench", bench, "--pace", pace,
        "--listen", "200ms", "--keep", path(pace + ".csv"), path(scenario));
  }

  private static JsonNode trace(String json) throws IOException {
    return new ObjectMapper().readTree(json).get("traces").get(0);
  }

  private static Map<String, String> verdicts(JsonNode trace) {
    Map<String, String> verdicts = new TreeMap<>();
    trace.get("rules").forEach(rule -> verdicts.put(rule.get("id").asText(), rule.get("verdict").asText()));
    return verdicts;
  }

  private JsonNode inProcess(String scenario) throws IOException {
    Run run = Run.of("replay", "-q", "--format", "json", "--rules", RULES, "--logic", LOGIC, "--ride", RIDE
        + "fallow-loop.ride", "--keep", path("alone.csv"), path(scenario));
    assertThat(run.status()).as(run.err()).isEqualTo(ExitStatus.RULE_BROKEN);
    return trace(run.out());
  }

  /** Step by step it is the same ride to the last event. */
  @Test
  void stepByStepTheTraceIsThatOfTheLoopInOneProcess() throws Exception {
    Files.writeString(folder.resolve("lost.scenario"), SCENARIO);
    Files.writeString(folder.resolve("cut.scenario"), SCENARIO + "at 40 s cut power for 1 s warm\n");
    JsonNode alone = inProcess("lost.scenario");
    int port = freePort();
    try (PawlProcess serve = serve(port, "as-fast-as-possible")) {
      try (PawlProcess replay = replay(port, "test", "as-fast-as-possible", "lost.scenario")) {
        assertThat(replay.end()).as(replay.err()).isEqualTo(ExitStatus.RULE_BROKEN);
        JsonNode moved = trace(replay.out());
        assertThat(Files.readString(folder.resolve("as-fast-as-possible.csv"))).isEqualTo(Files.readString(folder
            .resolve("alone.csv")));
        assertThat(verdicts(moved)).containsValues("broken", "held").isEqualTo(verdicts(alone));
        assertThat(moved.get("truth")).isEqualTo(alone.get("truth"));
      }
      try (PawlProcess cut = replay(port, "test", "1x", "cut.scenario")) {
        assertThat(cut.end()).isEqualTo(ExitStatus.WRONG_INPUT);
        assertThat(cut.err()).contains(
            "cut: this scenario cuts the controller's power, which nobody can do over a broker");
      }
      try (PawlProcess another = replay(port, "another", "1x", "lost.scenario")) {
        assertThat(another.end()).isEqualTo(ExitStatus.WRONG_INPUT);
        assertThat(another.err()).contains("nothing is published");
        assertThat(folder.resolve("1x.csv")).doesNotExist();
      }
    }
  }

  /** In real time outputs come late, by what the report says of its clock; no rule is decided the other way by that. */
  @Test
  void inRealTimeNoVerdictContradictsThatOfTheLoopInOneProcess() throws Exception {
    Files.writeString(folder.resolve("lost.scenario"), SCENARIO.replace("50 s", "32 s").replace("47 s", "31 s"));
    Map<String, String> alone = verdicts(trace(Run.of("replay", "-q", "--format", "json", "--rules", RULES, "--logic",
        LOGIC, "--ride", RIDE + "fallow-loop.ride", path("lost.scenario")).out()));
    int port = freePort();
    try (PawlProcess serve = serve(port, "2x"); PawlProcess replay = replay(port, "test", "2x", "lost.scenario")) {
      assertThat(replay.end()).as(replay.err()).isLessThan(ExitStatus.WRONG_INPUT);
      JsonNode moved = trace(replay.out());
      List<String> decided = new ArrayList<>();
      verdicts(moved).forEach((rule, verdict) -> {
        if (List.of("held", "broken").contains(verdict)) {
          decided.add(rule + " " + verdict);
        }
      });
      assertThat(decided).isNotEmpty().allMatch(it -> !Arrays.asList("held", "broken").contains(alone.get(it.split(
          " ")[0])) || alone.get(it.split(" ")[0]).equals(it.split(" ")[1]));
      assertThat(moved.toString()).contains("inputs sent, ");
    }
  }
}
