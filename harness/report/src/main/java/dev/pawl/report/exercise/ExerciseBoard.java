package dev.pawl.report.exercise;

import dev.pawl.engine.Obligations;
import dev.pawl.engine.RuleOutcome;
import dev.pawl.engine.Sight;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.explain.RuleExplainer;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.report.words.FindingWords;
import java.util.ArrayList;
import java.util.List;

/** The rules of a book with what would try each, to be ticked off by what has happened. */
public final class ExerciseBoard {

  private final RuleBook book;
  private final List<List<String>> words;

  public ExerciseBoard(RuleBook book) {
    RuleExplainer explainer = new RuleExplainer(book);
    this.book = book;
    this.words = book.rules().stream().map(explainer::waysToTry).toList();
  }

  /** One exercise for each rule, in the order of the book. */
  public List<Exercise> after(TraceOutcome outcome) {
    return outcome.rules().stream().map(rule -> exercise(rule, outcome)).toList();
  }

  private Exercise exercise(RuleOutcome outcome, TraceOutcome whole) {
    Rule rule = book.rules().get(outcome.rule());
    List<Exercise.Way> ways = new ArrayList<>();
    for (String clause : words.get(outcome.rule())) {
      ways.add(new Exercise.Way(clause, times(rule, outcome, ways.size(), whole)));
    }
    boolean done = !ways.isEmpty() && ways.stream().allMatch(Exercise.Way::isDone);
    boolean tried = done || outcome.verdict() == Verdict.BROKEN;
    return new Exercise(rule, ways, tried, tried ? "" : remark(ways, outcome.obligations()));
  }

  private long times(Rule rule, RuleOutcome outcome, int way, TraceOutcome whole) {
    if (!rule.proof().trials().isEmpty()) {
      return outcome.tried().get(way).times();
    }
    long counted = outcome.obligations().met() + outcome.obligations().missed();
    return counted == 0 && isWatched(rule, whole) ? 1 : counted;
  }

  /** A rule that speaks of every instant counts nothing before its stretch ends, and is at work since it began. */
  private boolean isWatched(Rule rule, TraceOutcome whole) {
    return rule.duty() instanceof Rule.Always && rule.duty().whilst().isEmpty() && rule.duty().unless().isEmpty()
        && RuleParts.signals(rule, book).stream().noneMatch(signal -> whole.signals().get(signal) == Sight.NEVER);
  }

  private static String remark(List<Exercise.Way> ways, Obligations obligations) {
    if (ways.isEmpty()) {
      return "nothing can try it, as it is written";
    }
    List<String> parts = new ArrayList<>();
    if (obligations.alreadySo() > 0) {
      parts.add(FindingWords.times(obligations.alreadySo()) + " it was so already");
    }
    if (obligations.cancelled() > 0) {
      parts.add(FindingWords.times(obligations.cancelled()) + " it was cancelled");
    }
    return parts.isEmpty() ? "" : String.join(", ", parts) + ", which shows nothing";
  }
}
