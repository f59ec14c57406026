package dev.pawl.fleet.manifest;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.pawl.run.RunException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a manifest says, and what is said of one that is wrong. */
class ManifestReaderTest {

  @TempDir
  private Path folder;

  private Manifest read(String text) throws IOException {
    Files.writeString(folder.resolve("fleet.csv"), text);
    return ManifestReader.read(folder.resolve("fleet.csv"));
  }

  private String path(String name) {
    return folder.resolve(name).toString();
  }

  @Test
  void setsAndSessionsInTheirOrder() throws IOException {
    Files.createDirectories(folder.resolve("logs/deep"));
    for (String name : List.of("logs/b.csv", "logs/a.csv.gz", "logs/deep/c.vcd", "logs/notes.txt")) {
      Files.createFile(folder.resolve(name));
    }
    Manifest manifest = read("""
        ride,rules,bindings,session,day,traces
        one,one.rules; lib/stops.rules,one.bindings,"a, the first",2026-05-01,x.csv
        two,two.rules,,,2026-06,logs
        one,changed.rules,one.bindings,,,/elsewhere/y.csv
        one,one.rules; lib/stops.rules,one.bindings,second,,p.csv;q.csv
        """);
    assertThat(manifest.sets()).extracting(Manifest.RuleSet::name).containsExactly("one", "two", "one.2");
    Manifest.RuleSet one = manifest.sets().get(0);
    assertThat(one.rules()).containsExactly(path("one.rules"), path("lib/stops.rules"));
    assertThat(one.bindings()).contains(path("one.bindings"));
    assertThat(one.sessions()).containsExactly(
        new Manifest.Recorded("a, the first", Optional.of("2026-05-01"), List.of(path("x.csv"))),
        new Manifest.Recorded("second", Optional.empty(), List.of(path("p.csv"), path("q.csv"))));
    assertThat(manifest.sets().get(1).sessions()).extracting(Manifest.Recorded::name).containsExactly(path(
        "logs/a.csv.gz"), path("logs/b.csv"), path("logs/deep/c.vcd"));
    assertThat(manifest.sets().get(2).sessions().get(0).files()).containsExactly("/elsewhere/y.csv");
    assertThat(manifest.size()).isEqualTo(6);
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', value = {
      "ride,rules,trace\\na,b,c | :1: 'trace' is no column of a manifest; did you mean 'traces'?",
      "ride,rules\\na,b | :1: the column 'traces' is missing",
      "ride,rules,traces\\n../a,b,c | :2: '../a' cannot be the name of a ride here: it becomes the name of a folder;"
          + " write letters, digits, - and _",
      "ride,rules,traces\\na,,c | :2: the column 'rules' is empty",
      "ride,rules,day,traces\\na,b,2026-02-30,c | :2: '2026-02-30' is no day; write YYYY-MM-DD, or YYYY-MM for a month",
      "ride,rules,day,traces\\na,b,2026-13,c | :2: '2026-13' is no day; write YYYY-MM-DD, or YYYY-MM for a month",
      "ride,rules,session,traces\\na,b,s,c\\na,b,s,d | :3: the session 's' of a stands here twice",
      "ride,rules,session,traces\\na,b,s,s3://k/c;s3://k/d | s3://k/c: cannot be looked at",
      "ride,rules,traces\\na,b,s3://me:secret@k/c | :2: an address holds keys, which would get into results; they"
          + " belong into Flink's settings (FLINK_CONF_DIR)",
      "ride,rules,traces | : this manifest names no session; it needs a row of columns"
          + " (ride,rules,bindings,session,day,traces) and a row for each session"})
  void whatIsWrongIsSaidWithItsPlace(String text, String message) {
    assertThatThrownBy(() -> read(text.replace("\\n", "\n") + "\n")).isInstanceOf(RunException.class)
        .satisfies(problem -> assertThat(((RunException) problem).summary()).contains(message));
  }

  @Test
  void aManifestThatIsNotThere() {
    assertThatThrownBy(() -> ManifestReader.read(folder.resolve("none.csv"))).isInstanceOf(RunException.class)
        .satisfies(problem -> assertThat(((RunException) problem).summary()).endsWith(
            "none.csv: no such file or folder"));
  }
}
