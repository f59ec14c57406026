package dev.pawl.engine.proof;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.Finding;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.RuleOutcome;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.engine.groups.DividedEngine;
import dev.pawl.engine.reference.Judgement;
import dev.pawl.engine.reference.Trace;
import dev.pawl.engine.reference.TraceEvent;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;

/** One run of the engine over a trace, with what it said put in the form of a {@link Judgement}. */
final class EngineRun implements FindingListener {
  static final EngineOptions SHARED = new EngineOptions(true, Integer.MAX_VALUE);
  static final EngineOptions UNSHARED = new EngineOptions(false, Integer.MAX_VALUE);

  private final List<List<Finding>> told = new ArrayList<>();
  private final List<List<Judgement.Found>> findings = new ArrayList<>();
  private final List<List<Judgement.Late>> late = new ArrayList<>();
  private final List<List<Judgement.Tracked>> tracked = new ArrayList<>();
  private TraceOutcome outcome;

  private EngineRun(RuleBook book) {
    for (Rule rule : book.rules()) {
      told.add(new ArrayList<>());
      findings.add(new ArrayList<>());
      late.add(new ArrayList<>());
    }
    book.zones().forEach(zone -> tracked.add(new ArrayList<>()));
  }

  /** Feeds the engine a trace, event by event, in some way of its own. */
  interface Feed {
    void feed(RuleEngine engine, Trace trace);
  }

  static void offline(RuleEngine engine, Trace trace) {
    long line = 1;
    for (TraceEvent event : trace.events()) {
      engine.event(event.time(), event.signal(), event.value(), line++);
    }
  }

  static EngineRun of(RuleBook book, Trace trace, EngineOptions options, Feed feed) {
    EngineRun run = new EngineRun(book);
    RuleEngine engine = new RuleEngine(book, options.with(trace.sampling()), run);
    feed.feed(engine, trace);
    run.outcome = trace.statedEnd().isPresent() ? engine.finish(trace.statedEnd().getAsLong()) : engine.finish();
    return run;
  }

  /** The same on several threads, some events at a time. */
  static EngineRun divided(RuleBook book, Trace trace, int threads, int blockSize) {
    EngineRun run = new EngineRun(book);
    try (DividedEngine engine = new DividedEngine(book, SHARED.with(trace.sampling()), run, threads, blockSize)) {
      long line = 1;
      for (TraceEvent event : trace.events()) {
        engine.event(event.time(), event.signal(), event.value(), line++);
      }
      run.outcome = trace.statedEnd().isPresent() ? engine.finish(trace.statedEnd().getAsLong()) : engine.finish();
    }
    return run;
  }

  static Judgement judge(RuleBook book, Trace trace) {
    return of(book, trace, SHARED, EngineRun::offline).judgement();
  }

  @Override
  public void finding(Finding finding) {
    told.get(finding.rule()).add(finding);
    findings.get(finding.rule()).add(new Judgement.Found(finding.kind(), finding.trigger(), finding.time(),
        finding.justAfter(), finding.deadline()));
  }

  @Override
  public void tracking(TrackingFinding finding) {
    tracked.get(finding.zone()).add(new Judgement.Tracked(finding.kind(), finding.time(), finding.since()));
  }

  @Override
  public void lateResponse(int rule, long trigger, long deadline, long time) {
    late.get(rule).add(new Judgement.Late(trigger, deadline, time));
  }

  /** The findings of each rule in the order in which they were told, evidence and all. */
  List<List<Finding>> told() {
    return told;
  }

  TraceOutcome outcome() {
    return outcome;
  }

  Judgement judgement() {
    List<Judgement.OfRule> rules = new ArrayList<>();
    for (int rule = 0; rule < findings.size(); rule++) {
      List<Judgement.Found> found = findings.get(rule);
      found.sort(Comparator.comparing(Judgement.Found::trigger).thenComparing(Judgement.Found::time)
          .thenComparing(Judgement.Found::justAfter).thenComparing(Judgement.Found::kind)
          .thenComparing(Judgement.Found::deadline));
      RuleOutcome judged = outcome.rules().get(rule);
      rules.add(new Judgement.OfRule(judged.obligations(), judged.margin().map(Set::of).orElse(Set.of()),
          judged.tried(), judged.unconfirmed(), judged.watched(), found, late.get(rule)));
    }
    List<Judgement.OfZone> zones = new ArrayList<>();
    for (int zone = 0; zone < tracked.size(); zone++) {
      zones.add(new Judgement.OfZone(outcome.zones().get(zone), tracked.get(zone)));
    }
    return new Judgement(rules, zones, outcome.signals());
  }
}
