package dev.pawl.cli;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.IntConsumer;

/** Whether the user asked for the run to end early; the process waits until what has been judged so far is written. */
public final class Interruption {

  private static final long PATIENCE_SECONDS = 30;

  private final CountDownLatch written = new CountDownLatch(1);
  private volatile boolean requested;
  private volatile boolean over;
  private volatile boolean usualEnd;
  private volatile int status;
  private IntConsumer ender = unused -> { };

  /** Whether the run shall come to its end. */
  public boolean isRequested() {
    return requested;
  }

  /** Asks for the end, as an interrupt does. */
  public void request() {
    requested = true;
  }

  /**
   * A request is how this command usually ends: the process then ends with the command's own status, not with that of
   * the signal.
   */
  public void isTheUsualEnd() {
    usualEnd = true;
  }

  /**
   * From now on an interrupt of the process is a request.
   *
   * @param halt ends the process at once with a status, while it is being ended by a signal
   */
  void watch(IntConsumer halt) {
    ender = halt;
    Runtime.getRuntime().addShutdownHook(new Thread(this::endSoon, "pawl-interrupt"));
  }

  /** Everything is written, and this is the command's exit status. */
  void finished(int exitStatus) {
    status = exitStatus;
    over = true;
    written.countDown();
  }

  private void endSoon() {
    if (over) {
      return;
    }
    requested = true;
    try {
      if (written.await(PATIENCE_SECONDS, TimeUnit.SECONDS) && usualEnd) {
        ender.accept(status);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
