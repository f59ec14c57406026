package dev.pawl.mqtt.support;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.EventSink;
import dev.pawl.engine.Finding;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.grammar.rules.Compilation;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Source;
import java.util.ArrayList;
import java.util.List;

/** A small invented ride: two inputs, three outputs, four rules. */
public final class Ride {

  public static final long MS = 1_000_000L;

  public static final String RULES = """
      ride "Test ride"

      type mode = one of (off, auto)

      input  near_flag   : bool
      input  estop_chain : bool
      output lift_run    : bool
      output lift_speed  : m/s
      output lift_mode   : mode

      rule LIFT-01 "A train near the lift starts it"
        basis practice
        when rises(near_flag)
        must lift_run within 300 ms

      rule STOP-01 "E-stop stops the lift"
        severity critical
        basis practice
        when falls(estop_chain)
        must not lift_run within 300 ms

      rule SPEED-01 "The lift never runs too fast"
        basis practice
        never lift_speed > 3 m/s

      rule MODE-01 "The lift runs in automatic only"
        basis practice
        when rises(lift_run)
        must lift_mode = auto
      """;

  public static final RuleBook BOOK = book(RULES);

  private Ride() {}

  public static RuleBook book(String rules) {
    Compilation compilation = RuleLanguage.compile(List.of(new Source("test.rules", rules)), SourceLoader.none());
    return compilation.book().orElseThrow(() -> new AssertionError(compilation.rendered()));
  }

  public static int signal(String name) {
    return BOOK.signals().stream().filter(s -> s.name().equals(name)).findFirst().orElseThrow().index();
  }

  /** The findings of an engine as it tells them. */
  public static final class Findings implements FindingListener {

    public final List<Finding> list = new ArrayList<>();
    public final List<TrackingFinding> trackings = new ArrayList<>();

    @Override
    public synchronized void finding(Finding finding) {
      list.add(finding);
    }

    @Override
    public void tracking(TrackingFinding finding) {
      trackings.add(finding);
    }

    @Override
    public void lateResponse(int rule, long trigger, long deadline, long time) {
      // Only for people.
    }

    public synchronized int count() {
      return list.size();
    }
  }

  public static RuleEngine engine(FindingListener listener) {
    return new RuleEngine(BOOK, EngineOptions.DEFAULT, listener);
  }

  /** Events as they came out. */
  public record Event(long time, int signal, long value) {}

  /** Keeps all events, and how far time came. */
  public static final class Kept implements EventSink {

    private final List<Event> events = new ArrayList<>();
    private long time = Long.MIN_VALUE;

    @Override
    public synchronized void event(long at, int signal, long value, long line) {
      if (at < time) {
        throw new AssertionError("time went back from " + time + " to " + at);
      }
      time = at;
      events.add(new Event(at, signal, value));
    }

    @Override
    public synchronized void advanceTo(long at) {
      if (at < time) {
        throw new AssertionError("time went back from " + time + " to " + at);
      }
      time = at;
    }

    public synchronized List<Event> events() {
      return List.copyOf(events);
    }

    public synchronized int count() {
      return events.size();
    }

    /** How far time came. */
    public synchronized long time() {
      return time;
    }
  }
}
