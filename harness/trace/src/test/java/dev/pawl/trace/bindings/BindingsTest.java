package dev.pawl.trace.bindings;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.source.DiagnosticRenderer;
import dev.pawl.grammar.source.Source;
import dev.pawl.trace.Books;
import dev.pawl.trace.Recording;
import dev.pawl.trace.TraceOptions;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Bindings files: what they do to a trace, and what is said of wrong ones, word for word. */
class BindingsTest {

  private static final long MS = 1_000_000;

  private static final String SITE = """
      -- tags of the lift PLC as the site's historian names them

      time
        unit ms
      columns
        time      stamp
        signal    "tag name"
        value     val
        quality   q
        separator semicolon
      signals
        lift_run    from "LIFT.K1 RUN" inverted
        estop_chain from ES_STATE where HEALTHY = true, TRIPPED = false, "??" = false
        lift_speed  from LIFT.SPD in mm/s
        motor_heat  from M1.T times 0.1 plus -40   -- tenths of a degree above -40
        mode        from LIFT.MODE where 0 = off, 10 = manual, 20 = automatic
      ignore
        PLC.HEARTBEAT, "HMI*"
      topics
        anything here = is for others
      """;

  private static final String TRACE = """
      stamp;tag name;val;q
      0;LIFT.K1 RUN;0;good
      0;ES_STATE;HEALTHY;good
      1;LIFT.SPD;2682.24;good
      1;M1.T;600;good
      2;LIFT.MODE;20;good
      2;PLC.HEARTBEAT;17;good
      3;HMI.LAMP;x;good
      4;ES_STATE;??;good
      5;LIFT.K1 RUN;1;good
      6;LIFT.K1 RUN;1;bad
      """;

  @Test
  void mapSiteTagsToSignals() {
    Bindings.Resolved resolved = resolve(SITE, "topics");
    assertThat(resolved.diagnostics()).isEmpty();
    Recording recording = Recording.of(TRACE, TraceOptions.of(Books.LIFT).withBindings(resolved.bindings()));
    assertThat(recording.summary().diagnostics()).isEmpty();
    assertThat(recording.events()).extracting(Recording.Event::time)
        .containsExactly(0L, 0L, MS, MS, 2 * MS, 4 * MS, 5 * MS, 6 * MS);
    assertThat(recording.events()).extracting(Recording.Event::signal).containsExactly(0, 1, 2, 3, 4, 1, 0, 0);
    assertThat(recording.events().get(0).value()).isEqualTo(1);
    assertThat(recording.events().get(1).value()).isEqualTo(1);
    // 6 mph = 2682.24 mm/s: a mile is 1609.344 m (international yard and pound agreement of 1959, from memory).
    assertThat(number(recording, 2)).isEqualTo(2.68224);
    assertThat(number(recording, 3)).isEqualTo(293.15);
    assertThat(recording.events().get(4).value()).isEqualTo(2);
    assertThat(recording.events().get(5).value()).isZero();
    assertThat(recording.events().get(6).value()).isZero();
    assertThat(recording.events().get(7).value()).isEqualTo(EventSink.UNKNOWN);
  }

  private static double number(Recording recording, int event) {
    return Double.longBitsToDouble(recording.events().get(event).value());
  }

  @Test
  void bitsAreInvertedInEverySpelling() {
    Bindings bindings = resolve("signals\n lift_run from K1 inverted\n").bindings();
    Recording recording = Recording.of("time_ms,signal,value\n1,K1,1\n2,K1,0\n3,K1,true\n4,\"K1\",0\n5,K1,1\r\n",
        TraceOptions.of(Books.LIFT).withBindings(bindings));
    assertThat(recording.events()).extracting(Recording.Event::value).containsExactly(0L, 1L, 0L, 1L, 0L);
  }

  @Test
  void theFirstEntryOfASectionMayStandBesideItsName() {
    Bindings bindings = resolve("time unit ms\nsignals lift_run from K1\n  mode from M\nignore \"*\"\n").bindings();
    Recording recording = Recording.of("time,signal,value\n1,K1,1\n2,M,off\n3,other,x\n", TraceOptions.of(Books.LIFT)
        .withBindings(bindings));
    assertThat(recording.summary().diagnostics()).isEmpty();
    assertThat(recording.events()).extracting(Recording.Event::signal).containsExactly(0, 4);
  }

  @Test
  void aBoundSignalIsNoLongerKnownByItsOwnName() {
    Bindings bindings = resolve("signals\n lift_run from K1\n").bindings();
    Recording recording = Recording.of("time_ms,signal,value\n1,lift_run,1\n2,K1,1\n3,estop_chain,1\n",
        TraceOptions.of(Books.LIFT).withBindings(bindings).withLenient(true));
    assertThat(recording.events()).extracting(Recording.Event::time).containsExactly(2 * MS, 3 * MS);
    assertThat(recording.summary().diagnostics().get(0).hint())
        .isEqualTo("signal lift_run is bound to tag 'K1'; bind it to this one, or ignore this one");
  }

  @Test
  void otherModulesReadTheirOwnSections() {
    BindingsFile file = BindingsFile.parse(new Source("site.bindings", SITE));
    assertThat(file.entries("topics")).hasSize(1);
    assertThat(file.entries("topics").get(0).tokens()).extracting(Token::text)
        .containsExactly("anything", "here", "=", "is", "for", "others");
    assertThat(file.entries("topics").get(0).position()).hasToString("site.bindings:20:3");
  }

  /** A file and what is said of it. */
  record Case(String text, List<String> said) {
    Case(String text, String... said) {
      this(text, List.of(said));
    }
  }

  static List<Case> wrong() {
    return List.of(
        new Case("signal\n  lift_run from a\n",
            "site.bindings:1:1: error: there is no section 'signal'", "1 | signal", "| ^^^^^^",
            "= sections are time, columns, signals, ignore, values, sampling, beginning, feedback, session, "
                + "variables"),
        new Case("variables\n lift_run %QX0.0\n",
            "site.bindings:2:2: error: an entry of 'variables' says where the logic has a signal",
            "2 |  lift_run %QX0.0", "|  ^^^^^^^^^^^^^^^",
            "= write: SIGNAL at %IX0.0, SIGNAL at %QW4, or SIGNAL at Program.instance.variable"),
        new Case("variables\n lift_run at %QX0.0\n lift_run at Main.k1.q\n",
            "site.bindings:3:2: error: signal 'lift_run' has a variable already",
            "3 |  lift_run at Main.k1.q", "|  ^^^^^^^^", "= keep one of the lines"),
        new Case("  lift_run from a\n",
            "site.bindings:1:3: error: this entry belongs to no section", "1 |   lift_run from a", "|   ^^^^^^^^",
            "= open one above it, such as 'signals', at the very start of a line"),
        new Case("time\n unit minutes\n",
            "site.bindings:2:7: error: 'minutes' is no unit of time", "2 |  unit minutes", "|       ^^^^^^^",
            "= use s, ms, us, ns or rfc3339"),
        new Case("columns\n separator pipe\n",
            "site.bindings:2:12: error: 'pipe' cannot separate fields", "2 |  separator pipe", "|            ^^^^",
            "= write: separator comma, semicolon, tab or bar"),
        new Case("columns\n tag name\n",
            "site.bindings:2:2: error: section 'columns' says what a column is called, and how the table is written",
                "2 |  tag name", "|  ^^^^^^^^",
            "= write one of time, signal, value or quality and its name, such as: time stamp; or one of separator, "
                + "decimal, header,"
                + " rows from, unnamed, names, spaces and letters"),
        new Case("signals\n lift_rum from K1\n",
            "site.bindings:2:2: error: the rules declare no signal 'lift_rum'", "2 |  lift_rum from K1", "|  ^^^^^^^^",
            "= did you mean lift_run?"),
        new Case("signals\n lift_run K1\n",
            "site.bindings:2:2: error: an entry of 'signals' says which tag a signal comes from", "2 |  lift_run K1",
                "|  ^^^^^^^^^^^",
            "= write: SIGNAL from \"TAG\", then if need be: inverted, in UNIT, times X, plus Y, or where CODE = "
                + "VALUE, ..."),
        new Case("signals\n lift_run from K1\n estop_chain from K1\n",
            "site.bindings:3:19: error: tag 'K1' is bound already, in line 2", "3 |  estop_chain from K1",
                "|                   ^^",
            "= bind each tag to one signal"),
        new Case("signals\n lift_run from K1\n lift_run from K2\n",
            "site.bindings:3:2: error: signal 'lift_run' is bound already, in line 2", "3 |  lift_run from K2",
                "|  ^^^^^^^^",
            "= bind each signal to one tag"),
        new Case("signals\n lift_speed from V inverted\n",
            "site.bindings:2:20: error: only a bool can be inverted", "2 |  lift_speed from V inverted",
                "|                    ^^^^^^^^",
            "= leave 'inverted' out, or bind a bool"),
        new Case("signals\n lift_run from V times 2\n",
            "site.bindings:2:18: error: only a number can be scaled", "2 |  lift_run from V times 2",
                "|                  ^^^^^",
            "= leave 'times' out, or bind a number"),
        new Case("signals\n lift_speed from V times two\n",
            "site.bindings:2:26: error: 'two' is no number to scale with", "2 |  lift_speed from V times two",
                "|                          ^^^",
            "= write a decimal number, such as 0.001"),
        new Case("signals\n lift_speed from V in\n",
            "site.bindings:2:20: error: 'in' needs a unit after it", "2 |  lift_speed from V in",
                "|                    ^^",
            "= write it, such as: in mm/s"),
        new Case("signals\n lift_speed from V in kg\n",
            "site.bindings:2:23: error: 'kg' does not measure what the signal does, which is declared in 'mph'",
            "2 |  lift_speed from V in kg", "|                       ^^", "= use a unit of the same kind"),
        new Case("signals\n lift_speed from V in mp/h\n",
            "site.bindings:2:23: error: 'mp/h' is no unit of the rule language", "2 |  lift_speed from V in mp/h",
            "|                       ^^^^", "= did you mean mph?"),
        new Case("signals\n mode from M where 0 off\n",
            "site.bindings:2:20: error: codes are written CODE = VALUE, with commas between",
                "2 |  mode from M where 0 off",
            "|                    ^", "= such as: where 0 = off, 1 = running"),
        new Case("signals\n mode from M where 0 = manuel\n",
            "site.bindings:2:24: error: 'manuel' is not a member of the signal's type",
                "2 |  mode from M where 0 = manuel",
            "|                        ^^^^^^", "= did you mean manual?"),
        new Case("signals\n lift_run from M where 0 = off\n",
            "site.bindings:2:28: error: a bool is true or false, not 'off'", "2 |  lift_run from M where 0 = off",
            "|                            ^^^", "= such as: where OK = true, TRIPPED = false"),
        new Case("sampling\n lift_run each 1 s\n",
            "site.bindings:2:2: error: an entry of 'sampling' says how a signal was looked at",
                "2 |  lift_run each 1 s", "|  ^^^^^^^^",
            "= write: SIGNAL every 1 s, or SIGNAL every 1 s, written when changed; SIGNAL on change, or SIGNAL "
                + "silence 5 s; all in place of SIGNAL means every one"),
        new Case("sampling\n lift_run every 1 s, written\n",
            "site.bindings:2:2: error: an entry of 'sampling' says how a signal was looked at",
                "2 |  lift_run every 1 s, written", "|  ^^^^^^^^",
            "= write: SIGNAL every 1 s, or SIGNAL every 1 s, written when changed; SIGNAL on change, or SIGNAL "
                + "silence 5 s; all in place of SIGNAL means every one"),
        new Case("sampling\n lift_run every 1 week\n",
            "site.bindings:2:17: error: '1 week' is no time that can pass from one look to the next",
                "2 |  lift_run every 1 week",
            "|                 ^", "= write a number and one of us, ms, s and min, such as 100 ms"),
        new Case("sampling\n lift_rum every 1 s\n",
            "site.bindings:2:2: error: the rules declare no signal 'lift_rum'", "2 |  lift_rum every 1 s",
                "|  ^^^^^^^^",
            "= did you mean lift_run?"),
        new Case("sampling\n lift_run every 1 s\n lift_run on change\n",
            "site.bindings:3:2: error: this is stated twice of 'lift_run'", "3 |  lift_run on change", "|  ^^^^^^^^",
            "= keep one"),
        new Case("feedback\n lift_run stops nothing\n",
            "site.bindings:2:2: error: an entry of 'feedback' says what follows an output",
                "2 |  lift_run stops nothing", "|  ^^^^^^^^",
            "= write: SIGNAL follows OUTPUT, OUTPUT, SIGNAL follows all, SIGNAL follows nothing, OUTPUT moves "
                + "nothing, OUTPUT late 50 ms,"
                + " all late 50 ms, or OUTPUT off 0.1 m/s"),
        new Case("feedback\n lift_speed follows lift_run lift_run\n",
            "site.bindings:2:13: error: after 'follows' come outputs, with commas between",
                "2 |  lift_speed follows lift_run lift_run",
            "|             ^^^^^^^", "= or 'all', or 'nothing', alone"),
        new Case("feedback\n lift_run follows lift_speed\n",
            "site.bindings:2:19: error: 'lift_speed' is no output of the controller",
                "2 |  lift_run follows lift_speed",
            "|                   ^^^^^^^^^^", "= name a signal that the rules declare as an output"),
        new Case("feedback\n all late 1 h\n",
            "site.bindings:2:11: error: '1 h' is no time by which an output can come late", "2 |  all late 1 h",
                "|           ^",
            "= write a number and one of us, ms, s and min, up to 10 min, such as 50 ms"),
        new Case("time\n clock UTC\n", "site.bindings:2:2: error: section 'time' says how times are written",
            "2 |  clock UTC", "|  ^^^^^^^^^",
            "= write: unit ms; or: unit us since 1970; or: written \"day.month.year hour:minute:second\"; or: zone"
                + " Europe/Vienna; or: twice in order"),
        new Case("time\n zone Europe/Viena\n",
            "site.bindings:2:7: error: 'Europe/Viena' is no time zone that is known here", "2 |  zone Europe/Viena",
            "|       ^^^^^^^^^^^^", "= did you mean Europe/Vienna?"),
        new Case("time\n written \"day.month hour:minute\"\n zone UTC\n",
            "site.bindings:2:10: error: this does not say how times are written: a date needs year, month and day",
            "2 |  written \"day.month hour:minute\"", "|          ^^^^^^^^^^^^^^^^^^^^^^^",
                "= put together the words year, month, day,"
                + " hour, minute, second, fraction, ampm, offset, weekday and year2, with what stands between them"),
        new Case("time\n written \"day.month.year hour:minute\"\n",
            "site.bindings:2:2: error: these dates state no offset, and nothing says whose clock it is",
            "2 |  written \"day.month.year hour:minute\"", "|  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^",
            "= add: zone UTC, or one such as zone Europe/Vienna or zone +01:00"),
        new Case("time\n unit ms\n zone UTC\n",
            "site.bindings:3:2: error: a zone is for dates that state no offset of their own", "3 |  zone UTC",
            "|  ^^^^^^^^", "= leave it out"),
        new Case("time\n unit ms\n written hour:minute\n",
            "site.bindings:3:2: error: times are numbers or written out, not both", "3 |  written hour:minute",
            "|  ^^^^^^^^^^^^^^^^^^^", "= keep unit or written"),
        new Case("time\n twice earlier\n", "site.bindings:2:2: error: a time comes twice only where a zone is stated",
            "2 |  twice earlier", "|  ^^^^^^^^^^^^^", "= add zone, or leave this out"),
        new Case("time\n zone UTC\n twice maybe\n",
            "site.bindings:3:2: error: 'maybe' does not say which is meant of a local time that comes twice",
            "3 |  twice maybe", "|  ^^^^^^^^^^^", "= write: twice in order, earlier or later"),
        new Case("columns\n header 7\n", "site.bindings:2:2: error: this does not say where the table begins",
            "2 |  header 7", "|  ^^^^^^", "= write: header line 7, or: header none"),
        new Case("columns\n header line 7\n rows from 7\n",
            "site.bindings:3:12: error: rows cannot start before the header, which is stated as line 7",
                "3 |  rows from 7",
            "|            ^", "= state the line of the first row"),
        new Case("columns\n names time, a\n", "site.bindings:2:2: error: names are for a table without a header",
            "2 |  names time, a", "|  ^^^^^", "= add: header none"),
        new Case("columns\n unnamed second\n",
            "site.bindings:2:10: error: 'second' does not say where the unnamed field stands", "2 |  unnamed second",
            "|          ^^^^^^", "= write: unnamed first, or: unnamed last"),
        new Case("columns\n spaces kept\n",
            "site.bindings:2:9: error: 'kept' is nothing that can be done with spaces around fields",
            "2 |  spaces kept", "|         ^^^^", "= write: spaces dropped"),
        new Case("columns\n letters UTF-32\n",
            "site.bindings:2:10: error: 'UTF-32' is no set of letters of one byte each", "2 |  letters UTF-32",
            "|          ^^^^^^", "= write one such as windows-1252; UTF-8 and UTF-16 need not be stated"),
        new Case("columns\n decimal apostrophe\n", "site.bindings:2:10: error: 'apostrophe' is no decimal sign",
            "2 |  decimal apostrophe", "|          ^^^^^^^^^^", "= write: decimal comma, or: decimal point"),
        new Case("beginning\n lift_run is true\n",
            "site.bindings:2:2: error: an entry of 'beginning' says what a signal was before its first row",
            "2 |  lift_run is true", "|  ^^^^^^^^",
            "= write: SIGNAL was VALUE, with a number in the unit that the rules declare; of a bool that is logged when"
                + " it changes SIGNAL was other, of all of them: all was other"),
        new Case("beginning\n lift_rum was true\n",
            "site.bindings:2:2: error: the rules declare no signal 'lift_rum'", "2 |  lift_rum was true",
            "|  ^^^^^^^^", "= did you mean lift_run?"),
        new Case("beginning\n mode was automatik\n",
            "site.bindings:2:11: error: 'automatik' is not a member of the signal's type", "2 |  mode was automatik",
            "|           ^^^^^^^^^", "= did you mean automatic?"),
        new Case("beginning\n lift_run was on\n",
            "site.bindings:2:15: error: a bool was true, false or other, not 'on'", "2 |  lift_run was on",
            "|               ^^", "= 'other' means: not what its first row says"),
        new Case("beginning\n lift_speed was other\n",
            "site.bindings:2:17: error: 'other' is no number", "2 |  lift_speed was other",
            "|                 ^^^^^", "= write what 'lift_speed' was in mph, such as: lift_speed was 0"),
        new Case("beginning\n all was false\n",
            "site.bindings:2:10: error: not all signals can have been 'false'", "2 |  all was false",
            "|          ^^^^^", "= write: all was other, which means every bool; or a line for each signal"),
        new Case("beginning\n lift_run was true\n lift_run was other\n",
            "site.bindings:3:2: error: this is stated twice of 'lift_run'", "3 |  lift_run was other",
            "|  ^^^^^^^^", "= keep one"),
        new Case("session\n merge\n",
            "site.bindings:2:2: error: section 'session' says how recorded traces belong together", "2 |  merge",
            "|  ^^^^^", "= write: joined; or: reorder 2 s; or: clock \"drive-*.csv\" ahead 1.5 s, or behind; or: clock "
                + "\"drive-*.csv\" estimated"),
        new Case("session\n reorder 2 h\n", "site.bindings:2:10: error: '2 h' is no time", "2 |  reorder 2 h",
            "|          ^", "= write a number and one of us, ms, s and min, such as 100 ms"),
        new Case("values\n on ON\n",
            "site.bindings:2:2: error: section 'values' lists how true, false and unknown are spelt", "2 |  on ON",
            "|  ^^^^^", "= write: true ON, 1.0, Closed"),
        new Case("values\n true ON, 0\n", "site.bindings:2:11: error: '0' means false already", "2 |  true ON, 0",
            "|           ^", "= leave it out, and bind signals of which the opposite is logged as 'inverted'"),
        new Case("values\n true ON\n false ON\n", "site.bindings:3:8: error: 'ON' is listed twice", "3 |  false ON",
            "|        ^^", "= keep one"),
        new Case("ignore\n \"HMI\n",
            "site.bindings:2:2: error: this quoted text has no end", "2 |  \"HMI", "|  ^^^^",
                "= close it with \" on the same line"));
  }

  @ParameterizedTest
  @MethodSource("wrong")
  void areToldWhereAndWhatToDo(Case wrong) {
    Source source = new Source("site.bindings", wrong.text());
    Bindings.Resolved resolved = Bindings.resolve(BindingsFile.parse(source), Books.LIFT, Set.of());
    assertThat(new DiagnosticRenderer(List.of(source)).render(resolved.diagnostics()).lines().map(String::strip)
        .toList())
        .isEqualTo(wrong.said());
    assertThat(resolved.hasErrors()).isTrue();
  }

  private static Bindings.Resolved resolve(String text, String... others) {
    return Bindings.resolve(BindingsFile.parse(new Source("site.bindings", text)), Books.LIFT, Set.of(others));
  }
}
