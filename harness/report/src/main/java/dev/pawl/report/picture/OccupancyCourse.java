package dev.pawl.report.picture;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.EventSink;
import dev.pawl.engine.Finding;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Zone;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * The occupancy of zones as it changes, worked out by an engine of its own, so that what is drawn is what the verdicts
 * rest on. For each zone it asks two things that cannot both be: that it is always occupied, and that it never is. What
 * is found broken is the course; where it is unknown, both find so.
 */
final class OccupancyCourse {

  private static final EngineOptions TELL_ALL = new EngineOptions(true, Integer.MAX_VALUE);

  private final List<Zone> zones = new ArrayList<>();
  private final Listener listener;
  private final RuleEngine engine;
  private long now = Long.MIN_VALUE;

  /**
   * A course that has not begun.
   *
   * @param wanted indexes of the zones whose occupancy is wanted
   */
  OccupancyCourse(RuleBook book, Set<Integer> wanted, Listener listener) {
    this.listener = listener;
    List<Rule> rules = new ArrayList<>();
    for (int zone : wanted) {
      BoolExpr occupied = new BoolExpr.Occupied(zone);
      rules.add(always(rules.size(), occupied, book.zones().get(zone)));
      rules.add(always(rules.size(), new BoolExpr.Not(occupied), book.zones().get(zone)));
      zones.add(book.zones().get(zone));
    }
    engine = new RuleEngine(new RuleBook(book.ride(), 0, book.signals(), book.zones(), rules), TELL_ALL, new Changes());
  }

  private static Rule always(int index, BoolExpr required, Zone zone) {
    return new Rule(index, "occupancy-" + index, "", Rule.Severity.MINOR, "", true,
        new Rule.Always(required, false, Optional.empty(), Optional.empty()), 0, "", zone.position());
  }

  /** Is told of each change as soon as its instant is over. */
  interface Listener {

    /**
     * A zone's occupancy changed.
     *
     * @param time nanoseconds
     * @param zone its index in the rule book
     * @param value 0, 1 or {@link EventSink#UNKNOWN}
     */
    void occupancy(long time, int zone, long value);
  }

  /** Takes an event. What it changes is told once a later time is reached. */
  void event(long time, int signal, long value, long line) {
    if (!zones.isEmpty() && engine.needs(signal)) {
      engine.event(time, signal, value, line);
      now = time;
    }
  }

  /** Tells all changes before a time; one that is not later than what came before changes nothing. */
  void advanceTo(long time) {
    if (!zones.isEmpty() && time > now) {
      engine.advanceTo(time);
      now = time;
    }
  }

  /** Tells the changes at the last instant too. */
  void finish() {
    if (now != Long.MIN_VALUE) {
      engine.finish();
    }
  }

  /** Turns what is found into changes. */
  private final class Changes implements FindingListener {

    @Override
    public void finding(Finding finding) {
      int zone = zones.get(finding.rule() / 2).index();
      boolean never = finding.rule() % 2 == 1;
      if (finding.kind() == Finding.Kind.FALSE_STATE) {
        listener.occupancy(finding.time(), zone, never ? 1 : 0);
      } else if (never) {
        listener.occupancy(finding.time(), zone, EventSink.UNKNOWN);
      }
    }

    @Override
    public void tracking(TrackingFinding finding) {
      // The counts are not what is drawn.
    }

    @Override
    public void lateResponse(int rule, long trigger, long deadline, long time) {
      // No rule here waits for a response.
    }
  }
}
