package dev.pawl.report.json;

import dev.pawl.engine.Evidence.Moment;
import dev.pawl.engine.Finding;
import dev.pawl.engine.MarginSpread;
import dev.pawl.engine.Obligations;
import dev.pawl.engine.Tried;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.advice.Unwatched;
import dev.pawl.grammar.rules.explain.Limit;
import dev.pawl.grammar.rules.model.Proof;
import dev.pawl.grammar.rules.model.Requirement;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.Term;
import dev.pawl.report.collect.RuleMargins;
import dev.pawl.report.compare.StatedRule;
import dev.pawl.report.model.Acceptance;
import dev.pawl.report.model.Decisions;
import dev.pawl.report.model.DepartureResult;
import dev.pawl.report.model.Earlier;
import dev.pawl.report.model.EvidenceResult;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.Input;
import dev.pawl.report.model.MarginResult;
import dev.pawl.report.model.Picture;
import dev.pawl.report.model.ProgramPlace;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.RequirementOverview;
import dev.pawl.report.model.Review;
import dev.pawl.report.model.RuleOverview;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.model.Truth;
import dev.pawl.report.model.ZoneResult;
import dev.pawl.report.words.Assumptions;
import dev.pawl.report.words.Cautions;
import dev.pawl.report.words.DecisionWords;
import dev.pawl.report.words.TimeText;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Function;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** report.json: each record is an object in it, and each component a field. The schema says what they mean. */
record ReportDocument(String format, int formatVersion, Tool tool, String created, String run, boolean partial,
    String ride,
    List<String> cautions, List<String> assumptions, Map<String, Long> summary, Optional<LeftOut> leftOut,
    List<RequirementIn> requirements,
    UnwatchedIn unwatched, List<Overview> overview, List<Input> inputs, Optional<Earlier> earlier,
    Optional<Decided> decisions, Stream<Trace> traces) {

  static ReportDocument of(Report report) {
    Map<String, Long> summary = counts(report::count);
    List<RuleOverview> rules = RuleOverview.of(report);
    summary.put("tracesNotRead", report.unjudged());
    return new ReportDocument(JsonReportFormat.NAME, JsonReportFormat.VERSION, new Tool("pawl", report.version(),
        report.build()), report.created(), report.identity(), report.partial(), report.ride(), Cautions.of(report),
        Assumptions.of(report, rules), summary, LeftOut.of(report),
        RequirementOverview.of(report, rules).stream().map(RequirementIn::of).toList(),
        UnwatchedIn.of(Unwatched.of(report.book())), rules.stream().map(rule -> Overview.of(rule, report.book()))
            .toList(), report.inputs(), report.earlier(),
        Decided.of(report), report.traces().stream().map(Trace::of));
  }

  private static Map<String, Long> counts(Function<Verdict, Long> count) {
    Map<String, Long> counts = new LinkedHashMap<>();
    for (Verdict verdict : Verdict.values()) {
      counts.put(verdict.label(), count.apply(verdict));
    }
    return counts;
  }

  record Tool(String name, String version, String build) {}

  /** Findings that are counted and not among those of their rules. */
  record LeftOut(long findings, String how) {

    static Optional<LeftOut> of(Report report) {
      long left = report.traces().stream().flatMap(trace -> trace.rules().stream()).mapToLong(rule ->
          rule.obligations().missed() + rule.undecided() - rule.broken().size() - rule.doubtful().size()).sum();
      return left == 0 ? Optional.empty() : Optional.of(new LeftOut(left,
          "--findings N keeps N of each rule and trace; all are counted"));
    }
  }

  /** What persons have decided. */
  record Decided(List<Accepted> acceptances, List<Reviewed> reviews) {

    static Optional<Decided> of(Report report) {
      Decisions decisions = report.decisions();
      return decisions.isEmpty() ? Optional.empty() : Optional.of(new Decided(decisions.acceptances().stream()
          .map(each -> Accepted.of(each, report)).toList(), decisions.reviews().stream()
              .map(each -> Reviewed.of(each, report)).toList()));
    }
  }

  record Accepted(String rule, Optional<String> trace, Optional<String> span, String because, String by, String until,
      String file, int line, Acceptance.State state, String words, List<Covered> covers) {

    static Accepted of(Acceptance acceptance, Report report) {
      Decisions decisions = report.decisions();
      return new Accepted(acceptance.rule(), acceptance.trace(), acceptance.span().map(Acceptance.Span::words),
          acceptance.reason(), acceptance.by(), acceptance.until().toString(), acceptance.file(), acceptance.line(),
          decisions.state(acceptance, report.traces()), DecisionWords.sentence(acceptance, report),
          decisions.matches(acceptance, report.traces()).map(match -> new Covered(match.trace().path(),
              decisions.accepting(match.trace(), match.rule()).contains(acceptance))).toList());
    }
  }

  /** A trace in which an acceptance is about something, and whether all is accepted there. */
  record Covered(String trace, boolean whole) {}

  record Reviewed(String by, String on, List<String> looked, String note, String run, boolean ofThis, String file,
      int line) {

    static Reviewed of(Review review, Report report) {
      return new Reviewed(review.by(), review.on().toString(), review.looked(), review.note(), review.run(),
          !report.reviewsOfOthers().contains(review), review.file(), review.line());
    }
  }

  /** What the ride has to do; without a verdict where no rule serves it. */
  record RequirementIn(String id, String text, String source, String hazard, String level, String file, int line,
      List<String> rules, Optional<Verdict> verdict) {

    static RequirementIn of(RequirementOverview overview) {
      Requirement stated = overview.requirement();
      return new RequirementIn(stated.id(), stated.text(), stated.source(), stated.hazard(), stated.level(),
          stated.position().file(), stated.position().line(), overview.rules().stream().map(rule -> rule.rule().id())
          .toList(), overview.verdict());
    }
  }

  /** What is declared and no rule watches. */
  record UnwatchedIn(List<String> signals, List<String> outputs, List<String> zones) {

    static UnwatchedIn of(Unwatched unwatched) {
      return new UnwatchedIn(unwatched.signals().stream().map(Signal::name).toList(),
          unwatched.outputs().stream().map(Signal::name).toList(),
          unwatched.zones().stream().map(zone -> zone.name()).toList());
    }
  }

  /** A name that a rule is written with; without a value where it is a definition. */
  record TermIn(String name, String written, Optional<String> value) {

    static TermIn of(Term term) {
      return new TermIn(term.name(), term.written(), Optional.of(term.value()).filter(it -> !it.isEmpty()));
    }
  }

  record Overview(String id, Verdict verdict, List<String> satisfies, List<TermIn> terms, Optional<String> formula,
      List<Limit> limits, List<String> zones, Map<String, Long> traces, Obligations obligations,
      Optional<String> smallestMarginIn, Optional<Margin> margin) {

    static Overview of(RuleOverview rule, RuleBook book) {
      StatedRule stated = StatedRule.of(rule.rule(), book);
      Optional<RuleOverview.InTrace> closest = rule.closest();
      return new Overview(rule.rule().id(), rule.verdict(), rule.rule().satisfies(), rule.rule().terms().stream()
          .map(TermIn::of).toList(), stated.formula(), stated.limits(), stated.zones(), counts(rule::count),
          rule.obligations(),
          closest.map(each -> each.trace().path()),
          closest.map(each -> Margin.of(each.result().margin().orElseThrow().spreading(RuleMargins.of(rule).spread()),
              each.trace().timeBase())));
    }
  }

  record Trace(String path, TimeBase.Kind timeBase, Time start, Time end, long lines, long events, long overwritten,
      boolean partial, Reading reading, List<RuleIn> rules, List<Zone> zones, Optional<TruthIn> truth) {

    static Trace of(TraceResult trace) {
      TimeBase base = trace.timeBase();
      return new Trace(trace.path(), base.kind(), Time.of(base, trace.start()), Time.of(base, trace.end()),
          trace.lines(), trace.events(), trace.overwritten(), trace.partial(), trace.reading(), trace.rules().stream()
          .map(rule -> RuleIn.of(rule, base)).toList(), trace.zones().stream().map(zone -> Zone.of(zone, base))
          .toList(), trace.truth().map(it -> TruthIn.of(it, base)));
    }
  }

  /** What truly happened. */
  record TruthIn(long count, List<HappeningIn> happenings) {

    static TruthIn of(Truth truth, TimeBase base) {
      return new TruthIn(truth.count(), truth.happenings().stream().map(it -> new HappeningIn(it.kind().label(),
          Time.of(base, it.time()), it.words(), it.hazard(), it.noticed())).toList());
    }
  }

  /** One thing that truly happened. */
  record HappeningIn(String kind, Time time, String words, boolean hazard, boolean noticed) {}

  /** A time: exact, and as text for people. */
  record Time(long ns, String text) {

    static Time of(TimeBase base, long time) {
      return new Time(time, TimeText.at(base, time));
    }
  }

  /** What a trace says about a rule. */
  record RuleIn(String id, String title, Rule.Severity severity, String basis, boolean basisIsPractice,
      String text, String untried, String file, int line, long resolutionNs, Verdict verdict, Obligations obligations,
          Seen seen, Optional<Margin> margin,
      long findingCount, List<Found> findings) {

    static RuleIn of(RuleResult result, TimeBase base) {
      Rule rule = result.rule();
      return new RuleIn(rule.id(), rule.title(), rule.severity(), rule.basis().text(), rule.basis().isPractice(),
          rule.text(), rule.proof().untried(), rule.position().file(), rule.position().line(), rule.resolution(),
          result.verdict(), result.obligations(), Seen.of(rule, result.seen(), base), result.margin()
          .map(margin -> Margin.of(margin, base)), result.obligations().missed() + result.undecided(),
          Stream.concat(result.broken().stream(), result.doubtful().stream()).map(finding -> Found.of(finding, base))
          .toList());
    }
  }

  record Seen(OptionalLong watchedNs, List<String> unseen, List<String> still, long unconfirmed, List<Trial> tried,
      List<Departure> departures, List<String> unrecorded) {

    static Seen of(Rule rule, dev.pawl.report.model.Seen seen, TimeBase base) {
      List<Trial> tried = IntStream.range(0, seen.tried().size())
          .mapToObj(trial -> Trial.of(rule.proof().trials().get(trial), seen.tried().get(trial))).toList();
      return new Seen(seen.watched(), seen.unseen(), seen.still(), seen.unconfirmed(), tried,
          seen.departures().stream().map(departure -> Departure.of(departure, base)).toList(), seen.unrecorded());
    }
  }

  /** What became of a trial that a rule states. */
  record Trial(String by, long times, OptionalLong firstNs) {

    static Trial of(Proof.Trial stated, Tried tried) {
      return new Trial(stated.text(), tried.times(), tried.first());
    }
  }

  /** Where an output of a controller under test ceased to be as recorded. */
  record Departure(String output, Time time, String recorded, String computed, List<String> unknown) {

    static Departure of(DepartureResult departure, TimeBase base) {
      return new Departure(departure.output(), Time.of(base, departure.time()), departure.recorded(),
          departure.computed(), departure.unknown());
    }
  }

  record Margin(double value, String unit, Time time, Time trigger, boolean atMost, Optional<MarginSpread> spread) {

    static Margin of(MarginResult margin, TimeBase base) {
      return new Margin(margin.value(), margin.unit(), Time.of(base, margin.time()), Time.of(base, margin.trigger()),
          margin.atMost(), margin.spread());
    }
  }

  /** A finding. */
  record Found(Finding.Kind kind, boolean breaks, Time trigger, Time time, boolean justAfter, Optional<Time> deadline,
      Optional<Time> lateResponse, List<Evidence> evidence, Optional<String> supposing, Optional<PictureIn> picture) {

    static Found of(FindingResult finding, TimeBase base) {
      return new Found(finding.kind(), finding.kind().breaks(), Time.of(base, finding.trigger()),
          Time.of(base, finding.time()), finding.justAfter(), time(finding.deadline(), base),
          time(finding.lateResponse(), base), Evidence.of(finding.evidence(), base), Optional.of(finding.supposing())
          .filter(words -> !words.isEmpty()), finding.picture().map(PictureIn::of));
    }

    static Optional<Time> time(OptionalLong time, TimeBase base) {
      return time.isPresent() ? Optional.of(Time.of(base, time.getAsLong())) : Optional.empty();
    }
  }

  /** The course of the signals around a finding, as far as the page draws it; {@code compare} draws it again. */
  record PictureIn(long from, long to, List<Picture.Track> tracks) {

    static PictureIn of(Picture picture) {
      return new PictureIn(picture.from(), picture.to(), picture.tracks());
    }
  }

  record Evidence(Moment moment, Time time, String signal, String value, String file, long line, boolean logged,
      Optional<ProgramPlace> writtenBy) {

    static List<Evidence> of(List<EvidenceResult> events, TimeBase base) {
      return events.stream().map(event -> new Evidence(event.moment(), Time.of(base, event.time()), event.signal(),
          event.value(), event.file(), event.line(), event.wasLogged(), event.writtenBy())).toList();
    }
  }

  record Zone(String name, int holds, long entered, long left, int least, int most, Optional<ZoneResult.Start> start,
      long findingCount, List<Miscount> findings) {

    static Zone of(ZoneResult zone, TimeBase base) {
      return new Zone(zone.name(), zone.holds(), zone.entered(), zone.left(), zone.least(), zone.most(), zone.start(),
          zone.findingCount(), zone.findings().stream().map(finding -> Miscount.of(finding, base)).toList());
    }
  }

  record Miscount(String kind, Time time, Optional<Time> since, List<Evidence> evidence) {

    static Miscount of(ZoneResult.Tracking finding, TimeBase base) {
      return new Miscount(finding.kind().label(), Time.of(base, finding.time()),
          Found.time(finding.since(), base),
          Evidence.of(finding.evidence(), base));
    }
  }
}
