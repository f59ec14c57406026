package dev.pawl.trace;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.source.DiagnosticRenderer;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What is said of wrong traces, word for word. */
class WrongTraceTest {

  private static final String HEADER = "time_ms,signal,value\n";
  private static final String WITH_QUALITY = "time_ms,signal,value,quality\n";

  /** A trace and what is said of it. */
  record Case(String trace, List<String> said) {
    Case(String trace, String... said) {
      this(trace, List.of(said));
    }
  }

  static List<Case> cases() {
    return List.of(
        new Case("",
            "trace:1:1: error: the trace is empty",
            "= a CSV trace starts with a header row such as time_ms,signal,value"),
        new Case("\n\n",
            "trace:1:1: error: the trace is empty",
            "= a CSV trace starts with a header row such as time_ms,signal,value"),
        new Case("[{\"time_ms\": 5}]\n",
            "trace:1:1: error: the trace is one JSON array",
            "= write JSON Lines: one object in each line, with no brackets round them and no commas between"),
        new Case("signal,value\n",
            "trace:1:1: error: the header 'signal,value' has no column 'time'",
            "= start the file with a header such as time_ms,signal,value, or say under 'columns' in a bindings file "
                + "what its columns are"
                + " called, such as: time stamp; where the table begins, such as: header line 7; or that it has no "
                + "header: header none"),
        new Case("time,signal,value\n12,lift_run,1\n",
            "trace:2:1: error: times are plain numbers, and nothing says of which unit",
            "= call the column time_s, time_ms, time_us or time_ns, or state the unit with --time-unit or in a "
                + "bindings file"),
        new Case("time_ms,signal\n",
            "trace:1:1: error: there is a column for signals but none for their values",
            "= add one called value, or say under 'columns' in a bindings file what it is called"),
        new Case("time_ms,signal,value,note\n",
            "trace:1:1: error: column 'note' has no meaning here",
            "= the long form has the columns time, signal, value and, if need be, quality; list others under 'ignore' "
                + "in a bindings file"),
        new Case("time_ms,lift_run,lift_run\n",
            "trace:1:18: error: two columns are called 'lift_run'",
            "= give each its own name, or call them by their numbers and say so under 'columns' in a bindings file: "
                + "header none, rows"
                + " from 2"),
        new Case("time_ms;signal;value\n1;lift_run;1\n",
            "trace:1:1: error: fields seem to be separated by a semicolon, not by a comma",
            "= say so in a bindings file, under 'columns': separator semicolon"),
        new Case("time_ms\tsignal\tvalue\n",
            "trace:1:1: error: fields seem to be separated by a tab, not by a comma",
            "= say so in a bindings file, under 'columns': separator tab"),
        new Case("time_ms,signal,value\r1,lift_run,1\r",
            "trace:1:1: error: lines end in carriage returns alone",
            "= convert them to LF or CRLF"),
        new Case(HEADER + "1,lift_run\n",
            "trace:2:1: error: this row has 2 fields, the header has 3",
            "= give each row one field for each column; quote fields that hold a separator"),
        new Case(HEADER + "1,lift_run,1,good\n",
            "trace:2:1: error: this row has 4 fields, the header has 3",
            "= give each row one field for each column; quote fields that hold a separator; where each row has a "
                + "field that the header"
                + " does not name, say so under 'columns' in a bindings file: unnamed first, or unnamed last"),
        new Case(HEADER + "abc,lift_run,1\n",
            "trace:2:1: error: 'abc' is no number of ms",
            "= write all times on the scale that the header states"),
        new Case(HEADER + ",lift_run,1\n",
            "trace:2:1: error: an empty text is no number of ms",
            "= write all times on the scale that the header states"),
        new Case(HEADER + "99999999999999999999,lift_run,1\n",
            "trace:2:1: error: '99999999999999999999' is beyond the 73 years that a trace can last",
            "= write all times on the scale that the header states"),
        new Case("time_ns,signal,value\n9223372036854775800,lift_run,1\n",
            "trace:2:1: error: '9223372036854775800' is beyond the 73 years that a trace can last",
            "= write all times on the scale that the header states"),
        new Case(HEADER + "5,lift_run,1\n4,lift_run,0\n",
            "trace:3:1: error: this time is earlier than that of a row before it",
            "= sort the rows by time, state under 'session' in a bindings file how late one may come, such as: "
                + "reorder 2 s, or leave"
                + " such rows out with --lenient"),
        new Case(HEADER + "5,lift_run,1\n5,lift_run,1\n",
            "trace:3:1: error: signal 'lift_run' has this value at this time already",
            "= remove the repeated row, or leave such rows out with --lenient"),
        new Case(HEADER + "5,lift_runs,1\n6,lift_runs,0\n",
            "trace:2:3: error: the rules declare no signal 'lift_runs'",
            "= did you mean lift_run? If not, bind or ignore it in a bindings file"),
        new Case(HEADER + "5,hydraulics.pump_7,1\n",
            "trace:2:3: error: the rules declare no signal 'hydraulics.pump_7'",
            "= declare it in the rules, or list it under 'signals' or 'ignore' in a bindings file"),
        new Case(HEADER + "5,lift_run,2\n",
            "trace:2:12: error: '2' is no value of signal 'lift_run'",
            "= write 0, 1, true or false, or list the site's words in a bindings file: where ON = true, OFF = false; "
                + "or for all signals"
                + " under 'values': true ON"),
        new Case(HEADER + "5,lift_run,\n",
            "trace:2:12: error: an empty text is no value of signal 'lift_run'",
            "= write 0, 1, true or false, or list the site's words in a bindings file: where ON = true, OFF = false; "
                + "or for all signals"
                + " under 'values': true ON"),
        new Case(HEADER + "5,lift_speed,fast\n",
            "trace:2:14: error: 'fast' is no value of signal 'lift_speed'",
            "= write a decimal number; a word for a value that is not known can be stated under 'values' in a "
                + "bindings file: unknown fast"),
        new Case(HEADER + "5,lift_speed,NaN\n",
            "trace:2:14: error: 'NaN' is no value of signal 'lift_speed'",
            "= write a decimal number; a word for a value that is not known can be stated under 'values' in a "
                + "bindings file: unknown NaN"),
        new Case(HEADER + "5,lift_speed,1e999\n",
            "trace:2:14: error: '1e999' is no value of signal 'lift_speed'",
            "= write a decimal number"),
        new Case(HEADER + "5,lift_speed,0x10\n",
            "trace:2:14: error: '0x10' is no value of signal 'lift_speed'",
            "= write a decimal number"),
        new Case(HEADER + "5,lift_speed,\"2,5\"\n",
            "trace:2:14: error: '2,5' is no value of signal 'lift_speed'",
            "= write a decimal number; where decimals follow a comma, say so under 'columns' in a bindings file: "
                + "decimal comma"),
        new Case(HEADER + "5,mode,Off\n",
            "trace:2:8: error: 'Off' is no value of signal 'mode'",
            "= write one of automatic, manual, off"),
        new Case(HEADER + "5,\"lift_run\"x,1\n",
            "trace:2:13: error: text follows the closing quote of a field",
            "= quote the whole field, and double the quotes in it"),
        new Case(HEADER + "5,lift\"run,1\n",
            "trace:2:7: error: a quote stands inside a field that does not start with one",
            "= quote the whole field, and double the quotes in it"),
        new Case(HEADER + "5,\"lift_run,1\n6,lift_run,0\n",
            "trace:2:1: error: a quote that is opened in this row is not closed within a million bytes",
            "= close it, or double it if it belongs to the text"),
        new Case(HEADER + "# end: 3\n5,lift_run,1\n",
            "trace:2:1: error: the stated end is earlier than the last event",
            "= state a later end, or leave it out"),
        new Case(HEADER + "5,lift_run,1\n# end: soon\n",
            "trace:3:8: error: 'soon' is no number of ms",
            "= state the end on the scale of the time column"),
        new Case(WITH_QUALITY + "5,lift_run,1,fine\n",
            "trace:2:14: error: 'fine' is no quality that is known here",
            "= known are good, bad, uncertain and stale; numbers of OPC such as 192, 0, 64 and 0xC0; and 500 for "
                + "stale"),
        new Case("time,signal,value\n2026-11-25T09:27:39,lift_run,1\n",
            "trace:2:1: error: '2026-11-25T09:27:39' has no offset",
            "= state under 'time' in a bindings file whose clock it is: zone UTC, or one such as zone Europe/Vienna "
                + "or zone +01:00"),
        new Case("time,signal,value\n2026-02-29T09:27:39Z,lift_run,1\n",
            "trace:2:1: error: '2026-02-29T09:27:39Z' names a day that does not exist",
            "= write all times on the scale that the header states"),
        new Case("time,signal,value\n2026-11-25T24:00:00Z,lift_run,1\n",
            "trace:2:1: error: '2026-11-25T24:00:00Z' names a time of day that does not exist",
            "= write all times on the scale that the header states"),
        new Case("time,signal,value\n2026-11-25T12:00:60Z,lift_run,1\n",
            "trace:2:1: error: '2026-11-25T12:00:60Z' has second 60 where no leap second can be",
            "= write all times on the scale that the header states"),
        new Case("time,signal,value\n1850-11-25T12:00:00Z,lift_run,1\n",
            "trace:2:1: error: '1850-11-25T12:00:00Z' is more than 73 years away from 1970",
            "= write all times on the scale that the header states"),
        new Case("time,signal,value\n25.11.2026 12:00,lift_run,1\n",
            "trace:2:1: error: '25.11.2026 12:00' is no RFC 3339 date-time such as 2026-11-25T09:27:39.125Z",
            "= state under 'time' in a bindings file how they are written, such as: written \"day.month.year "
                + "hour:minute:second\""),
        new Case("time_ms,lift_run,lift_speed\n5,1\n",
            "trace:2:1: error: this row has 2 fields, the header has 3",
            "= give each row one field for each column; quote fields that hold a separator"),
        new Case("time_ms,lift_run,lift_sped\n5,1,2\n",
            "trace:1:18: error: the rules declare no signal 'lift_sped'",
            "= did you mean lift_speed? If not, bind or ignore it in a bindings file"),
        new Case("time_ms,lift_run,lift_speed\n5,1,quick\n",
            "trace:2:5: error: 'quick' is no value of signal 'lift_speed'",
            "= write a decimal number; a word for a value that is not known can be stated under 'values' in a "
                + "bindings file: unknown quick"),
        new Case("{\"time_ms\": 5, \"signal\": \"lift_run\", \"value\": }\n",
            "trace:1:47: error: this line is no JSON object: Unexpected character ('}' (code 125)): expected a value",
            "= write one whole object in each line"),
        new Case("{\"time_ms\": 5, \"signal\": \"lift_run\"}\n",
            "trace:1:1: error: this row states no signal with a value",
            "= give each row the keys signal and value, or values, or a key for each signal"),
        new Case("{\"signal\": \"lift_run\", \"value\": 1}\n",
            "trace:1:1: error: this row states no time",
            "= give each row a key such as time_ms, or say under 'columns' in a bindings file which key or pointer it "
                + "has, such as:"
                + " time ts"),
        new Case("{\"time\": 5, \"signal\": \"lift_run\", \"value\": 1}\n",
            "trace:1:2: error: times are plain numbers, and nothing says of which unit",
            "= call the key time_s, time_ms, time_us or time_ns, or state the unit with --time-unit or in a bindings "
                + "file"),
        new Case("{\"time_ms\": 5, \"signal\": \"lift_run\", \"value\": 7}\n",
            "trace:1:38: error: '7' is no value of signal 'lift_run'",
            "= write 0, 1, true or false, or list the site's words in a bindings file: where ON = true, OFF = false; "
                + "or for all signals"
                + " under 'values': true ON"),
        new Case("{\"time_ms\": 5, \"signal\": \"lift_run\", \"value\": 1, \"unit\": \"m\"}\n",
            "trace:1:50: error: key 'unit' has no meaning here",
            "= the keys of a row are time, signal, value, quality, or values, or end; list others under 'ignore' in a "
                + "bindings file"),
        new Case("{\"time_ms\": 5, \"signal\": \"lift_run\", \"value\": 1}\n"
            + "{\"time_s\": 6, \"signal\": \"lift_run\", \"value\": 0}\n",
            "trace:2:2: error: the time is called 'time_s' here but 'time_ms' in the rows before",
            "= state all times the same way"),
        new Case("{\"time_ms\": 5, \"signal\": \"lift_run\", \"value\": {}}\n",
            "trace:1:38: error: key 'value' holds an object or a list",
            "= say under 'columns' in a bindings file where in it the plain value is, such as: value \"/value/...\""),
        new Case("{\"time_ms\": 5, \"signal\": \"lift_run\", \"value\": 1} 5\n",
            "trace:1:50: error: something follows the object",
            "= write one whole object in each line"),
        new Case("{\"time_ms\": 5, \"end\": true}\n{\"time_ms\": 6, \"signal\": \"lift_run\", \"value\": 1}\n",
            "trace:1:1: error: the stated end is earlier than the last event",
            "= state a later end, or leave it out"),
        new Case("{\n",
            "trace:1:2: error: this line is no JSON object: Unexpected end-of-input: expected close marker for Object",
            "= write one whole object in each line"),
        new Case("{\"time_ms\": 5, \"end\": true}" + " ".repeat(70_000) + "\n\u0000\u0000\u0000 {\"ode\uffff\uffff\n",
            "trace:2:1: error: this line is no JSON object: it starts like one in another encoding",
            "= write the trace in UTF-8"),
        new Case("$timescale 1 ms $end\n$var wire 1 ! lift_run $end\n",
            "trace:2:1: error: the dump ends in the middle of its declarations",
            "= get a whole copy"),
        new Case("$timescale 7 min $end\n$enddefinitions $end\n",
            "trace:1:1: error: '7 min' is no timescale",
            "= write a whole number and one of s, ms, us, ns, ps and fs, such as: $timescale 1 ms $end"),
        new Case("$date today $end\n$var wire 1 ! lift_run $end\n$enddefinitions $end\n#0\n1!\n",
            "trace:3:1: error: the dump states no timescale",
            "= add one before $enddefinitions, such as: $timescale 1 ms $end"),
        new Case("$timescale 1 ms $end\n$var wire 1 ! lift_run $end\n$enddefinitions $end\n#0\n1!\n#5\n0\"\n",
            "trace:7:1: error: no variable is declared with the code '\"'",
            "= declare it with $var"),
        new Case("$timescale 1 ms $end\n$var wire 1 ! lift_run $end\n$enddefinitions $end\n#7\n1!\n#5\n0!\n",
            "trace:6:1: error: this time is earlier than that of a row before it",
            "= sort the rows by time, state under 'session' in a bindings file how late one may come, such as: "
                + "reorder 2 s, or leave"
                + " such rows out with --lenient",
            "trace:7:1: error: this time is earlier than that of a row before it",
            "= sort the rows by time, state under 'session' in a bindings file how late one may come, such as: "
                + "reorder 2 s, or leave"
                + " such rows out with --lenient"),
        new Case("$timescale 1 ms $end\n$var wire 1 ! lift_run $end\n$enddefinitions $end\n#x\nq!\n",
            "trace:4:1: error: '#' and 'x' make no time that nanoseconds can count",
            "= write # and a whole number of the stated timescale",
            "trace:5:1: error: 'q!' is no value change",
            "= write such as 0! or b101 ! or r1.5 !"),
        new Case("$timescale 1 ms $end\n$var wire 1 $end\n$enddefinitions $end\n",
            "trace:2:1: error: this $var declaration is not complete",
            "= write: $var TYPE SIZE CODE NAME $end"),
        new Case("\u0000\u0001\u0002",
            "trace:1:1: error: the trace is binary data, not text",
            "= give a trace as CSV, JSON Lines or a value change dump"));
  }

  @ParameterizedTest
  @MethodSource("cases")
  void isToldWhereAndWhatToDo(Case wrong) {
    TraceSummary summary = Recording.of(wrong.trace(), TraceOptions.of(Books.LIFT)).summary();

    assertThat(new DiagnosticRenderer(List.of()).render(summary.diagnostics()).lines().map(String::strip).toList())
        .isEqualTo(wrong.said());
    assertThat(summary.isRejected()).isTrue();
  }
}
