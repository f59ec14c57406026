package dev.pawl.trace.intake;

import dev.pawl.trace.bytes.Feed;
import java.io.IOException;

/** The loop that all formats made of lines share: window after window, with what goes wrong between feed. */
public abstract class RowDecoder implements Decoder {

  /** Number of the line that is read next, from 1. */
  protected long line = 1;

  protected Intake intake;

  /** Takes rows from the window; returns its end, or the start of a row that goes on after it. */
  protected abstract int rows(byte[] bytes, int from, int end) throws UnreadableTrace;

  /** Is told that the feed has ended. */
  protected abstract void ended() throws UnreadableTrace;

  @Override
  public boolean decode(Feed feed, Intake target, Progress progress) throws IOException, UnreadableTrace {
    intake = target;
    int at = feed.start();
    while (true) {
      if (feed.next(at)) {
        at = rows(feed.bytes(), feed.start(), feed.end());
        if (!progress.reached(feed.position(), line - 1)) {
          return false;
        }
      } else if (feed.end() == feed.start() && feed.exhausted()) {
        break;
      } else {
        skip(feed);
        at = feed.start();
      }
    }
    if (feed.damage().isPresent()) {
      intake.problems().add(ProblemKind.DAMAGED, line, 1, feed.damage().get(),
          feed.remedy() + "; --lenient judges what came before this line");
    }
    ended();
    return true;
  }

  /** Leaves out a line that is too long, or the first line of a record whose quote is never closed. */
  private void skip(Feed feed) throws IOException {
    tooLong(feed.end() > feed.start());
    line++;
    feed.skipLine();
  }

  /** Notes that the record in the present line is longer than {@link Feed#LONGEST}. */
  protected final void tooLong(boolean quoted) {
    if (quoted) {
      intake.problems().add(ProblemKind.MALFORMED, line, 1,
          "a quote that is opened in this row is not closed within a million bytes",
          "close it, or double it if it belongs to the text");
    } else {
      intake.problems().add(ProblemKind.MALFORMED, line, 1, "this line is longer than a million bytes", "split it");
    }
  }

  @Override
  public final long lines() {
    return line - 1;
  }
}
