package dev.pawl.report.model;

import dev.pawl.engine.Verdict;
import java.time.LocalDate;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;

/**
 * What persons have decided about what traces show. No verdict depends on it.
 *
 * @param day the day on which the report is made, in UTC
 * @param acceptances which findings are accepted
 * @param reviews who has looked at what
 */
public record Decisions(LocalDate day, List<Acceptance> acceptances, List<Review> reviews) {

  public static final Decisions NONE = new Decisions(LocalDate.EPOCH, List.of(), List.of());

  public Decisions {
    acceptances = List.copyOf(acceptances);
    reviews = List.copyOf(reviews);
  }

  /** Whether there are none. */
  public boolean isEmpty() {
    return acceptances.isEmpty() && reviews.isEmpty();
  }

  private boolean isInForce(Acceptance acceptance) {
    return !day.isAfter(acceptance.until());
  }

  /** The findings because of which a rule has its verdict; those that are not kept are not among them. */
  public static List<FindingResult> behind(RuleResult rule) {
    return rule.verdict() == Verdict.BROKEN ? rule.broken()
        : rule.verdict() == Verdict.UNDECIDED ? rule.doubtful() : List.of();
  }

  private static boolean areAllKept(RuleResult rule) {
    return behind(rule).size() == (rule.verdict() == Verdict.BROKEN ? rule.obligations().missed() : rule.undecided());
  }

  /**
   * Those in force that together accept whatever a broken or undecided rule has that verdict for; empty where something
   * is not accepted, or is not kept so that nobody can tell when it was.
   */
  public List<Acceptance> accepting(TraceResult trace, RuleResult rule) {
    List<Acceptance> fitting = acceptances.stream().filter(this::isInForce).filter(each -> each.isOf(trace)
        && each.rule().equals(rule.rule().id())).toList();
    List<FindingResult> behind = behind(rule);
    boolean whole = fitting.stream().anyMatch(each -> each.span().isEmpty()) && rule.verdict() != Verdict.HELD
        && rule.verdict() != Verdict.NOT_EXERCISED;
    boolean each = !behind.isEmpty() && areAllKept(rule) && behind.stream().allMatch(finding -> fitting.stream()
        .anyMatch(acceptance -> acceptance.covers(rule.rule(), finding, trace.timeBase())));
    return whole || each ? fitting : List.of();
  }

  /**
   * Those that together accept a rule wherever it is broken or undecided; empty where it is so and not accepted in some
   * trace, or is so in none.
   */
  public List<Acceptance> accepting(RuleOverview rule) {
    Set<Acceptance> all = new LinkedHashSet<>();
    for (RuleOverview.InTrace each : rule.results()) {
      if (each.result().verdict() == Verdict.BROKEN || each.result().verdict() == Verdict.UNDECIDED) {
        List<Acceptance> here = accepting(each.trace(), each.result());
        if (here.isEmpty()) {
          return List.of();
        }
        all.addAll(here);
      }
    }
    return List.copyOf(all);
  }

  /** The rules of traces for which an acceptance has something to accept, each with its trace. */
  public Stream<InTrace> matches(Acceptance acceptance, List<TraceResult> traces) {
    return traces.stream().filter(acceptance::isOf).flatMap(trace -> trace.rules().stream()
        .filter(rule -> rule.rule().id().equals(acceptance.rule()) && isAbout(acceptance, trace, rule))
        .map(rule -> new InTrace(trace, rule)));
  }

  private static boolean isAbout(Acceptance acceptance, TraceResult trace, RuleResult rule) {
    boolean open = rule.verdict() == Verdict.BROKEN || rule.verdict() == Verdict.UNDECIDED;
    return open && (acceptance.span().isEmpty() || behind(rule).stream()
        .anyMatch(finding -> acceptance.covers(rule.rule(), finding, trace.timeBase())));
  }

  /** A rule in a trace. */
  public record InTrace(TraceResult trace, RuleResult rule) {}

  /** What has become of an acceptance. */
  public Acceptance.State state(Acceptance acceptance, List<TraceResult> traces) {
    return !isInForce(acceptance) ? Acceptance.State.EXPIRED : matches(acceptance, traces).findAny().isPresent()
        ? Acceptance.State.IN_FORCE : Acceptance.State.UNMATCHED;
  }

  /** Those that are findings themselves: expired, or about nothing. */
  public List<Acceptance> stale(List<TraceResult> traces) {
    return acceptances.stream().filter(each -> state(each, traces) != Acceptance.State.IN_FORCE).toList();
  }
}
