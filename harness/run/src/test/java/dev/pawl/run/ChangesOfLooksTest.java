package dev.pawl.run;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Verdict;
import dev.pawl.report.model.TraceResult;
import dev.pawl.run.files.BindingsFiles;
import dev.pawl.run.files.RuleFiles;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A recorder that looks each second and writes only what has changed. Of random rides the truth is known: where its
 * bindings say so, no verdict contradicts the truth, although nothing in its rows tells it from a log of changes.
 */
class ChangesOfLooksTest {

  private static final int RIDES = 60;
  private static final int SECOND = 1000;
  private static final int LAST_CHANGE = 40_000;
  private static final int END = 60_000;
  private static final List<String> SIGNALS = List.of("a", "b", "c", "d");

  private static final List<String> RULES = List.of("when rises(d) must b", "when rises(d) must not b",
      "when rises(d) must b within 4 s", "when rises(d) must b after 2 s within 4 s",
      "when rises(d) must a or b within 500 ms", "when rises(d) must not (a and b)", "when rises(d) while b must c",
      "when rises(d) while b must c within 4 s", "when rises(d) unless b must c",
      "when rises(d) and b must c within 4 s", "when rises(d) must b throughout 4 s",
      "when rises(d) must b, and stay so for 4 s", "when rises(d) must b within 4 s, and stay so for 3 s",
      "when rises(d) must b before c", "when rises(d) must (b in last 2 s) within 4 s",
      "when rises(d) while (a since b) must c", "when rises(d) must b since c", "always a or b", "never a and b",
      "always b while d", "always b unless d", "when rises(d) while b for 3 s must c");

  @TempDir
  private Path folder;
  private RuleFiles rules;

  @BeforeEach
  void loadRules() throws IOException {
    StringBuilder text = new StringBuilder("ride \"Little Ratchet\"\n");
    SIGNALS.forEach(signal -> text.append("input " + signal + " : bool\n"));
    for (int rule = 0; rule < RULES.size(); rule++) {
      text.append("rule R-" + rule + " \"one of them\"\n  severity minor\n  basis practice\n  " + RULES.get(rule)
          + "\n");
    }
    rules = RuleFiles.load(List.of(Files.writeString(folder.resolve("ride.rules"), text).toString()));
  }

  /** When a signal changes; it is false at first where {@code first} is 0. */
  private record Course(int first, TreeSet<Integer> changes) {

    /** Nothing lasts for less than the time between two looks: what does is not seen, and not spoken of. */
    static Course drawn(Random random) {
      TreeSet<Integer> changes = new TreeSet<>();
      for (int at = 1500 + random.nextInt(9000); at < LAST_CHANGE; at += SECOND + 1 + random.nextInt(12_000)) {
        changes.add(at);
      }
      return new Course(random.nextInt(2), changes);
    }

    int at(int time) {
      return first + changes.headSet(time, true).size() & 1;
    }
  }

  private record Row(int time, String signal, int value) {}

  private static String log(List<Row> rows) {
    StringBuilder text = new StringBuilder("time_ms,signal,value\n");
    rows.stream().sorted(Comparator.comparingInt(Row::time)).forEach(row ->
        text.append(row.time + "," + row.signal + "," + row.value + "\n"));
    return text.append("# end: " + END + "\n").toString();
  }

  private static List<Row> truth(Map<String, Course> ride) {
    List<Row> rows = new ArrayList<>();
    ride.forEach((signal, course) -> {
      rows.add(new Row(0, signal, course.first));
      course.changes.forEach(time -> rows.add(new Row(time, signal, course.at(time))));
    });
    return rows;
  }

  /** The first look at each signal is at 0, the second within a second, each further a second later. */
  private static List<Row> recorded(Map<String, Course> ride, boolean atOnce, Random random) {
    List<Row> rows = new ArrayList<>();
    int phase = random.nextInt(SECOND);
    ride.forEach((signal, course) -> {
      int written = course.first;
      rows.add(new Row(0, signal, written));
      for (int look = atOnce ? phase : random.nextInt(SECOND); look < END; look += SECOND) {
        if (course.at(look) != written) {
          written = course.at(look);
          rows.add(new Row(look, signal, written));
        }
      }
    });
    return rows;
  }

  private List<Verdict> judged(List<Row> rows, String sampling) throws IOException {
    Path bound = Files.writeString(folder.resolve("site.bindings"), "sampling\n  " + sampling + "\n");
    Path file = Files.writeString(folder.resolve("trace.csv"), log(rows));
    Session session = Session.by(rules).withBindings(BindingsFiles.load(bound.toString(), rules.book()))
        .withOptions(new SessionOptions(1, 1, false, false));
    TraceResult result = session.judge(session.traces(List.of(file.toString()))).traces().get(0);
    assertThat(result.rules()).hasSameSizeAs(RULES);
    return result.rules().stream().map(rule -> rule.verdict()).toList();
  }

  private static boolean contradicts(Verdict truth, Verdict verdict) {
    return truth == Verdict.BROKEN ? verdict == Verdict.HELD || verdict == Verdict.NOT_EXERCISED
        : verdict == Verdict.BROKEN;
  }

  @Test
  void noVerdictContradictsTheTruthWhereBindingsSayHowItWasWritten() throws IOException {
    Random random = new Random(15);
    int wrongByItsRows = 0;
    Map<Verdict, Integer> verdicts = new EnumMap<>(Verdict.class);
    for (int number = 0; number < RIDES; number++) {
      Map<String, Course> ride = new TreeMap<>();
      SIGNALS.forEach(signal -> ride.put(signal, Course.drawn(random)));
      List<Row> rows = recorded(ride, number % 2 == 0, random);
      List<Verdict> truth = judged(truth(ride), "all on change");
      List<Verdict> byItsRows = judged(rows, "all on change");
      List<Verdict> stated = judged(rows, "all every 1 s, written when changed");
      for (int rule = 0; rule < RULES.size(); rule++) {
        wrongByItsRows += contradicts(truth.get(rule), byItsRows.get(rule)) ? 1 : 0;
        verdicts.merge(stated.get(rule), 1, Integer::sum);
        assertThat(contradicts(truth.get(rule), stated.get(rule))).as("%s: truly %s, judged %s%ntruly %s%nlogged %s",
            RULES.get(rule), truth.get(rule), stated.get(rule), log(truth(ride)), log(rows)).isFalse();
      }
    }
    assertThat(wrongByItsRows).as("verdicts that are wrong where nothing is stated").isGreaterThan(30);
    assertThat(verdicts.getOrDefault(Verdict.BROKEN, 0)).as("%s", verdicts).isGreaterThan(200);
    assertThat(verdicts.getOrDefault(Verdict.HELD, 0)).as("%s", verdicts).isGreaterThan(50);
  }
}
