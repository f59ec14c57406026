package dev.pawl.run.ride;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import dev.pawl.report.model.TraceResult;
import dev.pawl.run.RunException;
import dev.pawl.run.Session;
import dev.pawl.run.files.BindingsFiles;
import dev.pawl.run.files.RuleFiles;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * One invented session of a train that goes round six times, written as sites write their logs: what is proposed for it
 * is refused until it is confirmed, and then reads the whole of it.
 */
class ProposalTest {

  private static final List<String> TAGS = List.of("B1 Platform Prox", "B2 LiftFoot", "B3 Lift Top", "ES_CHAIN_OK",
      "RESET_PB", "GATE_REL", "LIFT_MOTOR_RUN", "CHAIN_SPD", "HEARTBEAT");
  private static final int STEPS = 3000;

  @TempDir
  private Path folder;

  /** A form of log, with what its people answer to what is asked. */
  enum Form {
    POLLED_TABLE("zone Europe/Vienna") {
      @Override
      String text() {
        return "Export;;;;;;;;;\nZeit;" + String.join(";", TAGS) + "\n" + rows(step -> date(step) + ";"
            + String.join(";", at(step)).replace("true", "ON").replace("false", "OFF").replace('.', ','));
      }
    },
    DATE_AND_TIME_APART("zone UTC") {
      @Override
      String text() {
        return "Date,Time," + String.join(",", TAGS) + "\n" + rows(step -> date(step).replace(' ', ',')
            .replace("14.03.2026", "2026-03-14") + "," + String.join(",", at(step)));
      }
    },
    CHANGES_IN_A_LONG_TABLE("") {
      @Override
      String text() {
        return "stamp,tag,val\n" + changes((step, tag, value) -> (1_772_000_000_000L + step * 100L) + "," + tag + ","
            + value);
      }
    },
    JSON_LINES("") {
      @Override
      String text() {
        return rows(step -> {
          List<String> values = at(step);
          StringBuilder row = new StringBuilder("{\"time_ms\":" + step * 100L + ",\"plc\":{");
          for (int tag = 0; tag < TAGS.size(); tag++) {
            row.append(tag == 0 ? "" : ",").append('"').append(TAGS.get(tag)).append("\":").append(values.get(tag));
          }
          return row.append("}}").toString();
        });
      }
    };

    private final String answer;

    Form(String answer) {
      this.answer = answer;
    }

    abstract String text();
  }

  private static String date(int step) {
    return String.format("14.03.2026 09:%02d:%02d.%d00", step / 600, step / 10 % 60, step % 10);
  }

  private static String rows(Function<Integer, String> row) {
    StringBuilder text = new StringBuilder();
    for (int step = 0; step < STEPS; step++) {
      text.append(row.apply(step)).append('\n');
    }
    return text.toString();
  }

  private interface Change {
    String row(int step, String tag, String value);
  }

  private static String changes(Change change) {
    Map<String, String> before = new TreeMap<>();
    StringBuilder text = new StringBuilder();
    for (int step = 0; step < STEPS; step++) {
      for (int tag = 0; tag < TAGS.size(); tag++) {
        String value = at(step).get(tag);
        if (!value.equals(before.put(TAGS.get(tag), value))) {
          text.append(change.row(step, TAGS.get(tag), value)).append('\n');
        }
      }
    }
    return text.toString();
  }

  /** Every 50 s a round: dispatch, foot of the lift, top of the lift, platform. */
  private static List<String> at(int step) {
    int within = step % 500;
    boolean driven = within >= 60 && within < 260;
    List<Boolean> bools = List.of(within >= 400 || within < 40, within >= 80 && within < 110,
        within >= 220 && within < 250, step < 1300 || step > 1340, step >= 1360 && step < 1364,
        within >= 20 && within < 50, driven && (step < 1302 || step > 1364));
    List<String> values = new ArrayList<>(bools.stream().map(String::valueOf).toList());
    values.add(driven ? "2.1" + step % 9 : "0.0");
    values.add(Integer.toString(step % 7 + 3));
    return values;
  }

  private RuleFiles rules;

  @BeforeEach
  void begin() throws IOException {
    NewRide.of(Files.writeString(folder.resolve("a.layout"), """
        ride "Gannet Cliff"
        resolution 10 ms
        zone platform  begins at platform_flag  released by gate_release
        zone lift      begins at foot_flag      driven by lift_run
        zone gorge     begins at top_flag
        stop estop_chain within 500 ms reset reset_button
        input chain_speed m/s
        """), folder.resolve("ride"), folder).writeTo(folder.resolve("ride"));
    rules = RuleFiles.load(List.of(folder.resolve("ride").toString()));
  }

  private String proposal(String log) throws IOException {
    return Proposal.of(rules.book(), Files.writeString(folder.resolve("log.csv"), log));
  }

  @ParameterizedTest
  @EnumSource
  void whatIsProposedIsRefusedUntilItIsConfirmedAndThenReadsTheLog(Form form) throws IOException {
    String proposed = proposal(form.text());
    assertThat(proposed.lines().filter(line -> line.startsWith("  maybe") && line.contains(" from "))).hasSize(8);
    Path file = Files.writeString(folder.resolve("log.bindings"), proposed);
    assertThat(catchThrowableOfType(RunException.class, () -> BindingsFiles.load(file.toString(), rules.book()))
        .getMessage()).contains("this is a proposal that nobody has confirmed");

    String confirmed = proposed.replace("  maybe ", "  ").replaceAll("(?m)^  -- whose clock.*$", "  " + form.answer);
    Files.writeString(file, confirmed);
    Session session = Session.by(rules).withBindings(BindingsFiles.load(file.toString(), rules.book()));
    TraceResult result = session.judge(session.traces(List.of(folder.resolve("log.csv").toString()))).traces().get(0);
    assertThat(result.reading().failure()).as(confirmed).isEmpty();
    assertThat(result.reading().problemCount()).as(confirmed).isZero();
    assertThat(result.rules()).allSatisfy(rule -> assertThat(rule.seen().unseen()).isEmpty());
  }

  @Test
  void aPolledTableIsDescribedAsItIs() throws IOException {
    assertThat(proposal(Form.POLLED_TABLE.text())).contains("""
        time
          maybe written "day.month.year hour:minute:second"
          -- whose clock shows a time such as 14.03.2026 09:00:00.000? write: zone Europe/Vienna, or another
        columns
          maybe time Zeit
          maybe separator semicolon
          maybe header line 2
          maybe decimal comma
        signals
          maybe platform_flag from "B1 Platform Prox"   -- ON/OFF, looked at every 100 ms, 12 changes
        """, "  maybe foot_flag     from \"B2 LiftFoot\"", "  maybe estop_chain   from ES_CHAIN_OK   -- ",
        "  maybe lift_run      from LIFT_MOTOR_RUN", "  maybe chain_speed   from CHAIN_SPD   -- numbers from 0 to 2.1",
        "; in m/s? else write: in UNIT", "values\n  maybe true ON\n  maybe false OFF\n",
        "sampling\n  maybe platform_flag every 100 ms\n", "ignore\n  maybe HEARTBEAT\n");
  }

  @Test
  void whatNoTagIsLikeIsLeftToBeFilledIn() throws IOException {
    String proposed = proposal("time_ms,QX0.1,QX0.2,W17\n0,0,1,5\n100,1,0,6\n");
    assertThat(proposed).doesNotContain(" maybe platform").contains(
        "  -- platform_flag from \"\"   -- no tag is like it\n", "ignore\n  maybe QX0.1\n");
    assertThat(catchThrowableOfType(RunException.class, () -> proposal("$date today $end\n")).getMessage())
        .endsWith("log.csv: a value change dump is read by the names of its variables; bind those");
    assertThat(catchThrowableOfType(RunException.class, () -> proposal("")).getMessage())
        .endsWith("log.csv: there is no row in it");
  }

  /** A time of one digit is a time, where the column is known. */
  @Test
  void aLogThatBeginsAtNoughtLosesNoRow() throws IOException {
    assertThat(proposal("time_ms,signal,value\n0,foot_flag,0\n0,estop_chain,1\n0,lift_run,1\n74250,estop_chain,0\n"))
        .doesNotContain("rows from", "-- foot_flag from", "-- estop_chain from", "-- lift_run from");
  }

  /** Whatever is not understood is said, and ends nothing. */
  @Test
  void strangeTimesRowsAndLinesAreToldOrRefused() throws IOException {
    assertThat(proposal("when?,B1 Platform Prox,B2 LiftFoot\nMon 3rd,0,1\nTue 4th,1,0\nWed 5th,0,0\nThu 6th,1,1\n"
        + "Fri 7th,1,1\nSat\n"))
        .contains("-- 4 of 4 rows have another form than the others, or a time that is not understood.",
            "  -- how is a time such as Wed 5th written?", "its times are not understood");
    assertThat(proposal("{\"time_ms\":1,\"gate\":{\"release\":true}}\n{\"time_ms\":\n{\"time_ms\":3}\n"))
        .contains("-- 1 of 3 rows", "maybe gate_release  from \"/gate/release\"");
    assertThat(catchThrowableOfType(RunException.class, () -> proposal("time_ms,a\n0," + "x".repeat(1 << 21)))
        .getMessage()).endsWith("log.csv: line 2 is longer than any row can be; give a log with a line for each row");
    StringBuilder many = new StringBuilder("time_ms,signal,value\n");
    for (int tag = 0; tag < 10_100; tag++) {
      many.append(tag).append(",t").append(tag).append(",1\n");
    }
    assertThat(catchThrowableOfType(RunException.class, () -> proposal(many.toString())).getMessage())
        .contains("log.csv: it has more than 10000 tags");
  }
}
