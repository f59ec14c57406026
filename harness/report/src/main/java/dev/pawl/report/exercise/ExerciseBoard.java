package dev.pawl.report.exercise;

import dev.pawl.engine.Obligations;
import dev.pawl.engine.RuleOutcome;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.explain.RuleExplainer;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
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
    return outcome.rules().stream().map(this::exercise).toList();
  }

  private Exercise exercise(RuleOutcome outcome) {
    Rule rule = book.rules().get(outcome.rule());
    List<Exercise.Way> ways = new ArrayList<>();
    for (String clause : words.get(outcome.rule())) {
      ways.add(new Exercise.Way(clause, times(rule, outcome, ways.size())));
    }
    boolean done = !ways.isEmpty() && ways.stream().allMatch(Exercise.Way::isDone);
    boolean tried = done || outcome.verdict() == Verdict.BROKEN;
    return new Exercise(rule, ways, tried, tried ? "" : remark(ways, outcome.obligations()));
  }

  private static long times(Rule rule, RuleOutcome outcome, int way) {
    return rule.proof().trials().isEmpty() ? outcome.obligations().met() + outcome.obligations().missed()
        : outcome.tried().get(way).times();
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
