package dev.pawl.report.picture;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Comparisons;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.Zone;
import dev.pawl.report.model.EvidenceResult;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.model.ZoneResult;
import dev.pawl.report.words.FindingWords;
import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Which findings of a trace get a picture, of what stretch of time and of which signals. */
final class PicturePlan {

  private static final int MOST_SIGNALS = 10;
  private static final int MOST_ZONES = 6;
  private static final long SECOND = 1_000_000_000L;
  /** The room beside a finding that is all at one instant. */
  private static final long LEAST_SPAN = 2 * SECOND;
  private static final int MOST_WIDE = 1;
  private static final int SPANS_AROUND = 4;
  private static final long LEAST_ROOM = 30 * SECOND;
  private static final long MOST_ROOM = 1200 * SECOND;
  /** How far back the passing of a train is shown by which a zone is occupied. */
  private static final long TRAIN_REACH = 120 * SECOND;

  private final RuleBook book;
  private final TraceResult trace;
  private final Map<Object, PictureStretch> windows = new IdentityHashMap<>();
  /** Of the first findings of each rule also what is around them. */
  private final Map<Object, PictureStretch> wide = new IdentityHashMap<>();

  private PicturePlan(RuleBook book, TraceResult trace) {
    this.book = book;
    this.trace = trace;
  }

  static PicturePlan of(RuleBook book, TraceResult trace, int most) {
    PicturePlan plan = new PicturePlan(book, trace);
    for (RuleResult rule : trace.rules()) {
      Scenery scenery = scenery(book, rule.rule());
      boolean triggered = FindingWords.hasTrigger(rule.rule());
      rule.broken().stream().limit(most).forEach(finding -> plan.add(finding, triggered, scenery));
      rule.doubtful().stream().limit(most).forEach(finding -> plan.add(finding, triggered, scenery));
      rule.broken().stream().limit(most).limit(MOST_WIDE).forEach(plan::widen);
      rule.doubtful().stream().limit(most).limit(MOST_WIDE).forEach(plan::widen);
    }
    for (int zone = 0; zone < trace.zones().size(); zone++) {
      Scenery scenery = plan.scenery(book.zones().get(zone));
      trace.zones().get(zone).findings().stream().limit(most).forEach(finding -> plan.add(finding, scenery));
    }
    return plan;
  }

  /** A whole stretch of time with all that a rule looks at. */
  static PictureStretch whole(RuleBook book, Rule rule, long from, long to) {
    return stretch(book, from, to, List.of(), scenery(book, rule));
  }

  /** What a rule looks at; what it requires comes first. */
  private static Scenery scenery(RuleBook book, Rule rule) {
    Set<Integer> signals = new LinkedHashSet<>(RuleParts.signals(rule.duty().requirements(), book));
    signals.addAll(RuleParts.signals(rule, book));
    Set<Integer> zones = new LinkedHashSet<>();
    rule.duty().conditions().forEach(condition -> zones.addAll(condition.zones()));
    return new Scenery(signals, Comparisons.of(rule), zones, asksForOccupancy(rule) ? TRAIN_REACH : 5 * LEAST_SPAN);
  }

  /** What a zone looks at; its entry comes first. */
  private Scenery scenery(Zone zone) {
    Set<Integer> signals = new LinkedHashSet<>(RuleParts.signals(zone.entry().conditions(), book));
    signals.addAll(RuleParts.signals(zone.exit().conditions(), book));
    return new Scenery(signals, List.of(), Set.of(zone.index()), 5 * LEAST_SPAN);
  }

  private static boolean asksForOccupancy(Rule rule) {
    boolean[] asks = new boolean[1];
    rule.duty().conditions().forEach(condition -> condition.walk(
        node -> asks[0] |= node instanceof BoolExpr.Occupied || node instanceof NumExpr.Trains));
    return asks[0];
  }

  /**
   * What can be drawn around findings of one rule or zone.
   *
   * @param signals indexes, in the order in which they are drawn
   * @param comparisons those that bound a number
   * @param zones indexes of the zones that the rule itself speaks of
   * @param reach nanoseconds, how long before the trigger an event behind a finding may lie and still be shown
   */
  private record Scenery(Set<Integer> signals, List<BoolExpr.Compare> comparisons, Set<Integer> zones, long reach) {}

  List<PictureStretch> windows() {
    List<PictureStretch> all = new ArrayList<>(windows.values());
    all.addAll(wide.values());
    return all;
  }

  /** A timeline is wider than the cause: some spans of the picture on either side. */
  private void widen(FindingResult finding) {
    PictureStretch drawn = windows.get(finding);
    long room = Math.min(MOST_ROOM, Math.max(LEAST_ROOM, SPANS_AROUND * (drawn.to() - drawn.from())));
    wide.put(finding, drawn.widened(Math.max(trace.start(), drawn.from() - room), Math.min(Math.max(trace.end(), drawn
        .to()), drawn.to() + room)));
  }

  private void add(FindingResult finding, boolean triggered, Scenery scenery) {
    long last = Math.max(finding.time(), finding.lateResponse().orElse(finding.time()));
    long first = triggered ? finding.trigger() : finding.time();
    windows.put(finding, window(first, last, finding.evidence(), scenery));
  }

  private void add(ZoneResult.Tracking finding, Scenery scenery) {
    windows.put(finding, window(finding.time(), finding.time(), finding.evidence(), scenery));
  }

  private PictureStretch window(long trigger, long last, List<EvidenceResult> evidence, Scenery scenery) {
    long reach = Math.max(10 * (last - trigger), scenery.reach());
    long first = trigger;
    for (EvidenceResult event : evidence) {
      if (event.time() < first && trigger - event.time() <= reach) {
        first = event.time();
      }
    }
    long span = Math.max(last - first, last == trigger ? LEAST_SPAN : 0);
    long from = Math.max(trace.start(), first - span / 5);
    long to = Math.min(trace.end(), last + span * 3 / 10);
    return stretch(book, from, to, evidence, scenery);
  }

  private static PictureStretch stretch(RuleBook book, long from, long to, List<EvidenceResult> evidence,
      Scenery scenery) {
    List<Signal> signals = signals(book, evidence, scenery);
    List<Zone> zones = scenery.zones().stream().limit(MOST_ZONES).map(book.zones()::get).toList();
    return new PictureStretch(from, Math.max(to, from + 1), signals, bounds(signals, scenery), zones, book.signals()
        .size(), false);
  }

  private static List<Signal> signals(RuleBook book, List<EvidenceResult> evidence, Scenery scenery) {
    Set<Integer> indexes = new LinkedHashSet<>();
    for (EvidenceResult event : evidence) {
      book.signals().stream().filter(signal -> signal.name().equals(event.signal())).forEach(signal ->
          indexes.add(signal.index()));
    }
    indexes.addAll(scenery.signals());
    return indexes.stream().limit(MOST_SIGNALS).map(book.signals()::get).toList();
  }

  private static List<double[]> bounds(List<Signal> signals, Scenery scenery) {
    List<double[]> bounds = new ArrayList<>();
    for (Signal signal : signals) {
      bounds.add(scenery.comparisons().stream().flatMap(comparison -> bound(signal, comparison).stream())
          .mapToDouble(Double::doubleValue).distinct().toArray());
    }
    return bounds;
  }

  /** The constant that a comparison holds the signal against, with the signal on either side. */
  private static Optional<Double> bound(Signal signal, BoolExpr.Compare comparison) {
    NumExpr.Signal read = new NumExpr.Signal(signal.index());
    if (comparison.left().equals(read) && comparison.right() instanceof NumExpr.Constant constant) {
      return Optional.of(constant.value());
    } else if (comparison.right().equals(read) && comparison.left() instanceof NumExpr.Constant constant) {
      return Optional.of(constant.value());
    }
    return Optional.empty();
  }

  TraceResult withPictures() {
    List<RuleResult> rules = new ArrayList<>();
    for (RuleResult rule : trace.rules()) {
      rules.add(new RuleResult(rule.rule(), rule.obligations(), rule.margin(), rule.seen(), drawn(rule.broken()),
          drawn(rule.doubtful())));
    }
    List<ZoneResult> zones = new ArrayList<>();
    for (ZoneResult zone : trace.zones()) {
      List<ZoneResult.Tracking> findings = zone.findings().stream()
          .map(finding -> new ZoneResult.Tracking(finding.kind(), finding.time(), finding.since(), finding.evidence(),
          Optional.ofNullable(windows.get(finding)).map(PictureStretch::picture))).toList();
      zones.add(new ZoneResult(zone.name(), zone.holds(), zone.entered(), zone.left(), zone.least(), zone.most(),
          zone.start(), zone.findingCount(), findings));
    }
    return new TraceResult(trace.path(), trace.timeBase(), trace.start(), trace.end(), trace.lines(), trace.events(),
        trace.overwritten(), trace.partial(), trace.reading(), rules, zones, trace.truth());
  }

  private List<FindingResult> drawn(List<FindingResult> findings) {
    return findings.stream().map(finding -> windows.containsKey(finding)
        ? finding.withPicture(windows.get(finding).picture(Optional.ofNullable(wide.get(finding))
            .map(PictureStretch::picture)))
        : finding)
        .toList();
  }
}
