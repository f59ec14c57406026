package dev.pawl.report.words;

import dev.pawl.engine.Finding;
import dev.pawl.engine.Obligations;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.engine.Tried;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.model.Proof;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.report.model.DepartureResult;
import dev.pawl.report.model.EvidenceResult;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.MarginResult;
import dev.pawl.report.model.RuleOverview;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.Seen;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.model.WrongCount;
import dev.pawl.report.model.ZoneResult;
import java.util.ArrayList;
import java.util.List;

/** Findings, verdicts and margins as sentences. */
public final class FindingWords {

  /** Signals that a sentence names; of more it says how many. */
  private static final int MOST_NAMES = 5;

  private FindingWords() {}

  /** The verdict as a person says it. */
  public static String verdict(Verdict verdict) {
    return VerdictLook.of(verdict).word();
  }

  /** What happened, when, and how late: one sentence without a full stop. */
  public static String sentence(Rule rule, FindingResult finding, TimeBase base) {
    String happened = happened(rule, finding, base);
    return finding.supposing().isEmpty() ? happened : happened + ", if " + finding.supposing() + ": nothing guards it";
  }

  private static String happened(Rule rule, FindingResult finding, TimeBase base) {
    String time = TimeText.at(base, finding.time());
    String when = (finding.justAfter() ? "just after " : "at ") + time;
    String after = TimeText.duration(finding.time() - finding.trigger()) + " after the trigger";
    return switch (finding.kind()) {
      case NOT_AT_TRIGGER -> "required at the trigger, but not true then";
      case NO_RESPONSE -> "no response by the deadline, " + time + " (" + after + "); " + lateness(finding, base);
      case NOT_SUSTAINED -> "did not stay true: false " + when + ", " + after;
      case NOT_THROUGHOUT -> "not true throughout: false " + when + ", " + after;
      case OUT_OF_ORDER -> "out of order: what it had to come before came first, " + when;
      case FALSE_STATE -> isNever(rule) ? "the forbidden state was reached " + when : "not true " + when;
      case BORDERLINE -> "too close to call " + when + ": decided by less than " + closeness(rule);
      case UNKNOWN -> "not decidable " + when + ": a value it rests on was unknown";
      case OPEN -> "still open when the trace ended at " + time + deadline(finding, base);
      case UNKNOWN_TRIGGER -> "its trigger may have happened, unknown from " + time
          + " on, and then it was not surely met";
    };
  }

  private static String lateness(FindingResult finding, TimeBase base) {
    if (finding.lateResponse().isEmpty()) {
      return "none came later";
    }
    long came = finding.lateResponse().getAsLong();
    long limit = finding.deadline().orElse(finding.time());
    return "it came at " + TimeText.at(base, came) + ", " + TimeText.duration(came - limit) + " late";
  }

  private static String deadline(FindingResult finding, TimeBase base) {
    return finding.deadline().isPresent() && finding.deadline().getAsLong() > finding.time()
        ? "; it had until " + TimeText.at(base, finding.deadline().getAsLong()) : "";
  }

  private static String closeness(Rule rule) {
    return rule.resolution() > 0 ? "the resolution of " + TimeText.duration(rule.resolution())
        + ", the time between two looks at a polled signal, or a stated tolerance"
        : "the stated tolerance";
  }

  /** Whether the obligations of a rule arise at triggers; a rule that speaks of every instant has none. */
  public static boolean hasTrigger(Rule rule) {
    return rule.duty() instanceof Rule.When;
  }

  private static boolean isNever(Rule rule) {
    return rule.duty() instanceof Rule.Always always && always.never();
  }

  /** A margin such as {@code 430 ms}, {@code -0.2 m/s} or {@code at most 1.2 s}. */
  public static String margin(MarginResult margin) {
    String size = margin.isTime() ? TimeText.duration(Math.round(margin.value() * 1e9))
        : ValueText.withUnit(margin.value(),
        margin.unit());
    return margin.atMost() ? "at most " + size : size;
  }

  /**
   * What an event did; it need not be so any more at the finding: a train counts on after its tail has cleared the
   * flag. What was so when the trace began did not become so.
   */
  public static String became(EvidenceResult event, TraceResult trace) {
    return event.signal() + (!event.wasLogged() ? " was never logged by then"
        : (event.time() == trace.start() ? " was " : " became ") + event.value());
  }

  /** The counts behind a verdict that are not zero, such as {@code 12 met, 1 missed}. */
  public static String obligations(Obligations obligations) {
    List<String> parts = new ArrayList<>();
    add(parts, obligations.met(), "met");
    add(parts, obligations.alreadySo(), "already so");
    add(parts, obligations.miscounted(), "on a count found wrong");
    add(parts, obligations.missed(), "missed");
    add(parts, obligations.open(), "open");
    add(parts, obligations.borderline(), "borderline");
    add(parts, obligations.unknown(), "unknown");
    add(parts, obligations.cancelled(), "cancelled");
    add(parts, obligations.unknownTriggers(), obligations.unknownTriggers() == 1 ? "unknown trigger"
        : "unknown triggers");
    return parts.isEmpty() ? "never triggered" : String.join(", ", parts);
  }

  /**
   * How much a rule saw, such as {@code watched 3 min; mode never changed}; the empty string where there is nothing to
   * say.
   */
  public static String seen(Seen seen) {
    if (!seen.unseen().isEmpty()) {
      return "never began: no value of " + String.join(", ", seen.unseen());
    }
    List<String> parts = new ArrayList<>();
    seen.watched().ifPresent(time -> parts.add("watched " + TimeText.duration(time)));
    if (!seen.still().isEmpty()) {
      parts.add(String.join(", ", seen.still()) + " never changed");
    }
    return String.join("; ", parts);
  }

  /**
   * How often each trial of a rule occurred, such as
   * {@code tried by rises(go) given not clear: 3 times, first at 12.5 s} or {@code tried by trigger: met once}.
   */
  public static List<String> tried(Rule rule, List<Tried> tried, TimeBase base) {
    List<String> lines = new ArrayList<>();
    for (int trial = 0; trial < tried.size(); trial++) {
      String first = tried.get(trial).first().isPresent() ? ", first at "
          + TimeText.at(base, tried.get(trial).first().getAsLong()) : "";
      Proof.Trial stated = rule.proof().trials().get(trial);
      String times = times(tried.get(trial).times());
      String count = stated.match(byTrigger -> times.equals("never") ? "never met" : "met " + times, byEvent -> times);
      lines.add(stated.text() + ": " + count + first);
    }
    return lines;
  }

  /**
   * Why a trace does not put a rule to the test, such as {@code already so 2 times} or
   * {@code met 3 times; never tried by rises(go)}; empty where there is nothing to say but that no obligation arose.
   */
  public static String notExercisedReason(RuleResult rule) {
    if (!rule.seen().unrecorded().isEmpty()) {
      List<String> names = rule.seen().unrecorded();
      return "rests on recorded signals only: the trace has no values of " + (names.size() <= MOST_NAMES + 1
          ? String.join(", ", names) : String.join(", ", names.subList(0, MOST_NAMES)) + " and "
              + (names.size() - MOST_NAMES) + " more");
    }
    List<String> parts = new ArrayList<>();
    if (rule.obligations().met() > 0) {
      parts.add("met " + times(rule.obligations().met()));
    }
    if (rule.obligations().alreadySo() > 0) {
      parts.add("already so " + times(rule.obligations().alreadySo()));
    }
    if (rule.obligations().cancelled() > 0) {
      parts.add("cancelled " + times(rule.obligations().cancelled()));
    }
    if (rule.seen().unseen().isEmpty()) {
      for (int trial = 0; trial < rule.seen().tried().size(); trial++) {
        if (rule.seen().tried().get(trial).times() == 0) {
          String text = rule.rule().proof().trials().get(trial).text();
          parts.add(text.startsWith("stay ") ? "its stay never " + text.substring("stay ".length()) : "never " + text);
        }
      }
    }
    String seen = seen(rule.seen());
    if (!seen.isEmpty()) {
      parts.add(seen);
    }
    rule.seen().departures().forEach(departure -> parts.add(String.join(", ", departure.unknown()) + " unknown once "
        + departure.output() + " was not as recorded"));
    return String.join("; ", parts);
  }

  /** A number of times, such as {@code never}, {@code once} or {@code 3 times}. */
  public static String times(long count) {
    return count == 0 ? "never" : count == 1 ? "once" : ValueText.count(count) + " times";
  }

  /** Which counts of trains that a rule rests on were found wrong: a sentence for each zone, without a full stop. */
  public static List<String> wrongCounts(List<WrongCount> wrong, TimeBase base) {
    return wrong.stream().map(count -> "the count of " + count.zone() + " was found wrong "
        + (count.times() == 1 ? "" : times(count.times()) + ", first ") + "at " + TimeText.at(base, count.first())
            + "; it may have been so "
        + (count.since().isPresent() ? "since " + TimeText.at(base, count.since().getAsLong()) : "from the start on"))
            .toList();
  }

  /**
   * Why signals that a rule reads are unknown although the trace has values of them: a sentence for each cause, without
   * a full stop.
   */
  public static List<String> departures(Seen seen, TimeBase base) {
    return seen.departures().stream().map(departure -> departure(departure, base) + ", so that "
        + String.join(", ", departure.unknown()) + (departure.unknown().size() == 1 ? " is" : " are")
        + " unknown after that").toList();
  }

  /** How an output of a controller under test was not as recorded. */
  public static String departure(DepartureResult departure, TimeBase base) {
    return departure.output() + " was not as recorded from " + TimeText.at(base, departure.time()) + " on, "
        + departure.computed() + " instead of " + departure.recorded();
  }

  /** What became of the number of trains that rules state for the start. */
  public static String start(ZoneResult zone, ZoneResult.Start start) {
    return start.counts() ? start.trains() + ", as stated"
        : "0 to " + zone.holds() + ": the stated " + start.trains()
            + " does not count, since not all flags were seen within 5 s as they were at first";
  }

  private static void add(List<String> parts, long count, String label) {
    if (count > 0) {
      parts.add(ValueText.count(count) + " " + label);
    }
  }

  /** In how many traces a rule has which verdict, such as {@code broken in 1, held in 5}. */
  public static String spread(RuleOverview overview) {
    List<String> parts = new ArrayList<>();
    for (Verdict verdict : new Verdict[] {Verdict.BROKEN, Verdict.UNDECIDED, Verdict.NOT_EXERCISED, Verdict.HELD}) {
      if (overview.count(verdict) > 0) {
        parts.add(verdict(verdict) + " in " + ValueText.count(overview.count(verdict)));
      }
    }
    return String.join(", ", parts);
  }

  /** Why a rule is undecided, such as {@code 2 open when the trace ended, 1 decided by an unknown value}. */
  public static String undecidedReason(RuleResult rule) {
    List<String> parts = new ArrayList<>();
    add(parts, rule.obligations().open(), "open when the trace ended");
    add(parts, rule.obligations().borderline(), "met or missed by less than the resolution or tolerance");
    add(parts, rule.obligations().unknown(), "decided by an unknown value");
    add(parts, rule.obligations().unknownTriggers(), "possibly triggered and not surely met");
    add(parts, rule.obligations().miscounted(),
        "met, or possibly triggered, on a count of trains that was found wrong");
    return String.join(", ", parts);
  }

  /** How many traces say nothing, because they could not be read. */
  public static String unjudged(long traces) {
    return ValueText.count(traces) + (traces == 1 ? " trace" : " traces") + " not read";
  }

  /** How many values of a trace had no effect, because another one of the same signal and time came after them. */
  public static String overwritten(long count) {
    return ValueText.count(count) + (count == 1 ? " value" : " values")
        + " replaced by a later one of the same signal and time";
  }

  /** What a tracking finding may mean. */
  public static String tracking(TrackingFinding.Kind kind) {
    return switch (kind) {
      case LEFT_EMPTY -> "a train left while none was counted in";
      case OVERFILLED -> "a train entered while the zone held all it may";
      case IMPOSSIBLE_ORDER -> "its flags changed in an order that no train can cause";
    };
  }

  /** The label of a finding kind in words, such as {@code no response}. */
  public static String kind(Finding.Kind kind) {
    return kind.label().replace('-', ' ');
  }
}
