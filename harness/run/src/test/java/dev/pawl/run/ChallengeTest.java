package dev.pawl.run;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Verdict;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.words.FindingWords;
import dev.pawl.run.control.LogicController;
import dev.pawl.run.control.LogicSettings;
import dev.pawl.run.files.LogicFiles;
import dev.pawl.run.files.RuleFiles;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Logic that is run again with one input turned: what guards nothing is found, though nobody ever asked. The ride is
 * invented.
 */
class ChallengeTest {

  private static final String GUARDED = "go AND gate AND water > 1.5 AND mode = 2";
  private static final String HELD = "did not come, but came with the input turned back before it";

  @TempDir
  private Path folder;

  @BeforeEach
  void makeTheRide() throws IOException {
    write("ride.rules", """
        ride "Little Cataract"
        resolution 10 ms
        type place = one of (shed, yard, ready)
        input  go      : bool
        input  gate    : bool
        input  water   : m
        input  mode    : place
        output release : bool
        rule BOAT-01 "a boat is let go with the gate closed and enough water only"
          basis practice
          severity critical
          when rises(release)
          must gate and water >= 1.5 m
        rule BOAT-02 "a boat is let go when ready only"
          basis practice
          severity critical
          when rises(release)
          must mode = ready throughout 50 ms
        rule BOAT-03 "the gate stays closed a while after it closed"
          basis practice
          severity minor
          when rises(gate)
          must gate throughout 500 ms
        """);
    StringBuilder rows =
        new StringBuilder("time_ms,signal,value\n0,go,0\n0,gate,0\n0,water,2\n0,mode,ready\n0,release,0\n");
    for (int boat = 1; boat <= 5; boat++) {
      String second = Integer.toString(60 * boat);
      rows.append("""
          S000,gate,1
          S500,go,1
          S500,release,1
          S700,go,0
          S700,release,0
          S900,gate,0
          """.replace("S", second));
    }
    write("day.csv", rows + "400000,gate,0\n");
  }

  private void write(String name, String text) throws IOException {
    Files.writeString(folder.resolve(name), text);
  }

  private Report judged(String release, boolean challenged) throws IOException {
    return judgedBy("release := " + release + ";", challenged);
  }

  private Report judgedBy(String statements, boolean challenged) throws IOException {
    write("ride.st", """
        TYPE place : (shed, yard, ready); END_TYPE
        PROGRAM Ride
        VAR_INPUT go, gate, buoy : BOOL; water : REAL; mode : place; END_VAR
        VAR_OUTPUT release : BOOL; END_VAR
        VAR alarm : BOOL; END_VAR
        %s
        END_PROGRAM
        """.formatted(statements.replace("mode = 2", "mode = ready")));
    RuleFiles rules = RuleFiles.load(List.of(folder.resolve("ride.rules").toString()));
    LogicFiles logic = LogicFiles.load(List.of(folder.resolve("ride.st").toString()));
    Session session = Session.by(rules)
        .withController(LogicController.of(rules, logic, LogicSettings.DEFAULT).withChallenges(challenged));
    return session.judge(session.traces(List.of(folder.resolve("day.csv").toString())));
  }

  private static RuleResult rule(Report report, String id) {
    return report.traces().get(0).rules().stream().filter(rule -> rule.rule().id().equals(id)).findFirst()
        .orElseThrow();
  }

  private static String said(Report report) {
    return String.join("\n", report.traces().get(0).reading().counters().stream()
        .map(it -> it.count() + " " + it.label()).toList());
  }

  /** Three triggers, each with the gate open, with too little water, and at each other place. */
  @Test
  void logicThatGuardsAllRefusesEachChallenge() throws IOException {
    Report report = judged(GUARDED, true);
    assertThat(report.count(Verdict.BROKEN)).isZero();
    assertThat(said(report))
        .contains("12 challenges, each of one input turned from 1 s before a trigger on",
            "6 challenges of BOAT-01\n" + "6 challenges of BOAT-01 in which its trigger " + HELD,
            "6 challenges of BOAT-02\n" + "6 challenges of BOAT-02 in which its trigger " + HELD)
        .doesNotContain("another cause");
  }

  @Test
  void aGuardThatIsMissingBreaksItsRuleAlthoughNobodyEverAsked() throws IOException {
    assertThat(judged(GUARDED.replace("gate AND", ""), false).count(Verdict.BROKEN)).isZero();
    Report report = judged(GUARDED.replace("gate AND", ""), true);
    RuleResult broken = rule(report, "BOAT-01");
    assertThat(broken.verdict()).isEqualTo(Verdict.BROKEN);
    assertThat(broken.obligations().missed()).isEqualTo(3);
    assertThat(FindingWords.sentence(broken.rule(), broken.broken().get(0), report.traces().get(0).timeBase()))
        .isEqualTo("required at the trigger, but not true then, if gate had been false from 59.500 s on: nothing "
            + "guards it");
    assertThat(broken.broken().get(0).evidence()).anySatisfy(event -> assertThat(event.writtenBy()).isPresent());
    assertThat(rule(report, "BOAT-02").verdict()).isEqualTo(Verdict.HELD);
    assertThat(said(report)).contains("3 challenges of BOAT-01 in which its trigger " + HELD,
        "6 challenges of BOAT-02 in which its trigger " + HELD);
  }

  @Test
  void numbersAndPlacesAreTurnedToWhatIsForbidden() throws IOException {
    assertThat(rule(judged(GUARDED.replace("AND water > 1.5", ""), true), "BOAT-01").broken().get(0).supposing())
        .isEqualTo("water had been 1.35 m from 59.500 s on");
    assertThat(rule(judged(GUARDED.replace("AND mode = 2", ""), true), "BOAT-02").broken().get(0).supposing())
        .isEqualTo("mode had been shed from 59.500 s on");
    assertThat(rule(judged(GUARDED.replace("mode = 2", "mode <> shed"), true), "BOAT-02").broken().get(0).supposing())
        .isEqualTo("mode had been yard from 59.500 s on");
  }

  /** A latch keeps boats back for good: whether anything looks at the water at a release is not known. */
  @Test
  void aReleaseThatAnotherCauseRefusedIsNotCalledGuarded() throws IOException {
    Report report = judgedBy("alarm := alarm OR water < 1.4; release := " + GUARDED.replace("AND water > 1.5", "")
        + " AND NOT alarm;", true);
    assertThat(report.count(Verdict.BROKEN)).isZero();
    assertThat(said(report)).contains("3 challenges of BOAT-01 in which its trigger " + HELD,
        "3 challenges of BOAT-01 in which its trigger did not come, also with the input turned back before it: another "
        + "cause may have kept it away, so that this says nothing of a guard");
  }

  /** The logic looks at the buoy, not at the boat that went by it. */
  @Test
  void aFlagThatClearsAgainShowsThatNothingRemembersTheTrain() throws IOException {
    write("ride.rules", """
        ride "Little Cataract"
        resolution 10 ms
        input  go, gate, buoy, weir : bool
        output release : bool
        zone dock enter rises(buoy) leave rises(weir) starts with 0
        rule BOAT-05 "a boat is let go into an empty dock only"
          basis practice
          severity critical
          when rises(release)
          must not occupied(dock)
        """);
    write("day.csv", """
        time_ms,signal,value
        0,go,0
        0,gate,0
        0,buoy,0
        0,weir,0
        0,release,0
        700,go,1
        700,release,1
        900,go,0
        900,release,0
        3000,go,0
        """);
    Report report = judgedBy("release := go AND NOT buoy;", true);
    RuleResult broken = rule(report, "BOAT-05");
    assertThat(broken.verdict()).isEqualTo(Verdict.BROKEN);
    assertThat(FindingWords.sentence(broken.rule(), broken.broken().get(0), report.traces().get(0).timeBase()))
        .contains("if buoy had been true from 0.001 s to 0.3505 s");
  }
}
