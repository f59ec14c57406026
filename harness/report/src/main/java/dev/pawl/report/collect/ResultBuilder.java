package dev.pawl.report.collect;

import dev.pawl.engine.Evidence;
import dev.pawl.engine.Finding;
import dev.pawl.engine.Margin;
import dev.pawl.engine.MarginSpread;
import dev.pawl.engine.Obligations;
import dev.pawl.engine.RuleOutcome;
import dev.pawl.engine.Sight;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.engine.Tried;
import dev.pawl.engine.ZoneOutcome;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.rules.model.Zone;
import dev.pawl.report.model.EvidenceResult;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.MarginResult;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.Seen;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.model.TracePlace;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.model.WrongCount;
import dev.pawl.report.model.ZoneResult;
import dev.pawl.report.words.ValueText;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/** Puts one trace's outcome and findings into the words of its rule book. */
public final class ResultBuilder {

  private final RuleBook book;
  private final String trace;
  private final TimeBase base;
  private final Origins origins;

  /**
   * A builder for one recorded trace.
   *
   * @param trace its path as the user gave it, which is also the file that evidence names
   * @param base what its times are counted from
   */
  public ResultBuilder(RuleBook book, String trace, TimeBase base) {
    this(book, trace, base, Origins.RECORDED);
  }

  /** A builder for one trace that a controller under test may have had a part in. */
  public ResultBuilder(RuleBook book, String trace, TimeBase base, Origins origins) {
    this.book = book;
    this.trace = trace;
    this.base = base;
    this.origins = origins;
  }

  /**
   * The result of the trace, its findings without pictures.
   *
   * @param lines lines read
   * @param events events of signals, those included that no rule needed
   * @param partial whether judging stopped before the end of the trace
   */
  public TraceResult build(TraceOutcome outcome, FindingCollector findings, Reading reading, long lines, long events,
      boolean partial) {
    List<RuleResult> rules = new ArrayList<>();
    for (RuleOutcome rule : outcome.rules()) {
      rules.add(rule(rule, outcome.signals(), findings));
    }
    List<ZoneResult> zones = new ArrayList<>();
    for (ZoneOutcome zone : outcome.zones()) {
      zones.add(zone(zone, findings));
    }
    return new TraceResult(trace, base, outcome.start(), outcome.end(), lines, events, outcome.overwritten(), partial,
        reading, rules, zones);
  }

  private RuleResult rule(RuleOutcome outcome, List<Sight> signals, FindingCollector findings) {
    Rule rule = book.rules().get(outcome.rule());
    List<String> unrecorded = origins.unrecorded(rule);
    if (!unrecorded.isEmpty()) {
      return notExercised(rule, unrecorded);
    }
    boolean broken = outcome.obligations().missed() > 0;
    Optional<MarginResult> margin = outcome.margin().filter(it -> Double.isFinite(it.value()))
        .map(it -> margin(rule, it, outcome.spread())).filter(it -> !broken || it.value() < 0);
    return new RuleResult(rule, outcome.obligations(), margin, seen(rule, outcome, signals, findings),
        findings(rule, findings.broken(rule.index())), findings(rule, findings.doubtful(rule.index())));
  }

  /** What a recording alone says of a rule is nothing that is counted for the controller under test. */
  private static RuleResult notExercised(Rule rule, List<String> unrecorded) {
    List<Tried> never = rule.proof().trials().stream().map(trial -> new Tried(0, OptionalLong.empty())).toList();
    Seen seen = new Seen(OptionalLong.empty(), List.of(), List.of(), never, 0, List.of(), List.of(), unrecorded);
    return new RuleResult(rule, new Obligations(0, 0, 0, 0, 0, 0, 0), Optional.empty(), seen, List.of(), List.of());
  }

  private Seen seen(Rule rule, RuleOutcome outcome, List<Sight> signals, FindingCollector findings) {
    OptionalLong time = rule.duty() instanceof Rule.Always ? OptionalLong.of(outcome.watched()) : OptionalLong.empty();
    return new Seen(time, names(rule, signals, Sight.NEVER), names(rule, signals, Sight.ONE_VALUE), outcome.tried(),
        outcome.unconfirmed(), wrongCounts(rule, findings), origins.departures(rule), List.of());
  }

  private List<WrongCount> wrongCounts(Rule rule, FindingCollector findings) {
    List<WrongCount> wrong = new ArrayList<>();
    for (int zone : RuleParts.zones(rule.duty().conditions(), book)) {
      List<TrackingFinding> found = findings.trackingOf(zone).stream()
          .filter(finding -> finding.kind() != TrackingFinding.Kind.IMPOSSIBLE_ORDER).toList();
      if (!found.isEmpty()) {
        OptionalLong since = found.stream().allMatch(finding -> finding.since().isPresent())
            ? found.stream().mapToLong(finding -> finding.since().getAsLong()).min() : OptionalLong.empty();
        wrong.add(new WrongCount(book.zones().get(zone).name(), found.size(), found.get(0).time(),
            found.get(found.size() - 1).time(), since));
      }
    }
    return wrong;
  }

  private List<String> names(Rule rule, List<Sight> signals, Sight sight) {
    return RuleParts.signals(rule, book).stream().filter(signal -> signals.get(signal) == sight)
        .map(signal -> book.signals().get(signal).name()).toList();
  }

  private MarginResult margin(Rule rule, Margin margin, Optional<MarginSpread> spread) {
    ComparedUnit unit = ComparedUnit.of(rule, margin.unit(), book);
    return new MarginResult(unit.scale().originNumber(margin.value()), unit.unit(), margin.time(), margin.trigger(),
        margin.atMost(), spread.map(it -> it.allowing(unit.scale().originNumber(it.allowed()))));
  }

  private List<FindingResult> findings(Rule rule, List<FindingCollector.Kept> kept) {
    List<FindingResult> results = new ArrayList<>();
    for (FindingCollector.Kept each : kept) {
      Finding finding = each.finding();
      OptionalLong deadline = hasDeadline(rule, finding) ? OptionalLong.of(finding.deadline()) : OptionalLong.empty();
      results.add(new FindingResult(finding.kind(), finding.trigger(), finding.time(), finding.justAfter(), deadline,
          each.late(), evidence(finding.evidence()), Optional.empty()));
    }
    return results;
  }

  private static boolean hasDeadline(Rule rule, Finding finding) {
    return rule.duty() instanceof Rule.When when && when.demand() instanceof Demand.Within
        && (finding.kind() != Finding.Kind.NOT_SUSTAINED || finding.deadline() != finding.time());
  }

  private ZoneResult zone(ZoneOutcome outcome, FindingCollector findings) {
    Zone zone = book.zones().get(outcome.zone());
    List<ZoneResult.Tracking> tracking = new ArrayList<>();
    for (TrackingFinding finding : findings.trackingOf(zone.index())) {
      tracking.add(new ZoneResult.Tracking(finding.kind(), finding.time(), finding.since(),
          evidence(finding.evidence()), Optional.empty()));
    }
    return new ZoneResult(zone.name(), zone.holds(), outcome.entered(), outcome.left(), outcome.least(), outcome.most(),
        start(zone, outcome.start()), outcome.findings(), tracking);
  }

  private static Optional<ZoneResult.Start> start(Zone zone, ZoneOutcome.Start start) {
    return switch (start) {
      case NOT_STATED -> Optional.empty();
      case AS_STATED, DOUBTFUL -> Optional.of(new ZoneResult.Start(zone.startsWith().orElseThrow(),
          start == ZoneOutcome.Start.AS_STATED));
    };
  }

  private List<EvidenceResult> evidence(List<Evidence> events) {
    List<EvidenceResult> results = new ArrayList<>();
    for (Evidence event : events) {
      Signal signal = book.signals().get(event.signal());
      ValueType type = signal.type();
      TracePlace place = origins.place(trace, event.line());
      results.add(new EvidenceResult(event.moment(), event.time(), signal.name(), ValueText.of(type, event.value()),
          place.file(), place.line(), event.wasLogged(), origins.writer(event.signal(), event.line())));
    }
    return results;
  }
}
