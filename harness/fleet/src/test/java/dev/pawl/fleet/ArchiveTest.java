package dev.pawl.fleet;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.cli.Interruption;
import dev.pawl.fleet.SmallArchive.Said;
import dev.pawl.fleet.archive.Archive;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.StringJoiner;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** An archive judged by many slots is to the byte what {@code pawl check} says of its sessions. */
class ArchiveTest {

  @TempDir
  private Path folder;
  private SmallArchive archive;

  @BeforeEach
  void write() throws Exception {
    archive = SmallArchive.in(folder);
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 8})
  void reportsAreThoseOfACheck(int slots) throws Exception {
    Said said = archive.fleet("out", "--slots", "" + slots);
    assertThat(said.err()).isEmpty();
    assertThat(said.status()).isEqualTo(2);
    archive.hasReportsOfChecksIn("out");
    assertThat(folder.resolve("out/work")).doesNotExist();
    assertThat(Files.readString(folder.resolve("out/sessions.csv"))).contains("unreadable");
  }

  /** What the tables say, asked of another program that reads them: DuckDB works the trends and outliers out again. */
  @Test
  void tablesCanBeQueried() throws Exception {
    archive.fleet("out", "--slots", "2");
    try (Connection duck = DriverManager.getConnection("jdbc:duckdb:"); Statement ask = duck.createStatement()) {
      for (String table : List.of("sessions", "months", "trends", "firsts", "outliers")) {
        ask.execute("create table " + table + " as select * from read_csv('" + folder.resolve("out/" + table + ".csv")
            + "', header = true)");
      }
      assertThat(rows(ask, "select ride, rule, count(*), count(distinct session) from sessions group by all order by"
          + " all")).containsExactly("ratchet GATE-01 24 24", "ratchet STOP-01 24 24", "sprocket GATE-01 5 5",
              "sprocket STOP-01 5 5");
      assertThat(rows(ask, "select verdict, count(*) from sessions where rule = 'STOP-01' group by all order by all"))
          .containsExactly("broken 3", "held 25", "unreadable 1");
      assertThat(rows(ask, "select session, failure from sessions where verdict = 'unreadable' and rule = 'STOP-01'"))
          .singleElement().asString().contains("sprocket/2.csv").contains("nothing of it was judged");

      String pairs = "select a.ride, a.rule, median((b.margin - a.margin) / date_diff('day', a.day::date, b.day::date))"
          + " slope from sessions a join sessions b on a.ride = b.ride and a.rule = b.rule and a.day::date <"
          + " b.day::date where a.margin is not null and b.margin is not null group by all";
      assertThat(rows(ask, "select t.ride, t.rule, abs(t.margin_a_day - p.slope) < 1e-12, t.high < 0 from trends t join"
          + " (" + pairs + ") p on t.ride = p.ride and t.rule = p.rule")).containsExactly("ratchet STOP-01 true true");

      String spread = "select ride, rule, median(margin) mid, mad(margin) mad from sessions group by all";
      List<String> far = rows(ask, "select s.session from sessions s join (" + spread + ") p on s.ride = p.ride and"
          + " s.rule = p.rule where 0.6745 * (p.mid - s.margin) / p.mad > 3.5 order by s.session");
      assertThat(far).isNotEmpty();
      assertThat(rows(ask, "select session from outliers order by session")).isEqualTo(far);

      assertThat(rows(ask, "select rule, verdict, session, day, sessions_before from firsts")).containsExactly(
          "STOP-01 broken day 21 2026-06-14 21");
      assertThat(rows(ask, "select month, sessions, held, broken from months where ride = 'ratchet' and rule ="
          + " 'STOP-01' order by month")).isEqualTo(rows(ask, "select strftime(day::date, '%Y-%m') m, count(*),"
              + " sum((verdict = 'held')::int), sum((verdict = 'broken')::int) from sessions where ride = 'ratchet'"
              + " and rule = 'STOP-01' group by m order by m"));
    }
    assertThat(folder.resolve("out/summary.txt")).content().contains("29 sessions",
        "ratchet, STOP-01: 0.0180 s less every 30 days", "first broken in day 21 on 2026-06-14, after 21 sessions",
        "Sessions that could not be judged (sessions.csv): 1", "sprocket/0.csv");
  }

  /** How traces are read is said as to a check, and comes to the same. */
  @Test
  void tracesAreReadAsTheOptionsSay() throws Exception {
    String bad = "time,signal,value\n0,stop_pressed,0\n0,gate_open,0\n0,lift_run,1\n1,stop_pressed,perhaps\n"
        + "5,stop_pressed,1\n6,lift_run,0\n";
    Files.writeString(folder.resolve("sprocket/2.csv"), bad);
    Files.writeString(archive.manifest(), "ride,rules,traces\nsprocket,sprocket.rules,sprocket/2.csv\n");
    archive.fleet("strict", "--slots", "1");
    assertThat(folder.resolve("strict/sessions.csv")).content().contains("unreadable");
    Said said = archive.fleet("out", "--slots", "1", "--lenient", "--time-unit", "s");
    assertThat(said.out()).contains("sprocket: 1 sessions", "0 could not be judged");
    assertThat(folder.resolve("out/reports/sprocket/report.json")).hasBinaryContent(archive.checked("sprocket", List.of(
        "sprocket/2.csv"), "--lenient", "--time-unit", "s"));
    assertThat(archive.fleet("out", "--time-unit", "weeks").err()).contains("--time-unit: 'weeks' is not known");
  }

  /** Traces by addresses come through the file systems of Flink; the one that needs nothing else is that of files. */
  @Test
  void tracesByAddresses() throws Exception {
    String address = folder.resolve("sprocket").toUri().toString();
    Files.writeString(archive.manifest(), "ride,rules,traces\nsprocket,sprocket.rules," + address + "\n");
    archive.fleet("out", "--slots", "2");
    String check = new String(archive.checked("sprocket", List.of("sprocket")), StandardCharsets.UTF_8);
    assertThat(folder.resolve("out/reports/sprocket/report.json")).hasContent(check.replace("\"" + folder
        + "/sprocket/", "\"file:" + folder + "/sprocket/"));
  }

  /** A command that is interrupted keeps what was judged; the same goes on from there, and judges anew what changed. */
  @Test
  void anInterruptedCommandGoesOn() throws Exception {
    archive.enlarge(120, 150_000);
    List<String> words = List.of("fleet", "archive", archive.manifest().toString(), "--out", folder.resolve("out")
        .toString(), "--slots", "1", "--checkpoint", "1");
    Interruption interruption = new Interruption();
    CompletableFuture<Said> first = CompletableFuture.supplyAsync(() -> SmallArchive.pawl(words, interruption));
    Path work = folder.resolve("out/work");
    Awaitility.await().atMost(900, TimeUnit.SECONDS).until(() -> first.isDone() || Archive.lines(work).size() > 29);
    interruption.request();
    assertThat(first.get().err()).contains("the fleet did not come to its end: it was interrupted; what was done is"
        + " kept, and the same command goes on from there");
    int kept = Archive.lines(work).size();
    assertThat(kept).isBetween(30, 148);

    // It was kept as held, and must not be taken over.
    Files.writeString(folder.resolve("ratchet/1.csv"), SmallArchive.trace(4000));
    Said second = SmallArchive.pawl(words);
    // One that was written to since, and at most one that could not be judged.
    assertThat(second.err()).containsPattern("pawl: (" + (kept - 1) + "|" + (kept - 2) + ") of 149 sessions were judged"
        + " before");
    assertThat(second.out()).contains("ratchet: 144 sessions, 140 held, 4 broken");
    Said afresh = archive.fleet("afresh", "--slots", "2");
    assertThat(second.out()).isEqualTo(afresh.out());
    assertThat(folder.resolve("out/sessions.csv")).hasSameBinaryContentAs(folder.resolve("afresh/sessions.csv"));
    assertThat(folder.resolve("out/reports/ratchet/report.json")).hasSameBinaryContentAs(folder.resolve(
        "afresh/reports/ratchet/report.json"));
  }

  @Test
  void whatIsNotTheFleetsStays() throws Exception {
    Files.createDirectories(folder.resolve("out"));
    Files.writeString(folder.resolve("out/thesis.txt"), "mine");
    Said said = archive.fleet("out");
    assertThat(said.status()).isEqualTo(2);
    assertThat(said.err()).contains("out: holds thesis.txt, which no fleet left there, and stays; name another folder");
    assertThat(folder.resolve("out")).isDirectoryContaining("glob:**thesis.txt").isDirectoryNotContaining(
        "glob:**sessions.csv");
  }

  private static List<String> rows(Statement ask, String query) throws Exception {
    List<String> rows = new ArrayList<>();
    try (ResultSet found = ask.executeQuery(query)) {
      while (found.next()) {
        StringJoiner row = new StringJoiner(" ");
        for (int column = 1; column <= found.getMetaData().getColumnCount(); column++) {
          row.add(String.valueOf(found.getObject(column)));
        }
        rows.add(row.toString());
      }
    }
    return rows;
  }
}
