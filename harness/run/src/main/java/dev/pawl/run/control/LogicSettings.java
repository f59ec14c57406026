package dev.pawl.run.control;

import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.logic.LogicOptions;
import dev.pawl.logic.ScanOptions;
import java.util.HashMap;
import java.util.Map;
import java.util.Set;

/**
 * How logic under test is run.
 *
 * @param scans when scans happen; times of power cuts count from the start
 * @param language what the standard leaves open
 * @param variables paths of variables by names of signals, where those have other names
 * @param choices how its text is read
 * @param recorded signals that are taken from the trace, whatever the program has
 */
public record LogicSettings(ScanOptions scans, LogicOptions language, LanguageChoices choices,
    Map<String, String> variables, Set<String> recorded) {

  /** The same, with variables of which these settings state nothing themselves. */
  public LogicSettings and(Map<String, String> others) {
    Map<String, String> all = new HashMap<>(others);
    all.putAll(variables);
    return new LogicSettings(scans, language, choices, all, recorded);
  }

  /** A scan every 10 ms, of a program whose variables are named as the signals. */
  public static final LogicSettings DEFAULT =
      new LogicSettings(ScanOptions.DEFAULT, LogicOptions.DEFAULT, LanguageChoices.DEFAULT, Map.of(), Set.of());
}
