package dev.pawl.trace.intake;

import dev.pawl.engine.EventSink;

/** The way into an intake for formats whose rows come as texts rather than bytes. */
public final class TextRows {

  private final Intake intake;

  public TextRows(Intake intake) {
    this.intake = intake;
  }

  /**
   * Takes one event.
   *
   * @param value the logged value, or null where the trace says that there is none: then the signal is unknown
   * @param quality the stated quality; empty for none
   * @param column where the value stands in its line
   */
  public void take(long time, String tag, String value, String quality, long line, int column) {
    Channels channels = intake.channels();
    int channel = channels.learn(tag);
    if (channels.isUnbound(channel)) {
      intake.unbound(channel, tag, line, column);
    } else if (!channels.carriesSignal(channel)) {
      intake.pass(time, line);
    } else {
      signal(time, channel, value, quality, line, column);
    }
  }

  private void signal(long time, int channel, String value, String quality, long line, int column) {
    byte[] word = quality.getBytes(java.nio.charset.StandardCharsets.UTF_8);
    Quality stated = Quality.of(word, 0, word.length);
    if (stated == Quality.UNRECOGNISED) {
      intake.problems().add(ProblemKind.UNKNOWN_QUALITY, line, column, 1,
          () -> Excerpt.of(quality) + " is no quality that is known here", () -> "known are " + Quality.CHOICES);
      intake.doubt(time, channel, line);
      return;
    }
    if (stated == Quality.NOT_GOOD || value == null) {
      intake.accept(time, channel, EventSink.UNKNOWN, line);
      return;
    }
    Channels channels = intake.channels();
    long read = channels.reader(channel).read(value);
    if (read == ValueReader.INVALID) {
      intake.problems().add(ProblemKind.WRONG_VALUE, line, column, 1,
          () -> (value.isEmpty() ? "an empty text" : Excerpt.of(value)) + " is no value of signal "
              + Excerpt.of(channels.tag(channel)),
          () -> channels.reader(channel).remedy(value));
      intake.doubt(time, channel, line);
      return;
    }
    intake.accept(time, channel, read, line);
  }
}
