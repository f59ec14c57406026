package dev.pawl.engine.reference;

import static dev.pawl.engine.reference.TruthTables.and;
import static dev.pawl.engine.reference.TruthTables.not;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.Obligations;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.engine.Tried;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Proof;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.grammar.rules.model.Truth;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.stream.Stream;

/** Judges every obligation of one rule over one trace. */
final class RuleJudge {
  private final Moments moments;
  private final Rule rule;
  private final long start;
  private final Slack slack;
  /** Whether trigger and demand rest on different signals that were sampled. */
  private final boolean differ;
  private final TruthTables truths;
  private final Margins margins;
  private final Map<Ruling.Ending, Long> counts = new EnumMap<>(Ruling.Ending.class);
  private final List<Judgement.Found> findings = new ArrayList<>();
  private final List<Judgement.Late> late = new ArrayList<>();
  private final int begins;
  private final boolean looksBack;
  private long unknownTriggers;
  private long watched;
  private long miscounted;
  private final List<Long> met = new ArrayList<>();

  RuleJudge(Moments moments, Rule rule, long start) {
    this.moments = moments;
    this.rule = rule;
    this.start = start;
    Set<Integer> behindDemand = RuleParts.signals(rule.duty().match(when -> when.demand().conditions(), Rule.Always::conditions), moments.book);
    Set<Integer> behindTrigger = rule.duty().match(RuleJudge.this::behindTrigger, always -> behindDemand);
    this.slack = Slack.of(rule.resolution(), period(behindTrigger), period(behindDemand));
    this.differ = behindTrigger.stream().anyMatch(one -> behindDemand.stream()
        .anyMatch(other -> !one.equals(other) && moments.sampling.period(one) > 0 && moments.sampling.period(other) > 0));
    this.truths = moments.read(slack);
    this.margins = new Margins(start);
    this.looksBack = RuleParts.looksBack(rule);
    this.begins = moments.begins(rule.duty().conditions());
  }

  private Set<Integer> behindTrigger(Rule.When when) {
    return RuleParts.signals(Stream.concat(Stream.of(when.trigger()), when.whilst().stream()).toList(), moments.book);
  }

  private long period(Set<Integer> signals) {
    return signals.stream().mapToLong(moments.sampling::period).max().orElse(0);
  }

  /** Where the demand may have been otherwise when a trigger happened, having changed in the row that shows it. */
  private Truth[] sameRow(BoolExpr required) {
    return moments.truths.of(differ ? new BoolExpr.BoolChanges(required) : new BoolExpr.Constant(false));
  }

  Judgement.OfRule judge() {
    occasionsMiscounted();
    if (rule.duty() instanceof Rule.When when) {
      judgeWhen(when);
    } else {
      judgeAlways((Rule.Always) rule.duty());
    }
    Obligations obligations = new Obligations(count(Ruling.Ending.MET), count(Ruling.Ending.MISSED), count(Ruling.Ending.OPEN),
        count(Ruling.Ending.BORDERLINE), count(Ruling.Ending.UNKNOWN), count(Ruling.Ending.CANCELLED), unknownTriggers,
        miscounted, count(Ruling.Ending.ALREADY_SO));
    findings.sort(Comparator.comparing(Judgement.Found::trigger).thenComparing(Judgement.Found::time)
        .thenComparing(Judgement.Found::justAfter).thenComparing(Judgement.Found::kind).thenComparing(Judgement.Found::deadline));
    return new Judgement.OfRule(obligations, margins.smallest(), rule.proof().trials().stream().map(this::tried).toList(), unconfirmed(), watched, List.copyOf(findings), List.copyOf(late));
  }

  private Tried tried(Proof.Trial trial) {
    return trial.match(byTrigger -> new Tried(count(Ruling.Ending.MET), OptionalLong.empty()), this::tried);
  }

  private Tried tried(Proof.ByEvent trial) {
    Truth[] event = truths.triggers(trial.event());
    Truth[] given = tableOr(trial.given(), true);
    Truth[] whilst = tableOr(rule.duty().whilst(), true);
    Truth[] unless = tableOr(rule.duty().unless(), false);
    Truth[] demand = rule.duty() instanceof Rule.When when && when.demand() instanceof Demand.AtOnce atOnce && !trial.ofStay()
        ? truths.of(atOnce.required()) : tableOr(Optional.empty(), false);
    boolean[] staying = trial.ofStay() ? staying((Rule.When) rule.duty(), whilst, unless) : null;
    long times = 0;
    long first = 0;
    for (int m = begins; m < moments.last(); m++) {
      if (event[m] == Truth.TRUE && given[m] == Truth.TRUE && whilst[m] == Truth.TRUE && unless[m] == Truth.FALSE && demand[m] == Truth.FALSE
          && (staying == null || staying[m]) && isCertain(m)) {
        first = times == 0 ? time(m) : first;
        times++;
      }
    }
    return new Tried(times, times == 0 ? OptionalLong.empty() : OptionalLong.of(first));
  }

  private boolean isCertain(int m) {
    return wrong(RuleParts.conditions(rule)).noneMatch(finding -> finding.since() <= m && m <= finding.moment());
  }

  /** At which moments something has to stay so. */
  private boolean[] staying(Rule.When when, Truth[] whilst, Truth[] unless) {
    boolean[] staying = new boolean[moments.count];
    Truth[] trigger = truths.triggers(when.trigger());
    Form form = form(when.demand(), false);
    for (int m0 = begins; m0 < moments.count; m0++) {
      long[] stretch = whilst[m0] == Truth.TRUE && trigger[m0] == Truth.TRUE ? form.staying(m0) : null;
      if (stretch != null) {
        long end = Math.min(stretch[1], Search.first(unless, Truth.TRUE, m0));
        for (long m = stretch[0]; m < end; m++) {
          staying[(int) m] = true;
        }
      }
    }
    return staying;
  }

  /** Counts what was met from one moment to another, unless it rests on a count that was found wrong. */
  private void countMet(long from, long to) {
    if (wrong(rule.duty().conditions()).anyMatch(finding -> from <= finding.moment() && to >= finding.since())) {
      miscounted++;
    } else {
      counts.merge(Ruling.Ending.MET, 1L, Long::sum);
      met.add(to);
    }
  }

  /** The findings about the zones that some conditions read which tell that a count was wrong. */
  private Stream<ZoneTable.Found> wrong(List<BoolExpr> conditions) {
    return RuleParts.zones(conditions, moments.book).stream().flatMap(zone -> moments.zone(zone).findings.stream())
        .filter(finding -> finding.kind() != TrackingFinding.Kind.IMPOSSIBLE_ORDER);
  }

  private void occasionsMiscounted() {
    miscounted += wrong(rule.duty().occasions()).filter(finding -> finding.moment() > begins).count();
  }

  private long unconfirmed() {
    int confirmed = RuleParts.zones(rule.duty().conditions(), moments.book).stream()
        .mapToInt(zone -> moments.zone(zone).confirmedUntil()).min().orElse(Integer.MAX_VALUE);
    return met.stream().filter(decided -> decided >= confirmed).count();
  }

  private long count(Ruling.Ending ending) {
    return counts.getOrDefault(ending, 0L);
  }

  private Truth[] tableOr(Optional<BoolExpr> condition, boolean otherwise) {
    return truths.of(condition.orElse(new BoolExpr.Constant(otherwise)));
  }

  private void judgeWhen(Rule.When when) {
    Truth[] trigger = truths.triggers(when.trigger());
    Truth[] whilst = tableOr(when.whilst(), true);
    Truth[] unless = tableOr(when.unless(), false);
    Form form = form(when.demand(), false);
    for (int m = looksBack ? begins : 0; m < moments.count; m++) {
      if (whilst[m] == Truth.TRUE && trigger[m] == Truth.TRUE) {
        judgeObligation(form, unless, m);
      } else if (whilst[m] == Truth.TRUE && truths.stands(when.trigger(), m) && when.demand() instanceof Demand.Within && !looksBack) {
        judgeStanding(form, unless, m);
      }
    }
    judgePossible(when, trigger, whilst);
  }

  private void judgePossible(Rule.When when, Truth[] trigger, Truth[] whilst) {
    Truth[] unless = tableOr(when.unless(), false);
    Truth[] surelyUnless = truths.of(when.unless().orElse(new BoolExpr.Constant(false)), Truth.FALSE);
    Form form = form(when.demand(), true);
    int first = -1;
    boolean counted = false;
    for (int m = begins; m < moments.count; m++) {
      boolean unclear = Moments.isUnknown(trigger[m]) || trigger[m] == Truth.TRUE && Moments.isUnknown(whilst[m]);
      if (!unclear || whilst[m] == Truth.FALSE || unless[m] == Truth.TRUE) {
        first = -1;
        counted = false;
        continue;
      }
      first = first < 0 ? m : first;
      if (!counted && !isSafe(unless(surelyUnless, m, form.judge(m)))) {
        counted = true;
        unknownTriggers++;
        found(Kind.UNKNOWN_TRIGGER, first, first, first);
      }
    }
  }

  private static boolean isSafe(Ruling ruling) {
    return switch (ruling.ending()) {
      case MET, ALREADY_SO, CANCELLED -> true;
      case MISSED, OPEN, BORDERLINE, UNKNOWN -> false;
    };
  }

  private Form form(Demand demand, boolean surely) {
    if (demand instanceof Demand.AtOnce atOnce) {
      return Responses.of(moments, truths, atOnce, slack, surely, sameRow(atOnce.required()));
    }
    if (demand instanceof Demand.Within within) {
      return Responses.of(moments, truths, within, slack, surely);
    }
    if (demand instanceof Demand.Throughout throughout) {
      return new ThroughoutForm(moments, truths, throughout, slack, surely, sameRow(throughout.required()));
    }
    return new BeforeForm(moments, truths, (Demand.Before) demand, slack, surely);
  }

  private void judgeObligation(Form form, Truth[] unless, int m0) {
    Ruling ruling = unless(unless, m0, form.judge(m0));
    if (m0 >= begins) {
      form.measure(m0, ruling, margins);
      count(form, m0, ruling);
    } else if (ruling.ending() == Ruling.Ending.MISSED) {
      form.measureLateness(m0, ruling, margins);
      count(form, m0, ruling);
    }
  }

  private void judgeStanding(Form form, Truth[] unless, int m0) {
    Ruling ruling = unless(unless, m0, form.judge(m0));
    if (ruling.kind() == Kind.NO_RESPONSE) {
      form.measureLateness(m0, ruling, margins);
      count(form, m0, ruling);
    }
  }

  private void count(Form form, int m0, Ruling ruling) {
    if (ruling.ending() == Ruling.Ending.MET) {
      countMet(m0, ruling.decided());
      return;
    }
    counts.merge(ruling.ending(), 1L, Long::sum);
    if (ruling.ending() == Ruling.Ending.MISSED && form.response(m0) > ruling.decided() && form.response(m0) != Search.NEVER) {
      late.add(new Judgement.Late(time(m0), time(ruling.deadline()), time(form.response(m0))));
    }
    if (ruling.kind() != null) {
      found(ruling.kind(), m0, ruling.place(), ruling.deadline());
    }
  }

  private static Ruling unless(Truth[] unless, int m0, Ruling ruling) {
    long cancelled = Search.first(unless, Truth.TRUE, m0);
    if (cancelled <= ruling.decided()) {
      return Ruling.cancelled(cancelled);
    }
    Truth doubt = Search.doubt(unless, m0, ruling.decided());
    return switch (ruling.ending()) {
      case OPEN, UNKNOWN, CANCELLED, ALREADY_SO -> ruling;
      case MET, MISSED -> doubt == Truth.FALSE ? ruling : ruling.doubtedBy(doubt);
      case BORDERLINE -> doubt == Truth.UNKNOWN ? ruling.doubtedBy(doubt) : ruling;
    };
  }

  private void found(Kind kind, long trigger, long place, long deadline) {
    findings.add(new Judgement.Found(kind, time(trigger), time(place), place % 2 == 1, time(deadline)));
  }

  private long time(long moment) {
    return start + moment / 2;
  }

  private void judgeAlways(Rule.Always always) {
    Truth[] required = truths.of(always.required());
    Truth[] whilst = tableOr(always.whilst(), true);
    Truth[] unless = tableOr(always.unless(), false);
    Truth[] governed = new Truth[moments.count];
    Truth[] violated = new Truth[moments.count];
    for (int m = 0; m < moments.count; m++) {
      governed[m] = and(whilst[m], not(unless[m]));
      violated[m] = and(governed[m], not(required[m]));
    }
    for (int m = 0; m < moments.count; m++) {
      boolean enters = m == 0 || violated[m - 1] != violated[m];
      if (violated[m] == Truth.TRUE && !looksBack ? enters : violated[m] != Truth.FALSE && (m == begins || m > begins && enters)) {
        judgeViolation(violated[m], stretchStart(governed, m), m);
      }
      if (m >= begins && governed[m] == Truth.TRUE && (m == begins || governed[m - 1] != Truth.TRUE)) {
        judgeStretch(governed, violated, m);
      }
    }
    Distance.of(moments, always.required()).ifPresent(distance -> measure(distance, governed, violated));
  }

  private void judgeStretch(Truth[] governed, Truth[] violated, int from) {
    int to = from;
    boolean clean = true;
    for (; to < moments.count && governed[to] == Truth.TRUE; to++) {
      clean &= violated[to] == Truth.FALSE;
    }
    watched += (to - from) / 2;
    if (clean && from < moments.last()) {
      countMet(from, to);
    }
  }

  /** The first moment of the stretch around m in which a table keeps its value. */
  private static int stretchStart(Truth[] table, int m) {
    int first = m;
    while (first > 0 && table[first - 1] == table[m]) {
      first--;
    }
    return first;
  }

  private void judgeViolation(Truth violated, int stretchStart, int m) {
    Ruling ruling = switch (violated) {
      case TRUE -> Ruling.missed(Kind.FALSE_STATE, m, m, m);
      default -> Ruling.doubtful(violated, m, m);
    };
    counts.merge(ruling.ending(), 1L, Long::sum);
    found(ruling.kind(), stretchStart, m, m);
  }

  private void measure(Distance distance, Truth[] governed, Truth[] violated) {
    for (int m = 0; m < governed.length; m++) {
      if (governed[m] == Truth.TRUE && (m >= begins || violated[m] == Truth.TRUE && !looksBack)) {
        margins.quantity(distance.values()[m], distance.unit(), m, stretchStart(governed, m));
      }
    }
  }
}
