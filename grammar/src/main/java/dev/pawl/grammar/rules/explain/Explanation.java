package dev.pawl.grammar.rules.explain;

import java.util.List;
import java.util.OptionalLong;

/**
 * A rule said in other ways.
 *
 * @param id the rule's identifier
 * @param title its title
 * @param text the duty as written, on one line
 * @param words the duty in plain words, sentence by sentence
 * @param formula the duty in metric temporal logic over dense time
 * @param decisionDelay nanoseconds from the trigger to the latest instant at which the verdict on it is final; empty
 *     where only a later event or the end of the trace makes it final
 * @param decision the same in plain words
 * @param signals names of the signals it needs, those behind its zones included
 * @param exercise what a trace must show for the rule to be exercised, or why none can exercise it
 * @param canBeExercised whether some trace may exercise it, as far as can be told without one
 */
public record Explanation(String id, String title, String text, List<String> words, String formula,
    OptionalLong decisionDelay, String decision, List<String> signals, List<String> exercise, boolean canBeExercised) {

  public Explanation {
    words = List.copyOf(words);
    signals = List.copyOf(signals);
    exercise = List.copyOf(exercise);
  }
}
