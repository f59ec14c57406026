package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.cli.command.Commands;
import dev.pawl.engine.Caution;
import dev.pawl.mqtt.broker.EmbeddedBroker;
import dev.pawl.mqtt.guard.BenchGuard;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.FieldSource;

/**
 * Cautions stand where a hand is about to move: in every help, in every output that judges, and before every command
 * for a marker.
 */
class CautionsTest {

  private static final List<String> NAMES = Stream.of(Commands.values()).map(Commands::word).toList();

  @TempDir
  private Path folder;

  @BeforeEach
  void write() throws IOException {
    Files.writeString(folder.resolve("a.rules"), """
        ride "R"
        resolution 1 ms
        input  a : bool
        output b : bool
        rule A-01 "b follows a"
          severity critical
          basis practice
          when rises(a)
          must b within 1 s
        example "it does" for A-01 gives held
          at 0 s a = false, b = false
          at 1 s a = true, b = true
          end at 3 s
        """);
    Files.writeString(folder.resolve("a.st"), """
        PROGRAM P
        VAR_INPUT a : BOOL; END_VAR
        VAR_OUTPUT b : BOOL; END_VAR
        b := a;
        END_PROGRAM
        """);
    Files.writeString(folder.resolve("a.csv"), "time_ms,signal,value\n0,a,0\n0,b,0\n100,a,1\n200,b,1\n2000,a,0\n");
  }

  private String path(String name) {
    return folder.resolve(name).toString();
  }

  private static String said(String text) {
    return text.replaceAll("\\s+", " ");
  }

  private static void requireAll(String text, List<Caution> cautions, String where) {
    assertThat(cautions).as(where).allSatisfy(caution -> assertThat(said(text)).contains(caution.text()));
  }

  private static List<Caution> due(String command) {
    return switch (command) {
      case "replay", "serve" -> Caution.OF_PUBLISHING;
      case "watch", "record" -> Caution.OF_LISTENING;
      default -> Caution.OF_VERDICTS;
    };
  }

  @ParameterizedTest
  @FieldSource("NAMES")
  void theHelpOfEveryCommandSaysThem(String command) {
    requireAll(Run.of("help", command).out(), due(command), command);
  }

  @Test
  void theOverviewSaysAll() {
    requireAll(Run.of("--help").out(), List.of(Caution.values()), "overview");
  }

  @Test
  void everyHelpThatShowsTheMarkersCommandSaysJustBeforeItNeverToInject() {
    for (String command : List.of("replay", "serve")) {
      String help = said(Run.of("help", command).out());
      assertThat(help.substring(0, help.indexOf(BenchGuard.COMMAND))).as(command)
          .endsWith(Caution.INJECTION.text() + " On a bench's own broker: ");
    }
  }

  @Test
  void everyOutputThatJudgesSaysThem() throws IOException {
    String[] check = {"check", "--rules", path("a.rules"), path("a.csv")};
    String[] replay = {"replay", "--rules", path("a.rules"), "--logic", path("a.st"), path("a.csv")};
    String[] compare = {"compare", "--rules", path("a.rules"), "--logic", path("a.st"), "--logic", path("a.st"),
        path("a.csv")};
    for (String[] words : List.of(check, replay, compare, and(check, "--format", "json"),
        and(replay, "--format", "json"), and(compare, "--format", "json"),
        new String[] {"explain", path("a.rules"), path("a.csv")}, new String[] {"examples", path("a.rules")},
        and(check, "--quiet"))) {
      Run run = Run.of(words);
      assertThat(run.status()).as(run.err()).isEqualTo(ExitStatus.NOTHING_BROKEN);
      requireAll(run.out(), Caution.OF_VERDICTS, String.join(" ", words));
    }
    Run.of(and(check, "--out", path("out")));
    for (String file : List.of("report.json", "report.html", "rules.html", "junit.xml")) {
      requireAll(Files.readString(folder.resolve("out").resolve(file)).replace("&#39;", "'").replace("&apos;", "'"),
          Caution.OF_VERDICTS, file);
    }
  }

  private static String[] and(String[] words, String... more) {
    return Stream.concat(Arrays.stream(words), Arrays.stream(more)).toArray(String[]::new);
  }

  @Test
  void watchingAndRecordingEndWithThem() {
    for (String command : List.of("watch", "record")) {
      Run run = Run.of(command, path("a.rules"), "--broker", "embedded", "--for", "10ms", "--keep",
          path(command + ".csv"));
      assertThat(run.status()).as(run.err()).isEqualTo(ExitStatus.NOTHING_BROKEN);
      requireAll(run.out(), Caution.OF_LISTENING, command);
      assertThat(run.out()).endsWith(Caution.PROTECTION.text() + "\n");
    }
  }

  @Test
  void publishingBeginsWithThemAndSoDoesTheCommandForAMissingMarker() {
    try (EmbeddedBroker broker = EmbeddedBroker.start()) {
      String where = broker.address().toString();
      for (String[] words : List.of(
          new String[] {"serve", "--rules", path("a.rules"), "--logic", path("a.st"), "--broker", where, "--bench",
              "x"},
          new String[] {"replay", "--rules", path("a.rules"), "--broker", where, "--bench", "x", "--keep",
              path("k.csv"), path("a.csv")})) {
        Run run = Run.of(words);
        assertThat(run.status()).isEqualTo(ExitStatus.WRONG_INPUT);
        assertThat(run.err()).startsWith("pawl: " + Caution.INJECTION.text() + "\npawl: " + Caution.PROTECTION.text()
            + "\n")
            .contains(Caution.INJECTION.text() + " On a bench's own broker a person puts the marker up with: "
                + BenchGuard.COMMAND);
      }
    }
  }

  /** So that they are the same everywhere, each stands in one source only, where it may go on in the next line. */
  @Test
  void eachIsWrittenOnceInTheCode() throws IOException {
    List<String> sources = new ArrayList<>();
    try (Stream<Path> files = Files.walk(Path.of(".."))) {
      for (Path file : files.filter(file -> file.toString().matches(".*/src/main/.*\\.(java|html|js)")).toList()) {
        sources.add(Files.readString(file).replaceAll("\"\\s*\\+ \"", ""));
      }
    }
    assertThat(sources).hasSizeGreaterThan(100);
    for (Caution caution : Caution.values()) {
      String words = caution.text().substring(0, caution.text().length() - 1).toLowerCase();
      assertThat(sources.stream().filter(source -> source.toLowerCase().contains(words))).as(caution.text()).hasSize(1);
    }
  }
}
