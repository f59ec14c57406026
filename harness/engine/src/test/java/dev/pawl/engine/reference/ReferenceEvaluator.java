package dev.pawl.engine.reference;

import dev.pawl.grammar.rules.model.RuleBook;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import java.util.stream.IntStream;

/**
 * The obvious evaluator: tabulates a rule book at every moment of a short trace and reads the verdicts off the tables.
 */
public final class ReferenceEvaluator {

  private ReferenceEvaluator() {}

  public static Judgement judge(RuleBook book, Trace trace) {
    Moments moments = new Moments(book, trace);
    List<Judgement.OfRule> rules = book.rules().stream()
        .map(rule -> new RuleJudge(moments, rule, trace.start()).judge()).toList();
    List<Judgement.OfZone> zones = new ArrayList<>();
    for (int zone = 0; zone < book.zones().size(); zone++) {
      ZoneTable table = moments.zone(zone);
      zones.add(new Judgement.OfZone(table.outcome(), table.findings.stream()
          .map(found -> new Judgement.Tracked(found.kind(), trace.start() + found.moment() / 2,
              found.since() < 0 ? OptionalLong.empty() : OptionalLong.of(trace.start() + found.since() / 2)))
                  .toList()));
    }
    return new Judgement(rules, zones, IntStream.range(0, book.signals().size()).mapToObj(moments::sight).toList());
  }
}
