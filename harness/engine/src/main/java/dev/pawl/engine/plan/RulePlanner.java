package dev.pawl.engine.plan;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.operator.Edges;
import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.Begun;
import dev.pawl.engine.graph.Graph;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.SignalState;
import dev.pawl.engine.judge.AlwaysJudge;
import dev.pawl.engine.judge.AtOnceJudge;
import dev.pawl.engine.judge.BeforeJudge;
import dev.pawl.engine.judge.CaseFile;
import dev.pawl.engine.judge.ComparisonJudge;
import dev.pawl.engine.judge.EvidenceSignals;
import dev.pawl.engine.judge.Judge;
import dev.pawl.engine.judge.Order;
import dev.pawl.engine.judge.Reliance;
import dev.pawl.engine.judge.Slack;
import dev.pawl.engine.judge.Sparing;
import dev.pawl.engine.judge.Stay;
import dev.pawl.engine.judge.StayFor;
import dev.pawl.engine.judge.StayUntil;
import dev.pawl.engine.judge.StretchJudge.Stretch;
import dev.pawl.engine.judge.SustainedJudge;
import dev.pawl.engine.judge.ThroughoutJudge;
import dev.pawl.engine.judge.Trial;
import dev.pawl.engine.judge.TriggeredJudge.Conditions;
import dev.pawl.engine.judge.TriggeredJudge.Trigger;
import dev.pawl.engine.judge.Window;
import dev.pawl.engine.judge.WithinJudge;
import dev.pawl.engine.operator.Distance;
import dev.pawl.engine.operator.Inputs;
import dev.pawl.engine.operator.LastFalse;
import dev.pawl.engine.zone.ZoneNode;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.Proof;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.IntFunction;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Makes the judge of a rule and everything it looks at. */
final class RulePlanner {

  private final RuleBook book;
  private final Graph graph;
  private final SignalState[] signals;
  private final IntFunction<ZoneNode> zones;
  private final ExpressionPlanner expressions;
  private final ConditionPlanner conditions;
  private final DistancePlanner distances;
  private final FindingListener listener;
  private final EngineOptions options;
  private final List<Trial> trials = new ArrayList<>();
  /** What the rule that is being planned wants to stay so; null where it wants nothing to. */
  private Stay stay;
  private final Map<BoolNode, LastFalse> lastFalse = new HashMap<>();

  RulePlanner(RuleBook book, Graph graph, SignalState[] signals, IntFunction<ZoneNode> zones,
      ExpressionPlanner expressions, FindingListener listener, EngineOptions options) {
    this.book = book;
    this.graph = graph;
    this.signals = signals;
    this.zones = zones;
    this.expressions = expressions;
    this.conditions = new ConditionPlanner(book, graph, signals, expressions, options.sampling());
    this.distances = new DistancePlanner(expressions);
    this.listener = listener;
    this.options = options;
  }

  Judge plan(Rule rule) {
    stay = null;
    Slack slack = slack(rule);
    Judge judge = rule.duty().match(when -> when(rule, when, slack), always -> always(rule, always, slack));
    judge.measureBy(Allowed.by(rule, judge.marginUnit()));
    judge.tellOf(rule.proof().trials().stream().map(trial ->
        trial.match(byTrigger -> null, byEvent -> trial(rule, byEvent, slack.apart())))
        .collect(Collectors.toCollection(ArrayList::new)));
    Map<Integer, Reliance.Reader> readers = new TreeMap<>();
    readers(readers, rule.proof().conditions(), Reliance.Reader.TRIALS);
    readers(readers, rule.duty().requirements(), Reliance.Reader.REQUIREMENT);
    readers(readers, rule.duty().occasions(), Reliance.Reader.OCCASION);
    readers.forEach((zone, reader) -> zones.apply(zone).tell(judge.relyOnZone(reader)));
    return judge;
  }

  private void readers(Map<Integer, Reliance.Reader> readers, List<BoolExpr> conditions, Reliance.Reader reader) {
    RuleParts.zones(conditions, book).forEach(zone -> readers.put(zone, reader));
  }

  /** The trials of all rules that were planned. */
  List<Trial> trials() {
    return trials;
  }

  private Trial trial(Rule rule, Proof.ByEvent stated, long slack) {
    Rule.Duty duty = rule.duty();
    Optional<BoolExpr> demand = stated.ofStay() ? Optional.empty() : duty.match(
        when -> when.demand() instanceof Demand.AtOnce atOnce ? Optional.of(atOnce.required()) : Optional.empty(),
            always -> Optional.empty());
    Trial trial = graph.add(new Trial(conditions.planTrigger(stated.event(), rule.resolution(), slack),
        expressions.begun(duty.conditions()), aside(rule, stated, List.of(duty.whilst(), stated.given()), slack),
        aside(rule, stated, List.of(duty.unless(), demand), slack), stated.ofStay() ? stay
        : null, Math.max(slack, order(rule, stated.event(), duty.conditions()).before())));
    trials.add(trial);
    return trial;
  }

  private List<Trial.Aside> aside(Rule rule, Proof.ByEvent stated, List<Optional<BoolExpr>> aside, long slack) {
    return aside.stream().flatMap(Optional::stream)
        .map(condition -> new Trial.Aside(conditions.read(condition, rule.resolution(), slack),
            order(rule, stated.event(), List.of(condition)))).toList();
  }

  /** How far off the times are that a rule speaks of: by its resolution, and by the sampling period of what changed. */
  private Slack slack(Rule rule) {
    return rule.duty().match(when -> slack(rule, behindTrigger(when),
        RuleParts.signals(when.demand().conditions(), book)), always -> {
      Set<Integer> behind = RuleParts.signals(always.conditions(), book);
      return slack(rule, behind, behind);
    });
  }

  private Set<Integer> behindTrigger(Rule.When when) {
    return RuleParts.signals(Stream.concat(Stream.of(when.trigger()), when.whilst().stream()).toList(), book);
  }

  /** How far off times are: by the resolution, and by the sampling period of what changed. */
  private Slack slack(Rule rule, Set<Integer> behindTrigger, Set<Integer> behindDemand) {
    return new Slack(Moments.later(Moments.span(rule.resolution()),
        Moments.span(options.sampling().longest(behindTrigger))),
        Moments.later(Moments.span(rule.resolution()), Moments.span(options.sampling().longest(behindDemand))));
  }

  private Judge always(Rule rule, Rule.Always always, Slack times) {
    long slack = times.apart();
    BoolExpr applies = always.whilst().orElse(new BoolExpr.Constant(true));
    if (always.unless().isPresent()) {
      applies = new BoolExpr.And(applies, new BoolExpr.Not(always.unless().get()));
    }
    BoolExpr breach = new BoolExpr.And(applies, new BoolExpr.Not(always.required()));
    Dimension dimension = DistancePlanner.dimension(always.required());
    CaseFile cases = cases(rule, new EvidenceSignals(new SignalState[0], new ZoneNode[0]),
        support(new Dependencies().of(always.required()).of(applies)));
    Set<Integer> behind = RuleParts.signals(always.conditions(), book);
    Stretch stretch = new Stretch(conditions.seen(applies, rule.resolution(), slack),
        expressions.begun(always.conditions()), RuleParts.looksBack(rule),
        behind.size() < 2 ? 0 : apart(rule, behind), conditions.readBreach(breach, rule.resolution(), slack));
    BoolExpr.Compare single = singleComparison(always.required());
    if (single != null && dimension != null && (slack == 0 || !Durations.areCounted(single))) {
      return graph.add(new ComparisonJudge(rule.index(), cases, single.comparison(), expressions.plan(single.left()),
          expressions.plan(single.right()), single.tolerance(), stretch, unit(dimension)));
    }
    BoolNode required = conditions.seen(always.required(), rule.resolution(), slack);
    Distance distance = dimension == null ? null : distances.plan(always.required());
    AlwaysJudge judge = graph.add(new AlwaysJudge(rule.index(), cases, required, stretch, unit(dimension)));
    if (distance != null) {
      graph.add(judge.marginKeeper(distance));
    }
    return judge;
  }

  /** A condition that is one comparison, perhaps negated, as a comparison; null for any other. */
  private static BoolExpr.Compare singleComparison(BoolExpr condition) {
    if (condition instanceof BoolExpr.Compare e) {
      return ExpressionPlanner.constantLast(e);
    } else if (condition instanceof BoolExpr.Not not && not.operand() instanceof BoolExpr.Compare e) {
      return ExpressionPlanner.constantLast(e.negated());
    }
    return null;
  }

  private Judge when(Rule rule, Rule.When when, Slack slack) {
    Dependencies behindTrigger = new Dependencies().of(when.trigger()).of(when.whilst()).throughZones(book);
    Occasion occasion = Occasion.of(when);
    Conditions occasions = new Conditions(trigger(rule, occasion.event(), slack.apart()),
        optional(rule, occasion.states(), slack), optional(rule, when.unless(), slack),
        expressions.begun(when.conditions()), RuleParts.looksBack(rule),
        order(rule, occasion.event(), occasion.states()), order(rule, occasion.event(), when.unless()),
        sparing(rule, when, occasion, slack), slack.apart());
    Order order = ofDemand(rule, when, occasion);
    EvidenceSignals trigger = new EvidenceSignals(behindTrigger.among(signals), new ZoneNode[0]);
    CaseFile cases = cases(rule, trigger, support(new Dependencies().of(when.demand().conditions())));
    return when.demand().accept(new Demand.Visitor<>() {
      @Override public Judge visit(Demand.AtOnce e) { return atOnce(rule, occasions, cases, e, slack, order); }
      @Override public Judge visit(Demand.Within e) { return within(rule, occasions, cases, e, slack, order); }
      @Override public Judge visit(Demand.Throughout e) { return throughout(rule, occasions, cases, e, slack, order); }
      @Override public Judge visit(Demand.Before e) { return before(rule, occasions, cases, e, slack, order); }
    });
  }

  /** What raises obligations. What the event is about may not have been so, or not for so long. */
  private Trigger trigger(Rule rule, BoolExpr event, long slack) {
    BoolExpr state = event instanceof BoolExpr.Rises e ? e.operand()
        : event instanceof BoolExpr.Falls e ? new BoolExpr.Not(e.operand()) : event;
    long brief = conditions.brief(state, rule.resolution());
    if (brief == 0) {
      return new Trigger(conditions.planTrigger(event, rule.resolution(), slack), null, 0);
    }
    BoolNode read = conditions.readToRise(state, rule.resolution(), brief);
    Begun begun = expressions.begun(List.of(state));
    return new Trigger(Event.of(state == event ? read : graph.add(new Edges.Rises(read, false, begun)), begun), read,
        brief);
  }

  /** How near to what breaks an obligation the order of {@code unless} is open. */
  private Sparing.Nearness sparing(Rule rule, Rule.When when, Occasion occasion, Slack slack) {
    if (when.unless().isEmpty() || when.demand() instanceof Demand.AtOnce atOnce && atOnce.stay().isEmpty()) {
      return Sparing.Nearness.NONE;
    }
    List<BoolExpr> unless = List.of(when.unless().get());
    Set<Integer> behind = RuleParts.signals(unless, book);
    BoolExpr required = when.demand().required();
    boolean staysLate = (when.demand() instanceof Demand.Throughout || when.demand().stay().isPresent())
        && conditions.isOpen(required, rule.resolution());
    long late = staysLate ? apart(rule, RuleParts.signals(List.of(required), book)) : 0;
    return Sparing.Nearness.of(Moments.later(slack.apart(), late),
        Moments.later(Moments.span(rule.resolution()), Moments.span(options.sampling().longest(behind))),
        options.sampling().longest(RuleParts.signals(when.conditions(), book)) > 0)
        .ofUncertain(new Sparing.Doubt(order(rule, occasion.event(), unless).after(), behind.stream()
            .map(signal -> new Sparing.Behind(signals[signal], apart(rule, Set.of(signal)))).toList(),
            behind.size() < 2 ? 0 : apart(rule, behind), ConditionPlanner.haveEvents(unless)));
  }

  private Order order(Rule rule, BoolExpr event, Optional<BoolExpr> condition) {
    return order(rule, event, condition.stream().toList());
  }

  /** How near the happening of an event the changes of some conditions leave the order open. */
  private Order order(Rule rule, BoolExpr event, List<BoolExpr> conditions) {
    Set<Integer> ofEvent = RuleParts.signals(List.of(event), book);
    Set<Integer> ofConditions = RuleParts.signals(conditions, book);
    boolean scattered = options.sampling().longest(ofEvent) > 0 || options.sampling().longest(ofConditions) > 0
        || Durations.comesWithTime(event);
    return isBehind(event, conditions) ? Order.KNOWN : new Order(apart(rule, ofEvent), apart(rule, ofConditions),
        scattered, false, ofConditions.stream().map(signal -> signals[signal]).toList());
  }

  /**
   * How far apart, in moments, a change of some signals has to be from one before it, for their order to be certain.
   */
  private long apart(Rule rule, Set<Integer> later) {
    return Moments.span(Math.max(rule.resolution(), options.sampling().longest(later)));
  }

  private Judge before(Rule rule, Conditions occasions, CaseFile cases, Demand.Before demand, Slack slack,
      Order order) {
    BoolNode required = conditions.read(demand.required(), rule.resolution(), slack.apart());
    return graph.add(new BeforeJudge(rule.index(), cases, occasions, required,
        conditions.read(demand.limit(), rule.resolution(), slack.apart()), slack.apart(), order));
  }

  private Judge atOnce(Rule rule, Conditions occasions, CaseFile cases, Demand.AtOnce demand, Slack slack,
      Order order) {
    BoolNode required = conditions.read(demand.required(), rule.resolution(), slack.apart());
    if (demand.stay().isPresent()) {
      BoolNode staying = conditions.readToStay(demand.required(), rule.resolution(), slack.apart());
      return graph.add(new SustainedJudge(rule.index(), cases, occasions, required, staying, Window.atTrigger(order),
          Kind.NOT_AT_TRIGGER, null, stay(rule, demand.stay().get(), slack)));
    }
    Dimension dimension = DistancePlanner.dimension(demand.required());
    Distance distance = dimension == null ? null : distances.plan(demand.required());
    return graph.add(new AtOnceJudge(rule.index(), cases, occasions, required, order, distance,
        unit(dimension)));
  }

  /**
   * How near the trigger the order of what is demanded is open, whatever it has to stay so until. What events come to
   * in the trigger's image is so for certain, where nothing is sampled.
   */
  private Order ofDemand(Rule rule, Rule.When when, Occasion occasion) {
    List<BoolExpr> demanded = when.demand() instanceof Demand.Before before ? before.conditions()
        : List.of(when.demand().required());
    Order order = order(rule, occasion.event(), demanded);
    boolean stays = when.demand().stay().isPresent();
    boolean instant = !order.scattered() && !stays && ConditionPlanner.areInstant(demanded);
    boolean atOnce = when.demand() instanceof Demand.AtOnce && !stays;
    if (isBehind(occasion.event(), demanded) || instant && atOnce && ConditionPlanner.areOfEvents(demanded)) {
      return Order.KNOWN;
    }
    Order inImage = instant ? order.inImage() : order;
    return atOnce ? inImage.orAfter(aside(rule, when, occasion)) : inImage;
  }

  /** Whether some conditions rest on no other signals than an event. */
  private boolean isBehind(BoolExpr event, List<BoolExpr> conditions) {
    return RuleParts.signals(List.of(event), book).containsAll(RuleParts.signals(conditions, book));
  }

  /** How far apart from the trigger's event the changes have to be of what stands beside it and of {@code unless}. */
  private long aside(Rule rule, Rule.When when, Occasion occasion) {
    List<BoolExpr> aside = Stream.concat(occasion.states().stream(), when.unless().stream()).toList();
    return aside.isEmpty() ? 0 : apart(rule, RuleParts.signals(aside, book));
  }

  private Judge within(Rule rule, Conditions occasions, CaseFile cases, Demand.Within demand, Slack slack,
      Order order) {
    BoolNode required = conditions.read(demand.required(), rule.resolution(), slack.apart());
    Window window = new Window(Moments.span(demand.after()), Moments.span(demand.within()), slack, order);
    if (demand.stay().isPresent()) {
      BoolNode staying = conditions.readToStay(demand.required(), rule.resolution(), slack.apart());
      return graph.add(new SustainedJudge(rule.index(), cases, occasions, required, staying, window, Kind.NO_RESPONSE,
          lastFalse(required), stay(rule, demand.stay().get(), slack)));
    }
    return graph.add(new WithinJudge(rule.index(), cases, occasions, required, window, lastFalse(required)));
  }

  private LastFalse lastFalse(BoolNode condition) {
    return condition instanceof Inputs.BoolSignal signal ? signal
        : lastFalse.computeIfAbsent(condition, it -> graph.add(new LastFalse.OfCondition(it)));
  }

  private Judge throughout(Rule rule, Conditions occasions, CaseFile cases, Demand.Throughout demand, Slack slack,
      Order order) {
    BoolNode required = conditions.readToStay(demand.required(), rule.resolution(), slack.apart());
    Window window = new Window(Moments.span(demand.after()), Moments.span(demand.duration()), slack, order);
    Dimension dimension = DistancePlanner.dimension(demand.required());
    Distance distance = dimension == null ? null : distances.plan(demand.required());
    String unit = dimension == null ? "s" : unit(dimension);
    return graph.add(new ThroughoutJudge(rule.index(), cases, occasions, required, window, distance, unit));
  }

  private Stay stay(Rule rule, Demand.Stay stay, Slack slack) {
    this.stay = stay.match(stayFor -> new StayFor(Moments.span(stayFor.duration()), slack.apart()),
        until -> stayUntil(rule, until.release(), slack.apart()));
    return this.stay;
  }

  private StayUntil stayUntil(Rule rule, BoolExpr release, long slack) {
    LastFalse lastReleased = slack == 0 ? null
        : lastFalse(conditions.read(new BoolExpr.Not(release), rule.resolution(), slack));
    boolean scattered = slack > 0
        && options.sampling().longest(RuleParts.signals(rule.duty().conditions(), book)) > 0;
    return new StayUntil(conditions.read(release, rule.resolution(), slack), lastReleased, scattered, slack);
  }

  private EvidenceSignals support(Dependencies found) {
    return new EvidenceSignals(found.among(signals), found.zones().stream().map(zones::apply).toArray(ZoneNode[]::new));
  }

  private CaseFile cases(Rule rule, EvidenceSignals trigger, EvidenceSignals demand) {
    return new CaseFile(rule.index(), trigger, demand, listener, options.findingsPerRule());
  }

  private BoolNode optional(Rule rule, Optional<BoolExpr> condition, Slack slack) {
    return condition.isPresent() ? conditions.read(condition.get(), rule.resolution(), slack.apart()) : null;
  }

  private static String unit(Dimension dimension) {
    return dimension == null ? "" : dimension.siUnit();
  }
}
