package dev.pawl.run.control;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.EventSink;
import dev.pawl.engine.Finding;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.Obligations;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Comparisons;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Proof;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.logic.SignalBinding;
import dev.pawl.report.collect.FindingCollector;
import dev.pawl.report.collect.ResultBuilder;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.ValueText;
import dev.pawl.run.EventSource;
import dev.pawl.trace.intake.Progress;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.stream.DoubleStream;
import java.util.stream.LongStream;

/**
 * Runs logic again with one input turned, to see whether it guards what a rule demands of that input: where the rule's
 * trigger comes all the same, nothing does. A rule is challenged if its trigger reads what the logic gives, and if what
 * it demands then rests on inputs of the logic at that moment.
 */
final class Challenges {

  /** From so long before a trigger on the input is turned. */
  private static final long LEAD = 1_000_000_000L;
  /** No sooner than so long after a source begins, so that it is seen to turn. */
  private static final long AFTER_BEGIN = 1_000_000L;
  /** So many triggers of a rule are challenged, the first of a run. */
  private static final int TRIGGERS = 3;
  /** So many runs are made for one trace. */
  private static final int MOST = 200;

  private final LogicSource source;
  private final RuleBook book;
  private final SignalBinding binding;
  private final Map<String, Count> counts = new TreeMap<>();
  private final List<List<FindingResult>> given = new ArrayList<>();
  private long begin = Long.MIN_VALUE;
  private int made;
  private int leftOut;

  Challenges(LogicSource source, RuleBook book, SignalBinding binding) {
    this.source = source;
    this.book = book;
    this.binding = binding;
    book.rules().forEach(rule -> given.add(new ArrayList<>()));
  }

  /**
   * How often a rule was challenged.
   *
   * @param met how often the trigger came all the same, and what is demanded was so nevertheless
   * @param held how often it did not come, but came with the input turned back before it
   * @param unclear how often it came neither way, or was not tried the other way
   */
  private record Count(int challenged, int met, int held, int unclear) {
    Count and(Count other) {
      return new Count(challenged + other.challenged, met + other.met, held + other.held, unclear + other.unclear);
    }
  }

  /** What became of the trigger in a run with an input turned. */
  private enum Outcome {
    BROKEN, MET, AWAY
  }

  /** A trigger of a rule, with the values of all signals at it. */
  private record Occasion(Rule rule, long time, long[] values) {}

  /** A result with what the challenges show. */
  TraceResult added(TraceResult result) throws IOException {
    for (Occasion occasion : occasions()) {
      for (int signal : RuleParts.signals(occasion.rule().duty().requirements(), book)) {
        for (long other : isFed(signal) ? turned(occasion, signal) : new long[0]) {
          if (made >= MOST) {
            leftOut++;
          } else {
            counts.merge(occasion.rule().id(), challenge(occasion, signal, other, result.timeBase()), Count::and);
          }
        }
      }
    }
    List<RuleResult> rules = result.rules().stream().map(rule -> with(rule, given.get(rule.rule().index()))).toList();
    Reading met = result.reading();
    List<Reading.Counter> counters = new ArrayList<>(met.counters());
    counters.addAll(counters());
    return new TraceResult(result.path(), result.timeBase(), result.start(), result.end(), result.lines(),
        result.events(), result.overwritten(), result.partial(),
        new Reading(counters, met.problems(), met.problemCount(), met.failure()), rules, result.zones(),
        result.truth());
  }

  private static RuleResult with(RuleResult rule, List<FindingResult> findings) {
    if (findings.isEmpty()) {
      return rule;
    }
    Obligations counts = rule.obligations();
    List<FindingResult> broken = new ArrayList<>(rule.broken());
    broken.addAll(findings);
    return new RuleResult(rule.rule(), new Obligations(counts.met(), counts.missed() + findings.size(), counts.open(),
        counts.borderline(), counts.unknown(), counts.cancelled(), counts.unknownTriggers(), counts.miscounted(),
        counts.alreadySo()), rule.margin(), rule.seen(), broken, rule.doubtful());
  }

  private List<Reading.Counter> counters() {
    List<Reading.Counter> counters = new ArrayList<>();
    if (!counts.isEmpty()) {
      counters.add(new Reading.Counter("challenges, each of one input turned from " + TimeText.duration(LEAD)
          + " before a trigger on", counts.values().stream().mapToInt(Count::challenged).sum()));
    }
    counts.forEach((rule, count) -> {
      counters.add(new Reading.Counter("challenges of " + rule, count.challenged()));
      count(counters, rule, "came, and what it demands was so nevertheless", count.met());
      count(counters, rule, "did not come, but came with the input turned back before it: the input at that moment "
          + "kept it away", count.held());
      count(counters, rule, "did not come, also with the input turned back before it: another cause may have kept it "
          + "away, so that this says nothing of a guard", count.unclear());
    });
    if (leftOut > 0) {
      counters.add(new Reading.Counter("challenges left out, beyond " + MOST, leftOut));
    }
    return counters;
  }

  private static void count(List<Reading.Counter> counters, String rule, String outcome, int count) {
    if (count > 0) {
      counters.add(new Reading.Counter("challenges of " + rule + " in which its trigger " + outcome, count));
    }
  }

  private boolean isFed(int signal) {
    return binding.binds(signal) && !binding.gives(signal);
  }

  /** The first triggers of each rule that can be challenged: where it would be missed if it demanded what never is. */
  private List<Occasion> occasions() throws IOException {
    List<Rule> rules = book.rules().stream().filter(this::canBeChallenged).toList();
    List<Rule> probes = new ArrayList<>();
    for (Rule rule : rules) {
      probes.add(probe(rule, probes.size()));
    }
    List<Occasion> occasions = new ArrayList<>();
    if (!rules.isEmpty()) {
      long[] values = new long[book.signals().size()];
      Arrays.fill(values, EventSink.UNKNOWN);
      RuleEngine engine = new RuleEngine(bookOf(probes), new EngineOptions(true, TRIGGERS), listener(finding -> {
        if (finding.kind().breaks()) {
          occasions.add(new Occasion(rules.get(finding.rule()), finding.trigger(), values.clone()));
        }
      }));
      run(source.forAnotherLook(), engine, values).end().ifPresent(engine::finish);
    }
    return occasions;
  }

  /** The rule with a demand that is never met, so that each trigger is told. */
  private static Rule probe(Rule rule, int index) {
    Rule.When when = (Rule.When) rule.duty();
    return numbered(rule, index, new Rule.When(when.trigger(), when.whilst(), when.unless(),
        new Demand.AtOnce(new BoolExpr.Constant(false), Optional.empty()))).withResolution(0);
  }

  private boolean canBeChallenged(Rule rule) {
    return rule.duty().match(when -> when.demand().accept(IS_OF_THE_TRIGGER)
        && !RuleParts.looksBackBeyondZones(when.demand().required())
        && RuleParts.signals(List.of(when.trigger()), book).stream().anyMatch(binding::gives), always -> false);
  }

  /** Whether what it demands has to be so at the trigger already. */
  private static final Demand.Visitor<Boolean> IS_OF_THE_TRIGGER = new Demand.Visitor<>() {
    @Override
    public Boolean visit(Demand.AtOnce demand) {
      return true;
    }

    @Override
    public Boolean visit(Demand.Within demand) {
      return false;
    }

    @Override
    public Boolean visit(Demand.Throughout demand) {
      return demand.after() == 0;
    }

    @Override
    public Boolean visit(Demand.Before demand) {
      return false;
    }
  };

  /**
   * Values of an input by which what is demanded would not be so at the occasion: a train in a zone is made by the flag
   * at which one enters.
   */
  private long[] turned(Occasion occasion, int signal) {
    Rule.When when = (Rule.When) occasion.rule().duty();
    BoolExpr demanded = when.demand().required();
    if (RuleParts.looksBack(demanded)) {
      boolean enters = RuleParts.zones(List.of(demanded), book).stream().anyMatch(zone -> book.zones().get(zone).entry()
          .match(edge -> edge.event() instanceof BoolExpr.Rises rises && rises.operand() instanceof BoolExpr.Signal flag
              && flag.signal() == signal, pair -> false));
      return enters && occasion.values()[signal] == 0 ? new long[] {1} : new long[0];
    }
    return others(occasion, signal).filter(value -> {
      long[] values = occasion.values().clone();
      values[signal] = value;
      return isFalse(occasion.rule(), demanded, values);
    }).distinct().toArray();
  }

  private LongStream others(Occasion occasion, int signal) {
    Signal input = book.signals().get(signal);
    long now = occasion.values()[signal];
    return input.type().match(
        bool -> LongStream.of(0, 1).filter(value -> value != now),
        members -> LongStream.range(0, members.names().size()).filter(value -> value != now),
        number -> aroundBounds(occasion.rule()));
  }

  private static LongStream aroundBounds(Rule rule) {
    return Comparisons.of(rule).stream().flatMap(each -> List.of(each.left(), each.right()).stream())
        .filter(NumExpr.Constant.class::isInstance).mapToDouble(bound -> ((NumExpr.Constant) bound).value())
        .flatMap(bound -> DoubleStream.of(bound - 0.1 * Math.abs(bound), bound + 0.1 * Math.abs(bound)))
        .mapToLong(Double::doubleToRawLongBits);
  }

  /** Whether a condition that rests on the moment's values is false with these. */
  private boolean isFalse(Rule rule, BoolExpr condition, long[] values) {
    Rule always = numbered(rule, 0, new Rule.Always(condition, false, Optional.empty(), Optional.empty()))
        .withResolution(0);
    RuleEngine engine = new RuleEngine(bookOf(List.of(always)), EngineOptions.DEFAULT, listener(finding -> { }));
    for (int signal = 0; signal < values.length; signal++) {
      if (values[signal] != EventSink.UNKNOWN) {
        engine.event(0, signal, values[signal], 0);
      }
    }
    return engine.finish(0).rules().get(0).obligations().missed() > 0;
  }

  /**
   * Turns an input before an occasion. Where the trigger then does not come, it is turned once more, and back half way
   * to the trigger, to see whether its value at the trigger kept that away.
   */
  private Count challenge(Occasion occasion, int signal, long value, TimeBase base) throws IOException {
    long from = Math.max(occasion.time() - LEAD, begin + AFTER_BEGIN);
    long until = occasion.time() + LEAD;
    Outcome turned = outcome(occasion, new Turn(signal, value, from, Long.MAX_VALUE, until), base);
    if (turned != Outcome.AWAY) {
      return new Count(1, turned == Outcome.MET ? 1 : 0, 0, 0);
    }
    Outcome back = made >= MOST ? Outcome.AWAY
        : outcome(occasion, new Turn(signal, value, from, from + (occasion.time() - from) / 2, until), base);
    return new Count(1, 0, back == Outcome.MET ? 1 : 0, back == Outcome.AWAY ? 1 : 0);
  }

  private Outcome outcome(Occasion occasion, Turn turn, TimeBase base) throws IOException {
    made++;
    RuleBook both = bookOf(List.of(numbered(occasion.rule(), 0, occasion.rule().duty()), probe(occasion.rule(), 1)));
    FindingCollector findings = new FindingCollector(both, 1);
    RuleEngine engine = new RuleEngine(both, EngineOptions.DEFAULT, new Since(turn.from(), findings));
    EventSource turned = source.turned(turn);
    try (EventSource.Run run = turned.begin(all())) {
      EventSource.Summary summary = run.runTo(run.heardBy(engine), Progress.NONE);
      if (summary.extent().end().isEmpty()) {
        return Outcome.AWAY;
      }
      List<RuleResult> results = new ResultBuilder(both, source.name(), base, run)
          .build(engine.finish(summary.extent().end().getAsLong()), findings, Reading.CLEAN, 0, 0, true).rules();
      List<FindingResult> broken = results.get(0).broken();
      String otherwise = book.signals().get(turn.signal()).name() + " had been "
          + ValueText.of(book.signals().get(turn.signal()).type(), turn.value()) + " from "
          + TimeText.at(base, turn.from()) + (turn.back() < turn.until() ? " to " + TimeText.at(base, turn.back())
          : " on");
      broken.forEach(finding -> given.get(occasion.rule().index()).add(finding.supposing(otherwise)));
      return !broken.isEmpty() ? Outcome.BROKEN : results.get(1).broken().isEmpty() ? Outcome.AWAY : Outcome.MET;
    }
  }

  /** Lets findings through that arose from a time on. */
  private record Since(long time, FindingListener next) implements FindingListener {
    @Override
    public void finding(Finding finding) {
      if (finding.trigger() >= time && finding.kind().breaks()) {
        next.finding(finding);
      }
    }

    @Override
    public void tracking(TrackingFinding finding) {
      // Counts of trains are no matter of the rule alone.
    }

    @Override
    public void lateResponse(int rule, long trigger, long deadline, long at) {
      // Nothing is waited for.
    }
  }

  private static FindingListener listener(Consumer<Finding> taker) {
    return new Since(Long.MIN_VALUE, new FindingListener() {
      @Override
      public void finding(Finding finding) {
        taker.accept(finding);
      }

      @Override
      public void tracking(TrackingFinding finding) {
        // As above.
      }

      @Override
      public void lateResponse(int rule, long trigger, long deadline, long time) {
        // As above.
      }
    });
  }

  /** Runs to the end, and keeps the last value of each signal at hand; a finding is told when its instant is over. */
  private EventSource.Extent run(EventSource unturned, RuleEngine engine, long[] values) throws IOException {
    try (EventSource.Run run = unturned.begin(all())) {
      return run.runTo(run.heardBy(new EventSink() {
        @Override
        public void event(long time, int signal, long value, long line) {
          begin = begin == Long.MIN_VALUE ? time : begin;
          engine.event(time, signal, value, line);
          values[signal] = value;
        }

        @Override
        public void advanceTo(long time) {
          engine.advanceTo(time);
        }
      }), Progress.NONE).extent();
    }
  }

  private boolean[] all() {
    boolean[] needed = new boolean[book.signals().size()];
    Arrays.fill(needed, true);
    return needed;
  }

  private RuleBook bookOf(List<Rule> rules) {
    return new RuleBook(book.ride(), book.resolution(), book.signals(), book.zones(), rules);
  }

  private static Rule numbered(Rule rule, int index, Rule.Duty duty) {
    return new Rule(index, rule.id(), rule.title(), rule.severity(), rule.basis(), duty, Proof.NONE,
        rule.resolution(), rule.text(), rule.position());
  }
}
