package dev.pawl.trace.intake;

import dev.pawl.trace.bytes.Feed;
import dev.pawl.trace.bytes.Windows;
import java.io.IOException;

/** The loop that all formats made of lines share: window after window, with what goes wrong between windows. */
public abstract class RowDecoder implements Decoder {

  /** Number of the line that is read next, from 1. */
  protected long line = 1;

  protected Intake intake;

  /** Takes rows from the window; returns its end, or the start of a row that goes on after it. */
  protected abstract int rows(byte[] bytes, int from, int end) throws UnreadableTrace;

  /** Is told that the feed has ended. */
  protected abstract void ended() throws UnreadableTrace;

  /** May put other windows in the place of these, which go on where they are; called when all rows of a window are taken. */
  protected Windows continued(Windows windows) {
    return windows;
  }

  @Override
  public boolean decode(Windows feed, Intake target, Progress progress) throws IOException, UnreadableTrace {
    intake = target;
    Windows windows = feed;
    int at = windows.start();
    while (true) {
      if (windows.next(at)) {
        at = rows(windows.bytes(), windows.start(), windows.end());
        if (!progress.reached(windows.position(), line - 1)) {
          return false;
        }
        windows = at == windows.end() ? continued(windows) : windows;
      } else if (windows.end() == windows.start() && windows.exhausted()) {
        break;
      } else {
        skip(windows);
        at = windows.start();
      }
    }
    if (feed.damage().isPresent()) {
      intake.problems().add(ProblemKind.DAMAGED, line, 1, feed.damage().get(),
          "get a whole copy; --lenient judges what came before this line");
    }
    ended();
    return true;
  }

  /** Leaves out a line that is too long, or the first line of a record whose quote is never closed. */
  private void skip(Windows windows) throws IOException {
    tooLong(windows.end() > windows.start());
    line++;
    windows.skipLine();
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
