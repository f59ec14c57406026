package dev.pawl.trace.csv;

import dev.pawl.trace.bytes.NameTable;
import dev.pawl.trace.intake.Excerpt;
import dev.pawl.trace.intake.Intake;
import dev.pawl.trace.intake.ProblemKind;
import dev.pawl.trace.time.TimeReader;
import java.nio.charset.StandardCharsets;

/** The remark lines of a trace; the one that means something is {@code # end: TIME}. */
final class Remarks {

  /** What a remark that states the end starts with. */
  static final String END = "# end:";

  private String end = "";
  private long endLine;

  void take(String remark, long line) {
    if (remark.startsWith(END)) {
      end = remark.substring(END.length()).strip();
      endLine = line;
    }
  }

  /** States the end, if there is a remark that does. Called last, as the remark may stand before the header. */
  void end(TimeReader times, Intake intake) {
    if (endLine == 0) {
      return;
    }
    byte[] text = end.getBytes(StandardCharsets.UTF_8);
    byte[] padded = new byte[text.length + 2 * NameTable.SLACK];
    System.arraycopy(text, 0, padded, NameTable.SLACK, text.length);
    long time = times.read(padded, NameTable.SLACK, NameTable.SLACK + text.length);
    if (time == TimeReader.INVALID) {
      intake.problems().add(ProblemKind.WRONG_TIME, endLine, END.length() + 2,
          Excerpt.of(end) + " " + times.complaint(),
          "state the end on the scale of the time column");
    } else {
      intake.stateEnd(time, endLine);
    }
  }
}
