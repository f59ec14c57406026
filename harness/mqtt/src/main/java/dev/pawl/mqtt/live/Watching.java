package dev.pawl.mqtt.live;

import dev.pawl.engine.Finding;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.mqtt.client.Inbound;
import dev.pawl.mqtt.feed.FeedListener;
import dev.pawl.mqtt.page.LiveBoard;
import dev.pawl.mqtt.time.HarnessClock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;

/**
 * Tells several listeners of findings, and draws the page's picture now and then. All on the thread that runs the
 * session.
 */
public final class Watching implements FindingListener, FeedListener {

  private static final long PICTURE_EVERY = Duration.ofMillis(200).toNanos();

  private final List<FindingListener> listeners = new ArrayList<>();
  private Consumer<String> told = words -> { };
  private LiveBoard board;
  private RuleEngine engine;
  private LiveRun run;
  private HarnessClock clock;
  private boolean connected;
  private long messages;
  private long nextPicture;

  public void add(FindingListener listener) {
    listeners.add(listener);
  }

  /** From now on news of the connection is told in words. */
  public void tell(Consumer<String> taker) {
    told = taker;
  }

  /** From now on a picture of the session is drawn. */
  public void show(LiveBoard on, RuleEngine judge, LiveRun session, HarnessClock time) {
    board = on;
    engine = judge;
    run = session;
    clock = time;
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
  }

  @Override
  public void taken(Inbound.Message message) {
    messages++;
  }

  @Override
  public void settled(long horizon) {
    if (board != null && clock.now() >= nextPicture) {
      nextPicture = clock.now() + PICTURE_EVERY;
      board.draw(engine.soFar(), Math.max(0, horizon), connected, messages, run.evidence().items());
    }
  }
}
