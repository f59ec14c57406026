package dev.pawl.trace.site;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.source.DiagnosticRenderer;
import dev.pawl.trace.Books;
import dev.pawl.trace.Recording;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.TraceSummary;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * A log of a form that is read once it is stated, but was not, or not rightly: one message, with the line and what to
 * state.
 */
class NearMissTest {

  private static final String ZONED = "time\n zone Europe/Vienna\n";

  /** A log, what was stated about it, and what is said. */
  record Case(String bindings, String log, List<String> said) {
    Case(String bindings, String log, String... said) {
      this(bindings, log, List.of(said));
    }
  }

  static List<Case> cases() {
    return List.of(
        new Case("", "time,lift_run\n2026-11-25 09:27:39.5,1\n2026-11-25 09:27:40,0\n",
            "trace:2:1: error: '2026-11-25 09:27:39.5' has no offset",
            "= state under 'time' in a bindings file whose clock it is: zone UTC, or one such as zone Europe/Vienna "
                + "or zone +01:00"),
        new Case("", "{\"time\": \"2026-11-25 09:27:39.5\", \"signal\": \"lift_run\", \"value\": 1}\n",
            "trace:1:2: error: '2026-11-25 09:27:39.5' has no offset",
            "= state under 'time' in a bindings file whose clock it is: zone UTC, or one such as zone Europe/Vienna "
                + "or zone +01:00"),
        new Case("", "time,lift_run\n11/25/2026 9:27:39 AM,1\n",
            "trace:2:1: error: '11/25/2026 9:27:39 AM' is no RFC 3339 date-time such as 2026-11-25T09:27:39.125Z",
            "= state under 'time' in a bindings file how they are written, such as: written \"day.month.year "
                + "hour:minute:second\""),
        new Case(ZONED, "time,lift_run\n2026-10-25 02:30:00,1\n2026-10-25 02:31:00,0\n",
            "trace:2:1: error: '2026-10-25 02:30:00' comes twice, as clocks of Europe/Vienna are put back then",
            "= state under 'time' in a bindings file which is meant: twice in order, twice earlier or twice later"),
        new Case(ZONED, "time,lift_run\n2026-03-29 02:30:00,1\n",
            "trace:2:1: error: '2026-03-29 02:30:00' is left out by clocks of Europe/Vienna, which are put forward "
                + "then",
            "= write all times on the scale that the header states"),
        new Case("time\n written \"day.month.year hour:minute:second\"\n zone UTC\n",
            "time,lift_run\n2026-11-25 09:27:39,1\n",
            "trace:2:1: error: '2026-11-25 09:27:39' is not written as day.month.year hour:minute:second",
            "= write all times on the scale that the header states"),
        new Case("time\n written \"day.month.year hour:minute:second\"\n zone UTC\n",
            "time,lift_run\n31.11.2026 09:27:39,1\n",
            "trace:2:1: error: '31.11.2026 09:27:39' names a day that does not exist",
            "= write all times on the scale that the header states"),
        new Case("columns\n time Date Time\n", "Date,lift_run\n2026-11-25,1\n",
            "trace:1:1: error: the header has no column 'Time' for the time of day",
            "= say under 'columns' in a bindings file what it is called: time, then the column of the date, then that "
                + "of the time of day"),
        new Case("columns\n header none\n", "5,1\n",
            "trace:1:1: error: none of the 2 columns is 'time'",
            "= say under 'columns' in a bindings file which has the time, such as: time 1; or what all are called, "
                + "such as: names time_ms,"
                + " lift_run"),
        new Case("columns\n header none\n names time_ms, lift_run\n", "5,1,2\n",
            "trace:1:1: error: the first row has 3 fields, but 2 names are stated",
            "= state under 'columns' in a bindings file a name for each field"),
        new Case("", "time_ms,lift_speed\n5,2;5\n",
            "trace:2:3: error: '2;5' is no value of signal 'lift_speed'", "= write a decimal number"),
        new Case("columns\n separator semicolon\n decimal comma\n", "time_ms;lift_speed\n5;2.5\n",
            "trace:2:3: error: '2.5' is no value of signal 'lift_speed'",
                "= write a decimal number with its decimals behind a comma"),
        new Case("", "time_ms,lift_run, lift_speed\n5, 1, 2\n",
            "trace:1:18: error: the rules declare no signal ' lift_speed'",
            "= did you mean lift_speed? If not, bind or ignore it in a bindings file",
            "trace:2:3: error: ' 1' is no value of signal 'lift_run'",
            "= leave the spaces out, or say under 'columns' in a bindings file: spaces dropped"),
        new Case("", "time_ms,lift_run,Stra\uFFFDe\n5,1,2\n",
            "trace:1:1: error: the name of column 3 is not written in UTF-8: 'Stra\uFFFDe'",
            "= say under 'columns' in a bindings file how it is, such as: letters windows-1252"),
        new Case("", "time_ms|lift_run\n5|1\n",
            "trace:1:1: error: fields seem to be separated by a bar, not by a comma",
            "= say so in a bindings file, under 'columns': separator bar"));
  }

  @ParameterizedTest
  @MethodSource("cases")
  void isToldWhatToState(Case miss) {
    TraceOptions options = TraceOptions.of(Books.LIFT).withBindings(SiteLogsTest.bindings(miss.bindings()));
    TraceSummary summary = Recording.of(miss.log(), options).summary();
    assertThat(new DiagnosticRenderer(List.of()).render(summary.diagnostics()).lines().map(String::strip).toList())
        .isEqualTo(miss.said());
  }
}
