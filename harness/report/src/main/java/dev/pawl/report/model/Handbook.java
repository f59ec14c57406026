package dev.pawl.report.model;

import dev.pawl.grammar.rules.explain.Explanation;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleExample;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * All rules of a book, for somebody who reads them before he adopts or signs them.
 *
 * @param ride the ride's name, or the empty string
 * @param version of pawl
 * @param entries one for each rule, in the order of the book
 */
public record Handbook(String ride, String version, List<Entry> entries) {

  public Handbook {
    entries = List.copyOf(entries);
  }

  /**
   * One rule with what is said of it.
   *
   * @param explanation the rule in plain words
   * @param examples those in the rule files, in the order of their verdicts there
   */
  public record Entry(Rule rule, Explanation explanation, List<Example> examples) {
    public Entry {
      examples = List.copyOf(examples);
    }

    /** Name of its page, unique among those of its book, whatever characters the identifier has. */
    public String page() {
      return String.format("%03d-%s.html", rule.index() + 1, rule.id().replaceAll("[^A-Za-z0-9_-]", "_"));
    }

    /**
     * The sources that it states: parted by semicolons, and without what each asks for, which follows its colon. None
     * for common practice.
     */
    public List<String> sources() {
      return rule.basis().isPractice() ? List.of() : Arrays.stream(rule.basis().text().split(";"))
          .map(source -> source.split(": ")[0].strip()).filter(source -> !source.isEmpty()).distinct().toList();
    }
  }

  /**
   * A small trace for a rule.
   *
   * @param steps its events as text, a line for each time
   * @param finding why the rule is not held by it, where it is broken or undecided
   */
  public record Example(RuleExample example, Picture picture, List<String> steps, Optional<FindingResult> finding) {
    public Example {
      steps = List.copyOf(steps);
    }
  }

  /** Another case of the same rule that has examples, for one that has none of its own. */
  public Optional<Entry> exampled(Entry entry) {
    return entry.examples().isEmpty() ? entries.stream().filter(other -> !other.examples().isEmpty()
        && other.rule().position().equals(entry.rule().position())).findFirst() : Optional.empty();
  }

  /** The entries by the sources that they state, in order of name; common practice has none and is left out. */
  public Map<String, List<Entry>> bySource() {
    Map<String, List<Entry>> sorted = new TreeMap<>();
    for (Entry entry : entries) {
      for (String source : entry.sources()) {
        sorted.merge(source, List.of(entry), (one, other) -> {
          List<Entry> both = new ArrayList<>(one);
          both.addAll(other);
          return both;
        });
      }
    }
    return sorted;
  }
}
