package dev.pawl.trace.bindings;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.trace.feedback.StatedFeedback;
import dev.pawl.trace.sampling.StatedSampling;
import dev.pawl.trace.time.TimeForm;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * What a bindings file means for a rule book. A signal that has a tag is known by that tag only; one that has none is
 * known by its own name.
 *
 * @param time what is stated of times
 * @param columns what columns are called
 * @param tags the bound tags
 * @param ignored tags that are left out on purpose; {@code *} at the end stands for any ending
 * @param words how values are spelt
 * @param sampling how signals were looked at
 * @param feedback which signals follow which outputs
 * @param session how recorded traces belong together
 * @param beginning what signals were before their first rows
 * @param variables addresses or paths of the logic's variables, by the names of the signals that they are
 */
public record Bindings(TimeForm time, Columns columns, List<TagBinding> tags, List<String> ignored, ValueWords words,
    StatedSampling sampling, StatedFeedback feedback, StatedSession session, StatedBeginning beginning,
    Map<String, String> variables) {

  public static final Bindings NONE = new Bindings(TimeForm.UNSTATED, Columns.DEFAULT, List.of(), List.of());

  public Bindings {
    tags = List.copyOf(tags);
    ignored = List.copyOf(ignored);
    variables = Map.copyOf(variables);
  }

  /** Bindings that state nothing of how signals were looked at, nor of what they follow. */
  public Bindings(TimeForm time, Columns columns, List<TagBinding> tags, List<String> ignored) {
    this(time, columns, tags, ignored, ValueWords.NONE, StatedSampling.NONE, StatedFeedback.NONE, StatedSession.NONE,
        StatedBeginning.NONE, Map.of());
  }

  /** The bindings, or what is wrong with them; with errors the bindings hold what could be understood. */
  public record Resolved(Bindings bindings, List<Diagnostic> diagnostics) {
    public Resolved {
      diagnostics = List.copyOf(diagnostics);
    }

    public boolean hasErrors() {
      return diagnostics.stream().anyMatch(Diagnostic::isError);
    }
  }

  /**
   * Checks a file's own sections against a rule book.
   *
   * @param otherSections names of sections that some other module reads
   */
  public static Resolved resolve(BindingsFile file, RuleBook book, Set<String> otherSections) {
    return new BindingsResolver(file, book, otherSections).resolve();
  }

  /** Whether a tag is left out on purpose. */
  public boolean ignores(String tag) {
    for (String pattern : ignored) {
      boolean open = pattern.endsWith("*");
      if (open ? tag.startsWith(pattern.substring(0, pattern.length() - 1)) : tag.equals(pattern)) {
        return true;
      }
    }
    return false;
  }
}
