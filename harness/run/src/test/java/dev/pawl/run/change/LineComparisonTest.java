package dev.pawl.run.change;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.report.compare.LineChange;
import dev.pawl.report.model.Report;
import dev.pawl.run.Session;
import dev.pawl.run.control.LogicController;
import dev.pawl.run.control.LogicSettings;
import dev.pawl.run.files.LogicFiles;
import dev.pawl.run.files.RuleFiles;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Changed lines of the logic of an invented small ride, over a trace in which a brake is asked for at 1 s for half a
 * second, the doors are never opened, and the load goes from 10 to 30 at 2 s. A scan every 10 ms to 3 s: 301.
 */
class LineComparisonTest {

  private static final String LOGIC = """
      FUNCTION Heavy : BOOL
      VAR_INPUT
        load : REAL;
      END_VAR
        Heavy := load > 20.0;
      END_FUNCTION

      PROGRAM Brake
      VAR_INPUT
        asked, door_open : BOOL;
        load : REAL;
      END_VAR
      VAR_OUTPUT
        brake_open : BOOL;
      END_VAR
      VAR
        limit : REAL := 40.0;
        count : ARRAY[1..3] OF INT;
        name  : STRING := 'none';
        wait  : TON;
        i     : INT;
      END_VAR
        wait(
          IN := asked,
          PT := T#100ms);
        IF wait.Q AND load < limit
            AND NOT door_open THEN
          brake_open := TRUE;
        ELSIF NOT asked THEN
          brake_open := FALSE;
        END_IF;
        IF door_open THEN
          brake_open := FALSE;
        END_IF;
        FOR i := 1 TO 3 DO
          count[i] := i;
        END_FOR;
        CASE count[2] OF
          1: name := 'one';
        ELSE
          name := 'many';
        END_CASE;
        IF Heavy(load := load) THEN
          name := 'heavy';
        END_IF;
      END_PROGRAM
      """;

  @TempDir
  private Path folder;

  @BeforeEach
  void makeTheRide() throws IOException {
    write("ride.rules", """
        ride "Little Brake"
        resolution 10 ms
        input  asked, door_open : bool
        input  load             : number
        output brake_open       : bool
        rule B-01 "the brake opens for nobody with a door open"
          severity critical
          basis practice
          when rises(brake_open)
          must not door_open
        """);
    write("day.csv", """
        time_ms,signal,value
        0,asked,0
        0,door_open,0
        0,load,10
        0,brake_open,0
        1000,asked,1
        1500,asked,0
        2000,load,30
        3000,load,30.5
        """);
  }

  private Path write(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text);
  }

  /** What becomes of each line by which a program differs from {@link #LOGIC}. */
  private List<String> lines(String changed) throws IOException {
    RuleFiles rules = RuleFiles.load(List.of(folder.resolve("ride.rules").toString()));
    LogicFiles before = LogicFiles.load(List.of(write("before.st", LOGIC).toString()));
    LogicFiles after = LogicFiles.load(List.of(write("after.st", changed).toString()));
    ChangedLines lines = ChangedLines.of(before, after);
    LineComparison comparison = new LineComparison(lines);
    judge(rules, LogicController.of(rules, before, LogicSettings.DEFAULT).withLines(lines.watchedBefore(),
        comparison::before));
    Report report = judge(rules, LogicController.of(rules, after, LogicSettings.DEFAULT)
        .withLines(lines.watchedAfter(), comparison::after));
    return comparison.over(report.traces()).stream().map(LineComparisonTest::words).toList();
  }

  private Report judge(RuleFiles rules, LogicController controller) {
    Session session = Session.by(rules).withController(controller);
    return session.judge(session.traces(List.of(folder.resolve("day.csv").toString())));
  }

  private static String words(LineChange line) {
    String text = line.effect().name().toLowerCase(Locale.ROOT) + ", ran " + line.scansBefore() + " and "
        + line.scansAfter();
    return line.before().map(place -> place.line() + " ").orElse("") + "-> "
        + line.after().map(place -> place.line() + " ").orElse("") + text
        + (line.differing() > 0 ? ", other in " + line.differing() : "")
        + line.first().map(first -> " from " + first.time() / 1_000_000 + " ms").orElse("");
  }

  private List<String> lines(Function<String, String> change) throws IOException {
    assertThat(change.apply(LOGIC)).isNotEqualTo(LOGIC);
    return lines(change.apply(LOGIC));
  }

  @Test
  void theSameProgramHasNoChangedLines() throws IOException {
    assertThat(lines(LOGIC)).isEmpty();
  }

  @Test
  void remarksAndBlanksAreNoChange() throws IOException {
    assertThat(lines(logic -> logic.replace("count[i] := i;", "count[i]  :=  i; (* its\n   own number *)"))).isEmpty();
  }

  @Test
  void aBranchThatIsNeverTakenNeverRan() throws IOException {
    assertThat(lines(logic -> logic.replace("IF door_open THEN\n    brake_open := FALSE;",
        "IF door_open THEN\n    brake_open := TRUE;"))).containsExactly("33 -> 33 never_ran, ran 0 and 0");
  }

  /** Asked from 1.000 to 1.500 s, open from 1.100 s on: in 40 scans, in none of which the time goes on to 200 ms. */
  @Test
  void aConditionThatIsNeverTrueDiffersWhereTheOtherWas() throws IOException {
    assertThat(lines(logic -> logic.replace("PT := T#100ms);", "PT := T#200ms);"))).containsExactly(
        "25 -> 25 differed, ran 301 and 301, other in 301 from 0 ms");
    assertThat(lines(logic -> logic.replace("IF wait.Q AND", "IF wait.ET >= T#200ms AND"))).containsExactly(
        "26 -> 26 differed, ran 301 and 301, other in 40 from 1100 ms");
  }

  /** 30 and 30.5 are less than 35 as they are less than 40. */
  @Test
  void whatComesToTheSameInEveryScanIsAlike() throws IOException {
    assertThat(lines(logic -> logic.replace("load < limit", "load < 35.0"))).containsExactly(
        "26 -> 26 alike, ran 301 and 301");
  }

  @Test
  void aChangedLineWithinAStatementIsJudgedByTheStatement() throws IOException {
    assertThat(lines(logic -> logic.replace("      AND NOT door_open THEN", "      AND door_open THEN")))
        .containsExactly("27 -> 27 differed, ran 301 and 301, other in 40 from 1100 ms");
    assertThat(lines(logic -> logic.replace("load < limit\n      AND NOT door_open THEN", "load < limit THEN")))
        .containsExactly("26 -> 26 alike, ran 301 and 301", "27 -> alike, ran 301 and 301");
  }

  @Test
  void aDeclarationIsNoPartOfAStatement() throws IOException {
    assertThat(lines(logic -> logic.replace("limit : REAL := 40.0", "limit : REAL := 20.0"))).containsExactly(
        "17 -> 17 no_statement, ran 0 and 0");
  }

  /** The function runs in each scan; from 2 s on it says that 30 is not more than 35. */
  @Test
  void aLineOfAFunctionRunsWithItsCalls() throws IOException {
    assertThat(lines(logic -> logic.replace("load > 20.0", "load > 35.0"))).containsExactly(
        "5 -> 5 differed, ran 301 and 301, other in 101 from 2000 ms");
  }

  @Test
  void elementsTextsLoopsAndChoicesAreResultsToo() throws IOException {
    assertThat(lines(logic -> logic.replace("count[i] := i;", "count[i] := 1;"))).containsExactly(
        "36 -> 36 differed, ran 301 and 301, other in 301 from 0 ms");
    assertThat(lines(logic -> logic.replace("'many'", "'some'"))).containsExactly(
        "41 -> 41 differed, ran 301 and 301, other in 301 from 0 ms");
    assertThat(lines(logic -> logic.replace("1 TO 3", "1 TO 2"))).containsExactly(
        "35 -> 35 differed, ran 301 and 301, other in 301 from 0 ms");
    assertThat(lines(logic -> logic.replace("CASE count[2]", "CASE count[3]"))).containsExactly(
        "38 -> 38 differed, ran 301 and 301, other in 301 from 0 ms");
  }

  @Test
  void aNewLineHasNothingToBeComparedWith() throws IOException {
    assertThat(lines(logic -> logic.replace("  CASE", "  IF load > 30.2 THEN\n    name := 'full';\n  END_IF;\n  CASE")))
        .containsExactly("-> 38 no_partner, ran 0 and 301", "-> 39 no_partner, ran 0 and 1",
            "-> 40 no_statement, ran 0 and 0");
  }

  @Test
  void aLineThatIsGoneRanBefore() throws IOException {
    assertThat(lines(logic -> logic.replace("  ELSIF NOT asked THEN\n    brake_open := FALSE;\n", ""))).containsExactly(
        "29 -> no_partner, ran 261 and 0", "30 -> no_partner, ran 251 and 0");
  }

  @Test
  void linesThatBeginAlikeBelongTogetherAmongOthers() throws IOException {
    assertThat(lines(logic -> logic.replace("    brake_open := TRUE;",
        "    name := 'open';\n    brake_open := asked;")))
        .containsExactly("-> 28 no_partner, ran 0 and 40", "28 -> 29 alike, ran 40 and 40");
  }

  private static String ladder(String contacts, int shift) {
    return """
        <project xmlns="http://www.plcopen.org/xml/tc6_0201"><fileHeader companyName="" productName="" \
        productVersion="1" creationDateTime="2026-01-01T00:00:00"/><contentHeader name="brake"><coordinateInfo>\
        <fbd><scaling x="1" y="1"/></fbd><ld><scaling x="1" y="1"/></ld><sfc><scaling x="1" y="1"/></sfc>\
        </coordinateInfo></contentHeader><types><dataTypes/><pous>
        <pou name="Brake" pouType="program"><interface><inputVars>
        <variable name="asked"><type><BOOL/></type></variable><variable name="door_open"><type><BOOL/></type></variable>
        <variable name="load"><type><REAL/></type></variable></inputVars><outputVars>
        <variable name="brake_open"><type><BOOL/></type></variable></outputVars></interface><body><LD>
        <leftPowerRail localId="1"><position x="0" y="0"/><connectionPointOut formalParameter=""/></leftPowerRail>
        """ + contacts + """
        <coil localId="9">
        <position x="90" y="SHIFT"/><connectionPointIn><connection refLocalId="3"/></connectionPointIn>
        <variable>brake_open</variable></coil>
        </LD></body></pou></pous></types><instances><configurations/></instances></project>
        """.replace("SHIFT", Integer.toString(shift));
  }

  private static String contact(int id, int from, String variable, boolean negated) {
    return "<contact localId=\"" + id + "\" negated=\"" + negated + "\">\n<position x=\"" + 10 * id
        + "\" y=\"0\"/><connectionPointIn><connection refLocalId=\"" + from + "\"/></connectionPointIn><variable>"
        + variable + "</variable></contact>\n";
  }

  @Test
  void whatIsDrawnIsNamedByUnitAndNetwork() throws IOException {
    String right = contact(2, 1, "asked", false) + contact(3, 2, "door_open", true);
    LogicFiles before = LogicFiles.load(List.of(write("before.xml", ladder(right, 0)).toString()));
    LogicFiles moved = LogicFiles.load(List.of(write("moved.xml", ladder(right, 5)).toString()));
    LogicFiles after = LogicFiles.load(List.of(write("after.xml", ladder(contact(2, 1, "asked", false)
        + contact(3, 2, "door_open", false), 0)).toString()));
    assertThat(ChangedLines.of(before, moved).changes()).as("elements that were only moved").isEmpty();
    ChangedLines.Change change = one(before, after);
    assertThat(change.before().orElseThrow().text())
        .isEqualTo("Brake, network 1, contact door_open: negated, from contact asked");
    assertThat(change.after().orElseThrow().text())
        .isEqualTo("Brake, network 1, contact door_open: from contact asked");
    assertThat(change.statementAfter().orElseThrow().line()).as("the coil that it leads to").isEqualTo(11);
  }

  private static ChangedLines.Change one(LogicFiles before, LogicFiles after) {
    List<ChangedLines.Change> changes = ChangedLines.of(before, after).changes();
    assertThat(changes).hasSize(1);
    return changes.get(0);
  }

  private LogicFiles drawn(String name, String contacts) throws IOException {
    return LogicFiles.load(List.of(write(name, ladder(contacts, 0)).toString()));
  }

  @Test
  void anElementThatReplacesAnotherIsOneChange() throws IOException {
    ChangedLines.Change change = one(drawn("before.xml", contact(2, 1, "asked", false)
        + contact(3, 2, "door_open", true)), drawn("after.xml", contact(2, 1, "brake_open", false)
            + contact(3, 2, "door_open", true)));
    assertThat(change.before().orElseThrow().text())
        .isEqualTo("Brake, network 1, contact asked: from the left power rail");
    assertThat(change.after().orElseThrow().text())
        .isEqualTo("Brake, network 1, contact brake_open: from the left power rail");
  }

  /** What comes behind a new element is told too: its wire comes from elsewhere. */
  @Test
  void aNewElementAndTheWireFromItAreTold() throws IOException {
    List<String> told = ChangedLines.of(drawn("before.xml", contact(3, 1, "asked", false)), drawn("after.xml",
        contact(2, 1, "asked", false) + contact(3, 2, "door_open", true))).changes().stream().map(change ->
            change.before().map(it -> it.text()).orElse("-") + " | " + change.after().map(it -> it.text()).orElse("-"))
        .toList();
    assertThat(told).containsExactly("- | Brake, network 1, contact door_open: negated, from contact asked",
        "Brake, network 1, coil brake_open: from contact asked | Brake, network 1, coil brake_open: from contact "
        + "door_open");
  }

  /** A transition is told when it is led to another element beside the steps, which has a name of its own. */
  @Test
  void whatIsDrawnBesideTheStepsIsTheTransitionsCondition() throws IOException {
    List<ChangedLines.Change> changes = ChangedLines.of(chart("before.xml", 2), chart("after.xml", 3)).changes();
    assertThat(changes).hasSize(1);
    assertThat(changes.get(0).before().orElseThrow().text())
        .isEqualTo("Brake, transition from Wait to Move: condition from contact asked");
    assertThat(changes.get(0).after().orElseThrow().text())
        .isEqualTo("Brake, transition from Wait to Move: condition from contact door_open");
  }

  private LogicFiles chart(String name, int condition) throws IOException {
    String pou = ladder(contact(2, 1, "asked", false) + contact(3, 1, "door_open", false), 0);
    String steps = """
        <step localId="20" name="Wait" initialStep="true"><position x="0" y="0"/></step>
        <transition localId="21"><position x="0" y="0"/><connectionPointIn><connection refLocalId="20"/>
        </connectionPointIn><condition><connectionPointIn><connection refLocalId="CONDITION"/></connectionPointIn>
        </condition></transition>
        <step localId="22" name="Move"><position x="0" y="0"/><connectionPointIn><connection refLocalId="21"/>
        </connectionPointIn></step>
        """.replace("CONDITION", Integer.toString(condition));
    return LogicFiles.load(List.of(write(name, pou.replace("<LD>", "<SFC>").replace("</LD>", steps + "</SFC>"))
        .toString()));
  }

  /** A tool may write its elements in any order. */
  @Test
  void theOrderInTheFileIsNoChange() throws IOException {
    String first = contact(2, 1, "asked", false);
    String second = contact(3, 2, "door_open", true);
    assertThat(ChangedLines.of(drawn("before.xml", first + second), drawn("after.xml", second + first)).changes())
        .isEmpty();
  }

  /** The lower of two rungs is drawn above the other: then its coil is TRUE a scan later. */
  @Test
  void aRungInAnotherPlaceOfTheOrderIsTold() throws IOException {
    String rung = "<leftPowerRail localId=\"20\"><position x=\"0\" y=\"AT\"/><connectionPointOut "
        + "formalParameter=\"\"/></leftPowerRail>\n<contact localId=\"21\"><position x=\"20\" y=\"AT\"/>"
        + "<connectionPointIn><connection refLocalId=\"20\"/></connectionPointIn><variable>brake_open</variable>"
        + "</contact>\n<coil localId=\"22\"><position x=\"90\" y=\"AT\"/><connectionPointIn><connection "
        + "refLocalId=\"21\"/></connectionPointIn><variable>lamp</variable></coil>\n";
    String all = ladder(contact(3, 1, "asked", false) + rung, 0).replace("</outputVars>",
        "<variable name=\"lamp\"><type><BOOL/></type></variable></outputVars>");
    ChangedLines.Change change = one(LogicFiles.load(List.of(write("below.xml", all.replace("AT", "50")).toString())),
        LogicFiles.load(List.of(write("above.xml", all.replace("AT", "-50")).toString())));
    assertThat(change.before().orElseThrow().text()).startsWith("Brake, network ");
    assertThat(change.after().orElseThrow().text()).endsWith(", evaluated in another order");
  }
}
