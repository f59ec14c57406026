package dev.pawl.engine.reference;

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
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** Judges every obligation of one rule over one trace. */
final class RuleJudge {
  private final Moments moments;
  private final Rule rule;
  private final long start;
  private final Slack slack;
  private final TruthTables truths;
  private final Reading reading;
  private final Margins margins;
  private final Sparing sparing;
  private final Map<Ruling.Ending, Long> counts = new EnumMap<>(Ruling.Ending.class);
  private final List<Judgement.Found> findings = new ArrayList<>();
  private final List<Judgement.Late> late = new ArrayList<>();
  private final int begins;
  private final boolean looksBack;
  private long unknownTriggers;
  /** When the state beside the trigger that is judged ceases, soon enough for it to have done so before. */
  private long fallsSoon;
  /** Whether the trigger that is judged may not have happened, as what it is about ceases so soon. */
  private boolean goesSoon;
  /** How soon that is. */
  private long brief;
  private long watched;
  private long miscounted;
  private final List<Long> met = new ArrayList<>();

  RuleJudge(Moments moments, Rule rule, long start) {
    this.moments = moments;
    this.rule = rule;
    this.start = start;
    Set<Integer> behindDemand = RuleParts.signals(rule.duty().match(when -> when.demand().conditions(),
        Rule.Always::conditions), moments.book);
    Set<Integer> behindTrigger = rule.duty().match(RuleJudge.this::behindTrigger, always -> behindDemand);
    this.slack = Slack.of(rule.resolution(), Order.period(moments, behindTrigger), Order.period(moments, behindDemand));
    this.truths = moments.read(slack, rule.resolution());
    this.reading = new Reading(moments, truths, rule.resolution());
    this.margins = new Margins(start);
    this.sparing = rule.duty().match(this::sparing, always -> Sparing.EXACT);
    this.looksBack = RuleParts.looksBack(rule);
    this.begins = moments.begins(rule.duty().conditions());
  }

  private Set<Integer> behindTrigger(Rule.When when) {
    return RuleParts.signals(Stream.concat(Stream.of(when.trigger()), when.whilst().stream()).toList(), moments.book);
  }

  private Sparing sparing(Rule.When when) {
    if (when.unless().isEmpty() || when.demand() instanceof Demand.AtOnce atOnce && atOnce.stay().isEmpty()) {
      return Sparing.EXACT;
    }
    long period = Order.period(moments, RuleParts.signals(when.unless().stream().toList(), moments.book));
    boolean stays = when.demand() instanceof Demand.Throughout || when.demand().stay().isPresent();
    long late = stays ? reading.of(when.demand().required()).brief() : 0;
    return Sparing.of(slack.apart() + late, 2 * (rule.resolution() + period),
        Order.period(moments, RuleParts.signals(when.conditions(), moments.book)) > 0);
  }

  /** How near the happening of an event the changes of some conditions leave the order open. */
  private Order order(BoolExpr event, List<BoolExpr> conditions) {
    return Order.of(moments, rule.resolution(), event, RuleParts.signals(conditions, moments.book), begins);
  }

  private Order ofDemand(Rule.When when) {
    List<BoolExpr> ordered = when.demand() instanceof Demand.Before before ? before.conditions()
        : List.of(when.demand().required());
    List<BoolExpr> compared = new ArrayList<>(ordered);
    Set<Integer> event = RuleParts.signals(List.of(Beside.event(when.trigger())), moments.book);
    Set<Integer> demanded = RuleParts.signals(compared, moments.book);
    if (when.demand() instanceof Demand.AtOnce atOnce && atOnce.stay().isEmpty()) {
      when.unless().ifPresent(compared::add);
      compared.addAll(states(when));
    }
    Order order = Order.of(moments, rule.resolution(), Beside.event(when.trigger()), demanded, begins);
    boolean mixed = when.demand() instanceof Demand.AtOnce && ordered.stream().anyMatch(Condition::isMixed);
    boolean instant = !order.scattered() && Condition.haveEvents(ordered) && when.demand().stay().isEmpty()
        && ordered.stream().noneMatch(Condition::hasDurations);
    boolean known = event.containsAll(demanded) || instant && when.demand() instanceof Demand.AtOnce && !mixed;
    return known ? Order.KNOWN : new Order(order.before(),
        2 * Math.max(rule.resolution(), Order.period(moments, RuleParts.signals(compared, moments.book))),
            order.scattered(), instant, begins, order.changes());
  }

  private Order ofPossible(Rule.When when) {
    return when.demand() instanceof Demand.Within || when.demand() instanceof Demand.Before ? Order.KNOWN
        : ofDemand(when).ofPossible();
  }

  /** What stands beside a trigger's event, contested where it may have been otherwise when that happened. */
  private Truth[] beside(Rule.When when, Truth[] trigger) {
    return contested(besides(when), ofStates(when), trigger);
  }

  private Condition besides(Rule.When when) {
    return reading.of(states(when).stream().reduce(BoolExpr.And::new).orElse(new BoolExpr.Constant(true)));
  }

  private Order ofStates(Rule.When when) {
    return order(Beside.event(when.trigger()), states(when));
  }

  private Order ofUnless(Rule.When when) {
    return when.unless().isPresent() ? order(Beside.event(when.trigger()), List.of(when.unless().get())) : Order.KNOWN;
  }

  private static List<BoolExpr> states(Rule.When when) {
    List<BoolExpr> states = new ArrayList<>(Beside.states(when.trigger()));
    when.whilst().ifPresent(states::add);
    return states;
  }

  /**
   * The first moment after m0, near enough for their order to be open, at which a condition is not what it was;
   * {@link Search#NEVER} for none.
   */
  private static long changesSoon(Condition condition, Order order, int m0) {
    Truth[] seen = condition.seen();
    for (int m = m0 + 1; m < m0 + order.after() && m < seen.length; m++) {
      if (seen[m] != seen[m0] && seen[m] != Truth.BORDERLINE || condition.wavers()[m]) {
        return m;
      }
    }
    return Search.NEVER;
  }

  /** A condition, borderline where it may have been otherwise when an event happened. */
  private static Truth[] contested(Condition condition, Order order, Truth[] event) {
    Truth[] contested = condition.read();
    for (int m = 0; m < contested.length; m++) {
      if (event[m] == Truth.TRUE && !Moments.isUnknown(contested[m]) && order.contests(condition, m)) {
        contested[m] = Truth.BORDERLINE;
      }
    }
    return contested;
  }

  Judgement.OfRule judge() {
    occasionsMiscounted();
    if (rule.duty() instanceof Rule.When when) {
      judgeWhen(when);
    } else {
      judgeAlways((Rule.Always) rule.duty());
    }
    Obligations obligations = new Obligations(count(Ruling.Ending.MET), count(Ruling.Ending.MISSED),
        count(Ruling.Ending.OPEN), count(Ruling.Ending.BORDERLINE), count(Ruling.Ending.UNKNOWN),
        count(Ruling.Ending.CANCELLED), unknownTriggers, miscounted, count(Ruling.Ending.ALREADY_SO));
    findings.sort(Comparator.comparing(Judgement.Found::trigger).thenComparing(Judgement.Found::time)
        .thenComparing(Judgement.Found::justAfter).thenComparing(Judgement.Found::kind)
            .thenComparing(Judgement.Found::deadline));
    return new Judgement.OfRule(obligations, margins.smallest(), rule.proof().trials().stream().map(this::tried)
        .toList(), unconfirmed(), watched, List.copyOf(findings), List.copyOf(late));
  }

  private Tried tried(Proof.Trial trial) {
    return trial.match(byTrigger -> new Tried(count(Ruling.Ending.MET), OptionalLong.empty()), this::tried);
  }

  private Tried tried(Proof.ByEvent trial) {
    Truth[] event = truths.triggers(trial.event());
    List<BoolExpr> conditions = new ArrayList<>();
    trial.given().ifPresent(conditions::add);
    rule.duty().whilst().ifPresent(conditions::add);
    rule.duty().unless().ifPresent(conditions::add);
    Truth[] given = tableOr(trial.given(), true);
    Truth[] whilst = tableOr(rule.duty().whilst(), true);
    Truth[] unless = tableOr(rule.duty().unless(), false);
    Truth[] demand = tableOr(Optional.empty(), false);
    if (rule.duty() instanceof Rule.When when && when.demand() instanceof Demand.AtOnce atOnce && !trial.ofStay()) {
      demand = reading.of(atOnce.required()).read();
      conditions.add(atOnce.required());
    }
    boolean[] staying = trial.ofStay() ? staying((Rule.When) rule.duty()) : null;
    long times = 0;
    long first = 0;
    for (int m = begins; m + Math.max(slack.apart(), order(trial.event(), rule.duty().conditions())
        .before()) < moments.last(); m++) {
      if (event[m] == Truth.TRUE && given[m] == Truth.TRUE && whilst[m] == Truth.TRUE && unless[m] == Truth.FALSE
          && demand[m] == Truth.FALSE && (staying == null || staying[m]) && isCertain(m)
          && !areContested(conditions, trial.event(), m)) {
        first = times == 0 ? time(m) : first;
        times++;
      }
    }
    return new Tried(times, times == 0 ? OptionalLong.empty() : OptionalLong.of(first));
  }

  private boolean areContested(List<BoolExpr> conditions, BoolExpr event, int m) {
    return conditions.stream().anyMatch(condition -> order(event, List.of(condition))
        .contests(reading.of(condition), m));
  }

  private boolean isCertain(int m) {
    return wrong(RuleParts.conditions(rule)).noneMatch(finding -> finding.since() <= m && m <= finding.moment());
  }

  /** At which moments something has to stay so. */
  private boolean[] staying(Rule.When when) {
    boolean[] staying = new boolean[moments.count];
    BoolExpr event = Beside.event(when.trigger());
    Truth[] trigger = triggers(event, TriggerState.of(event, moments, rule.resolution()));
    Truth[] whilst = beside(when, trigger);
    Truth[] unless = tableOr(when.unless(), false);
    Form form = form(when, false);
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
    return condition(condition, otherwise).read();
  }

  private Condition condition(Optional<BoolExpr> condition, boolean otherwise) {
    return reading.of(condition.orElse(new BoolExpr.Constant(otherwise)));
  }

  private Truth[] triggers(BoolExpr event, TriggerState state) {
    return state.brief() == 0 ? truths.triggers(event) : moments.truths.rises(state.state(), state.rising());
  }

  private void judgeWhen(Rule.When when) {
    BoolExpr event = Beside.event(when.trigger());
    TriggerState state = TriggerState.of(event, moments, rule.resolution());
    brief = state.brief();
    Truth[] trigger = triggers(event, state);
    Truth[] whilst = beside(when, trigger);
    Condition spares = condition(when.unless(), false);
    Truth[] unless = contested(spares, ofUnless(when), trigger);
    Form form = form(when, false);
    Condition besides = besides(when);
    for (int m = looksBack ? begins : 0; m < moments.count; m++) {
      fallsSoon = changesSoon(besides, ofStates(when), m);
      goesSoon = state.goesSoon(m);
      boolean refused = whilst[m] == Truth.FALSE && fallsSoon < Search.first(unless, Truth.TRUE, m)
          || whilst[m] == Truth.TRUE && unless[m] == Truth.TRUE
              && changesSoon(spares, ofUnless(when), m) < Search.NEVER;
      if (m >= begins && trigger[m] == Truth.TRUE && refused) {
        unknownTriggers++;
        found(Kind.UNKNOWN_TRIGGER, m, m, m);
      }
      if (whilst[m] == Truth.TRUE && trigger[m] == Truth.TRUE) {
        judgeObligation(form, spares, ofUnless(when), unless, m);
      } else if (whilst[m] == Truth.TRUE && truths.stands(event, m) && when.demand() instanceof Demand.Within within
          && !looksBack) {
        judgeStanding(form(when, new Demand.Within(within.required(), within.after(), within.within(),
            Optional.empty()), false), unless, m);
      }
    }
    judgePossible(when, trigger, whilst, unless);
  }

  private void judgePossible(Rule.When when, Truth[] trigger, Truth[] whilst, Truth[] unless) {
    Truth[] surelyUnless = Arrays.stream(unless).map(truth -> truth == Truth.TRUE ? truth : Truth.FALSE)
        .toArray(Truth[]::new);
    Form form = form(when, true);
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
      if (!counted && (endsSoon(when, m, Search.first(unless, Truth.TRUE, m))
          || !isSafe(unless(surelyUnless, m, form.judge(m).decided(), form.judge(m))))) {
        counted = true;
        unknownTriggers++;
        found(Kind.UNKNOWN_TRIGGER, first, first, first);
      }
    }
  }

  /**
   * Whether a response that is so at a possible trigger is not so soon after it, so that it may have ended before;
   * it is cancelled at a moment.
   */
  private boolean endsSoon(Rule.When when, int m, long cancelled) {
    Optional<BoolExpr> response = when.demand() instanceof Demand.AtOnce atOnce ? Optional.of(atOnce.required())
        : when.demand() instanceof Demand.Within within && within.after() == 0 ? Optional.of(within.required())
            : Optional.empty();
    if (response.isEmpty()) {
      return false;
    }
    Truth[] table = reading.of(response.get()).read();
    long last = Math.min(Math.min(m + ofDemand(when).after() - 1, moments.last()), cancelled - 1);
    for (int soon = m + 1; table[m] == Truth.TRUE && soon <= last; soon++) {
      if (table[soon] != Truth.TRUE) {
        return true;
      }
    }
    return false;
  }

  private static boolean isSafe(Ruling ruling) {
    return switch (ruling.ending()) {
      case MET, ALREADY_SO, CANCELLED -> true;
      case MISSED, OPEN, BORDERLINE, UNKNOWN -> false;
    };
  }

  private Form form(Rule.When when, boolean surely) {
    return form(when, when.demand(), surely);
  }

  private Form form(Rule.When when, Demand demand, boolean surely) {
    Order order = surely ? ofPossible(when) : ofDemand(when);
    boolean scattered = Order.period(moments, RuleParts.signals(when.conditions(), moments.book)) > 0;
    if (demand instanceof Demand.AtOnce atOnce) {
      return Responses.of(moments, reading, atOnce, slack, order, surely, scattered);
    }
    if (demand instanceof Demand.Within within) {
      return Responses.of(moments, reading, within, slack, order, surely, scattered);
    }
    if (demand instanceof Demand.Throughout throughout) {
      return new ThroughoutForm(moments, reading, throughout, slack, order, surely);
    }
    return new BeforeForm(moments, reading, (Demand.Before) demand, slack, order, surely);
  }

  private void judgeObligation(Form form, Condition spares, Order ofUnless, Truth[] unless, int m0) {
    Ruling judged = form.judge(m0);
    Ruling ruling = sparing.isExact() || unless[m0] == Truth.TRUE
        ? unless(unless, m0, form.cancellable(m0, judged), judged) : spared(unless, m0, judged);
    Truth doubt = ruling.ending() == Ruling.Ending.CANCELLED ? form.doubtBefore(m0, spares(unless, m0)) : Truth.FALSE;
    if (doubt == Truth.FALSE && ruling.ending() == Ruling.Ending.CANCELLED && !sparing.isExact()
        && unless[m0] != Truth.TRUE && spares.ceasesSoon(m0, spares(unless, m0), comesBefore(spares, ofUnless, spares(unless, m0)))) {
      doubt = Truth.BORDERLINE;
    }
    if (doubt != Truth.FALSE && unless[m0] != Truth.TRUE) {
      ruling = Ruling.doubtful(doubt, ruling.decided(), ruling.decided());
      if (m0 >= begins) {
        form.measure(m0, Ruling.cancelled(ruling.decided()), spares(unless, m0), margins);
        count(form, m0, ruling);
      }
      return;
    }
    boolean heldOnly = isHeldOnly(unless, m0, judged, ruling) && fallsSoon > judged.decided();
    if (ruling.ending() == Ruling.Ending.MISSED && fallsSoon <= ruling.decided()) {
      ruling = ruling.doubtedBy(Truth.BORDERLINE);
    }
    if (m0 >= begins) {
      form.measure(m0, heldOnly ? judged : ruling, sparing.isExact() ? Search.NEVER : spares(unless, m0), margins);
      count(form, m0, told(ruling));
    } else if (ruling.ending() == Ruling.Ending.MISSED) {
      form.measureLateness(m0, ruling, margins);
      countMissed(form, m0, ruling);
    } else if (heldOnly) {
      form.measureLateness(m0, judged, margins);
    }
  }

  /** How many moments, at most, a condition may have come before one at which it comes, by what changed then. */
  private long comesBefore(Condition condition, Order order, long m) {
    List<Integer> changed = RuleParts.signals(List.of(condition.expression()), moments.book).stream()
        .filter(signal -> moments.changes(Set.of(signal)).contains((int) m)).toList();
    return changed.isEmpty() ? order.after()
        : Math.min(order.after(), 2 * Math.max(rule.resolution(), Order.period(moments, changed)));
  }

  /** What becomes of an obligation whose trigger may not have happened. */
  private Ruling told(Ruling ruling) {
    return goesSoon && ruling.ending() == Ruling.Ending.MISSED ? ruling.doubtedBy(Truth.BORDERLINE) : ruling;
  }

  /** Whether a missed obligation is undecided only since {@code unless} came so soon afterwards. */
  private static boolean isHeldOnly(Truth[] unless, int m0, Ruling judged, Ruling ruling) {
    return ruling.ending() == Ruling.Ending.BORDERLINE && judged.ending() == Ruling.Ending.MISSED
        && spares(unless, m0) > judged.decided() && Search.doubt(unless, m0, judged.decided()) == Truth.FALSE;
  }

  private static long spares(Truth[] unless, int m0) {
    return Search.first(unless, Truth.TRUE, m0);
  }

  private Ruling spared(Truth[] unless, int m0, Ruling judged) {
    long rise = spares(unless, m0);
    Ruling ruling = rise == Search.NEVER ? judged : sparing.applyTo(m0, judged, rise);
    return ruling.ending() == Ruling.Ending.CANCELLED ? ruling : doubted(unless, m0, judged, ruling);
  }

  /** Judges an obligation that arose before anybody looked. Of it counts only that a response may not have come. */
  private void judgeStanding(Form form, Truth[] unless, int m0) {
    Ruling judged = form.judge(m0);
    if (judged.kind() == null) {
      return;
    }
    Ruling ruling = sparing.isExact() || unless[m0] == Truth.TRUE ? unless(unless, m0, judged.decided(), judged)
        : spared(unless, m0, judged);
    if (ruling.ending() == Ruling.Ending.MISSED) {
      form.measureLateness(m0, ruling, margins);
    } else if (isHeldOnly(unless, m0, judged, ruling)) {
      form.measureLateness(m0, judged, margins);
    }
    Ruling told = told(ruling);
    if (told.kind() != null && (m0 >= begins || told.ending() == Ruling.Ending.MISSED)) {
      count(form, m0, told);
    }
  }

  /** Counts a missed obligation of which only matters that it is. */
  private void countMissed(Form form, int m0, Ruling missed) {
    if (!goesSoon) {
      count(form, m0, missed);
    }
  }

  private void count(Form form, int m0, Ruling ruling) {
    if (ruling.ending() == Ruling.Ending.MET) {
      countMet(m0, ruling.decided());
      return;
    }
    counts.merge(ruling.ending(), 1L, Long::sum);
    long told = Math.max(Math.max(ruling.decided(), ruling.place() + sparing.after() - 1), m0 + brief - 1);
    if (ruling.ending() == Ruling.Ending.MISSED && form.response(m0) > told
        && form.response(m0) != Search.NEVER) {
      late.add(new Judgement.Late(time(m0), time(ruling.deadline()), time(form.response(m0))));
    }
    if (ruling.kind() != null) {
      found(ruling.kind(), m0, ruling.place(), ruling.deadline());
    }
  }

  private static Ruling unless(Truth[] unless, int m0, long cancellable, Ruling ruling) {
    long cancelled = Search.first(unless, Truth.TRUE, m0);
    if (cancelled <= cancellable) {
      return Ruling.cancelled(cancelled);
    }
    Truth doubt = Search.doubt(unless, m0, ruling.decided());
    if (doubt == Truth.FALSE && cancelled <= ruling.decided()) {
      doubt = Truth.BORDERLINE;
    }
    return doubted(doubt, ruling);
  }

  private static Ruling doubted(Truth[] unless, int m0, Ruling judged, Ruling ruling) {
    return doubted(Search.doubt(unless, m0, judged.decided()), ruling);
  }

  private static Ruling doubted(Truth doubt, Ruling ruling) {
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
    BoolExpr applies = always.whilst().orElse(new BoolExpr.Constant(true));
    if (always.unless().isPresent()) {
      applies = new BoolExpr.And(applies, new BoolExpr.Not(always.unless().get()));
    }
    Truth[] governed = truths.of(applies);
    Condition breach = reading.of(new BoolExpr.And(applies, new BoolExpr.Not(always.required())));
    Truth[] violated = breach.read();
    for (int m = 0; m < moments.count; m++) {
      violated[m] = breach.seen()[m] == Truth.TRUE ? Truth.TRUE : violated[m];
    }
    Set<Integer> signals = RuleParts.signals(always.conditions(), moments.book);
    long doubtful = signals.size() < 2 ? 0 : 2 * Math.max(rule.resolution(), Order.period(moments, signals));
    for (int m = 0; m < moments.count; m++) {
      boolean enters = m == 0 || violated[m - 1] != violated[m];
      if (violated[m] == Truth.TRUE && !looksBack ? enters : violated[m] != Truth.FALSE
          && (m == begins || m > begins && enters)) {
        judgeViolation(isOpen(breach, violated, m, doubtful) ? Truth.BORDERLINE : violated[m],
            governed[m] == Truth.FALSE ? m : stretchStart(governed, m), m);
      }
      if (m >= begins && governed[m] == Truth.TRUE && (m == begins || governed[m - 1] != Truth.TRUE)) {
        judgeStretch(governed, violated, m);
      }
    }
    Distance.of(moments, always.required()).ifPresent(distance -> measure(distance, governed, violated));
  }

  /**
   * Whether a stretch from a moment on in which a rule seems to be broken may be none. One that an event makes depends
   * on what turns beside that, any other on how long it is.
   */
  private boolean isOpen(Condition breach, Truth[] violated, int from, long doubtful) {
    if (violated[from] != Truth.TRUE || doubtful == 0) {
      return false;
    }
    long until = from + doubtful;
    return until > violated.length || (breach.happens()[from] ? breach.waversIn(from, until - 1)
        : IntStream.range(from, (int) until).anyMatch(m -> violated[m] != Truth.TRUE));
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
