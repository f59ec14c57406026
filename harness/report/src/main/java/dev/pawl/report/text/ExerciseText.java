package dev.pawl.report.text;

import dev.pawl.grammar.source.Legible;
import dev.pawl.report.exercise.Exercise;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.ValueText;
import java.util.List;

/** The exercise board as text: the rules that have not been tried, with what would try each. */
public final class ExerciseText {

  private static final int TICK = 5;

  private ExerciseText() {}

  /** The board, or a sentence where all is ticked off. */
  public static String of(List<Exercise> board, Style style) {
    Page page = new Page(style);
    long untried = board.size() - Exercise.tried(board);
    if (untried == 0) {
      page.line("Every rule has been tried.");
      return page.toString();
    }
    page.line(style.strong("Not tried yet: " + ValueText.count(untried) + " of " + ValueText.count(board.size())
        + (board.size() == 1 ? " rule" : " rules")) + ". What would try each, done where it is ticked:");
    board.stream().filter(exercise -> !exercise.tried()).forEach(exercise -> {
      page.line("  " + style.strong(Legible.of(exercise.rule().id())) + "  " + Legible.of(exercise.rule().title()));
      exercise.ways().forEach(way -> page.labelled(way.isDone() ? "  [x]" : "  [ ]", TICK, way.words()
          + (way.isDone() ? " (" + FindingWords.times(way.times()) + ")" : "")));
      if (!exercise.remark().isEmpty()) {
        page.labelled("", TICK, exercise.remark());
      }
    });
    return page.toString();
  }
}
