package dev.pawl.trace.vcd;

import dev.pawl.trace.bytes.Words;
import dev.pawl.trace.intake.Excerpt;
import dev.pawl.trace.intake.ProblemKind;
import dev.pawl.trace.intake.RowDecoder;
import dev.pawl.trace.intake.UnreadableTrace;
import java.nio.charset.StandardCharsets;

/** The reader of value change dumps: a stream of words, whatever the line breaks between them. */
public final class VcdDecoder extends RowDecoder {

  private final StringBuilder command = new StringBuilder();
  private final VcdTime clock = new VcdTime();
  private Declarations declarations;
  private VcdValues values;
  private Mode mode = Mode.BETWEEN;
  private String keyword = "";
  private long keywordLine;

  /** What the next word belongs to. */
  private enum Mode {
    BETWEEN,
    IN_COMMAND,
    VECTOR_CODE
  }

  @Override
  protected int rows(byte[] bytes, int from, int end) throws UnreadableTrace {
    if (declarations == null) {
      declarations = new Declarations(intake);
      values = new VcdValues(intake, declarations.variables(), clock);
    }
    int at = from;
    while (at < end) {
      byte value = bytes[at];
      if (value == '\n') {
        line++;
        at++;
      } else if (value == ' ' || value == '\t' || value == '\r' || value == '\f') {
        at++;
      } else {
        int stop = wordEnd(bytes, at);
        word(bytes, at, stop);
        at = stop;
      }
    }
    return at;
  }

  private static int wordEnd(byte[] bytes, int from) {
    int at = from;
    while (bytes[at] > ' ' || bytes[at] < 0) {
      at++;
    }
    // A control character that is no blank would otherwise be a word without end.
    return at == from ? from + 1 : at;
  }

  private void word(byte[] bytes, int from, int to) throws UnreadableTrace {
    switch (mode) {
      case IN_COMMAND -> inCommand(bytes, from, to);
      case VECTOR_CODE -> {
        mode = Mode.BETWEEN;
        values.code(bytes, from, to, line);
      }
      case BETWEEN -> between(bytes, from, to);
    }
  }

  private void inCommand(byte[] bytes, int from, int to) throws UnreadableTrace {
    if (isEnd(bytes, from, to)) {
      mode = Mode.BETWEEN;
      declarations.command(keyword, command.toString(), keywordLine);
      clock.scale(declarations.timescale());
    } else if (command.length() < 100_000) {
      command.append(command.isEmpty() ? "" : " ").append(new String(bytes, from, to - from, StandardCharsets.UTF_8));
    }
  }

  private static boolean isEnd(byte[] bytes, int from, int to) {
    return to - from == 4 && (int) Words.at(bytes, from) == ('$' | 'e' << 8 | 'n' << 16 | 'd' << 24);
  }

  private void between(byte[] bytes, int from, int to) throws UnreadableTrace {
    byte first = bytes[from];
    if (first == '$') {
      keyword(bytes, from, to);
    } else if (!declarations.ended()) {
      throw intake.problems().fatal(ProblemKind.UNREADABLE, line, 1, Excerpt.of(bytes, from, to)
          + " stands among the declarations of the dump", "end them with $enddefinitions $end");
    } else if (first == '#') {
      clock.mark(bytes, from + 1, to, intake, line);
    } else if (first == 'b' || first == 'B' || first == 'r' || first == 'R') {
      values.vector(bytes, from, to);
      mode = Mode.VECTOR_CODE;
    } else {
      values.scalar(bytes, from, to, line);
    }
  }

  private void keyword(byte[] bytes, int from, int to) {
    String name = new String(bytes, from, to - from, StandardCharsets.UTF_8);
    switch (name) {
      case "$dumpvars", "$dumpall", "$dumpon" -> values.section(true, false);
      case "$dumpoff" -> values.section(true, true);
      case "$end" -> values.section(false, false);
      case "$date", "$version", "$comment", "$timescale", "$scope", "$upscope", "$var", "$enddefinitions" -> {
        keyword = name;
        keywordLine = line;
        command.setLength(0);
        mode = Mode.IN_COMMAND;
      }
      default -> intake.problems().add(ProblemKind.MALFORMED, line, 1,
          Excerpt.of(name) + " is no keyword of a value change dump",
          "the keywords are those of IEEE Std 1364");
    }
  }

  @Override
  protected void ended() throws UnreadableTrace {
    if (mode != Mode.BETWEEN || declarations == null || !declarations.ended()) {
      throw intake.problems().fatal(ProblemKind.UNREADABLE, Math.max(1, line - 1), 1, "the dump ends in the middle of "
          + (mode == Mode.VECTOR_CODE ? "a value change" : mode == Mode.IN_COMMAND ? keyword : "its declarations"),
          "get a whole copy");
    }
    clock.end(intake, line - 1);
  }

  @Override
  public long finerTimes() {
    return clock.finer();
  }

  @Override
  public boolean calendar() {
    return false;
  }
}
