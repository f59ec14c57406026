package dev.pawl.mqtt.live;

import dev.pawl.engine.Finding;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.mqtt.client.Inbound;
import dev.pawl.mqtt.feed.FeedListener;
import dev.pawl.mqtt.page.LiveBoard;
import dev.pawl.mqtt.time.HarnessClock;
import dev.pawl.report.words.TimeText;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;

/**
 * Tells several listeners of findings, says what has not been heard, and draws the page's picture now and then. All on
 * the thread that runs the session.
 */
public final class Watching implements FindingListener, FeedListener {

  private static final long PICTURE_EVERY = Duration.ofMillis(200).toNanos();
  private static final long NEVER = Long.MIN_VALUE;

  private final List<FindingListener> listeners = new ArrayList<>();
  private Consumer<String> told = words -> { };
  private Runnable rest = () -> { };
  private LiveBoard board;
  private RuleEngine engine;
  private LiveRun run;
  private HarnessClock clock;
  private boolean connected;
  private long messages;
  private long nextPicture;
  /** How long the first values may take, and how long it may be silent, in nanoseconds. */
  private long patience = Long.MAX_VALUE;
  private long firstConnected = NEVER;
  private long lastCame = NEVER;
  private boolean hasNamedMissing;
  private boolean isSilent;

  public void add(FindingListener listener) {
    listeners.add(listener);
  }

  /** From now on news of the connection is told in words. */
  public void tell(Consumer<String> taker) {
    told = taker;
  }

  /** From now on it is told whenever all that has come is judged. */
  public void whenSettled(Runnable taker) {
    rest = taker;
  }

  /** Tells news. */
  public void say(String words) {
    told.accept(words);
  }

  /**
   * Follows a session from now on.
   *
   * @param limit after how long it is said what has not come
   */
  public void follow(LiveRun session, HarnessClock time, Duration limit) {
    run = session;
    clock = time;
    patience = limit.toNanos();
  }

  /** From now on a picture of the session that is followed is drawn. */
  public void show(LiveBoard on, RuleEngine judge) {
    board = on;
    engine = judge;
  }

  /**
   * Has something judged once more of which all was told before: only the page hears of it.
   *
   * @return how many findings there were
   */
  public long again(Runnable judging) {
    List<FindingListener> all = List.copyOf(listeners);
    long[] count = new long[1];
    listeners.clear();
    listeners.add(new Counting(count));
    if (board != null) {
      listeners.add(board);
    }
    judging.run();
    listeners.clear();
    listeners.addAll(all);
    return count[0];
  }

  /** Counts findings. */
  private record Counting(long[] count) implements FindingListener {

    @Override
    public void finding(Finding finding) {
      count[0]++;
    }

    @Override
    public void tracking(TrackingFinding finding) {
      count[0]++;
    }

    @Override
    public void lateResponse(int rule, long trigger, long deadline, long time) {
      // The finding it belongs to is counted.
    }
  }

  @Override
  public void finding(Finding finding) {
    listeners.forEach(listener -> listener.finding(finding));
  }

  @Override
  public void tracking(TrackingFinding finding) {
    listeners.forEach(listener -> listener.tracking(finding));
  }

  @Override
  public void lateResponse(int rule, long trigger, long deadline, long time) {
    listeners.forEach(listener -> listener.lateResponse(rule, trigger, deadline, time));
  }

  @Override
  public void news(Inbound.News news) {
    connected = news instanceof Inbound.Connected;
    told.accept(connected ? "listening to " + news.detail() : "connection lost: " + news.detail()
        + "; all values are unknown");
    nextPicture = 0;
    if (connected) {
      firstConnected = firstConnected == NEVER ? news.arrival() : firstConnected;
      lastCame = news.arrival();
    }
  }

  @Override
  public void taken(Inbound.Message message) {
    messages++;
    if (isSilent) {
      isSilent = false;
      told.accept("messages come again, after " + TimeText.duration(message.arrival() - lastCame));
    }
    lastCame = message.arrival();
  }

  /** Says once what has not been heard after the first while, and then each time that nothing comes for as long. */
  private void listen(long now) {
    if (!connected) {
      return;
    }
    if (!hasNamedMissing && now - firstConnected >= patience) {
      hasNamedMissing = true;
      isSilent = run.hearing().isNothing();
      run.hearing().missing().forEach(sentence -> told.accept("after " + TimeText.duration(patience) + ": "
          + sentence));
    } else if (hasNamedMissing && !isSilent && now - lastCame >= patience) {
      isSilent = true;
      told.accept("nothing has come for " + TimeText.duration(patience) + ", though the broker answers");
    }
  }

  @Override
  public void settled(long horizon) {
    rest.run();
    if (run == null) {
      return;
    }
    long now = clock.now();
    listen(now);
    if (board != null && now >= nextPicture) {
      nextPicture = now + PICTURE_EVERY;
      board.draw(engine.soFar(), new LiveBoard.Feed(Math.max(0, horizon), connected, messages,
          lastCame == NEVER ? 0 : now - lastCame, hasNamedMissing ? run.hearing().missing() : List.of(),
          run.evidence().items()));
    }
  }
}
