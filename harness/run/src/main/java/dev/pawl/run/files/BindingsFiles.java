package dev.pawl.run.files;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.DiagnosticRenderer;
import dev.pawl.grammar.source.Source;
import dev.pawl.report.model.Input;
import dev.pawl.run.RunException;
import dev.pawl.trace.bindings.Bindings;
import dev.pawl.trace.bindings.BindingsFile;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * A file of bindings.
 *
 * @param source the file as it was read; empty where none was named
 * @param bindings which tag of a trace is which signal
 * @param warnings what is doubtful in the file, for its user to read
 */
public record BindingsFiles(Optional<Source> source, Bindings bindings, String warnings) {

  /** Signals have the names of their tags. */
  public static final BindingsFiles NONE = new BindingsFiles(Optional.empty(), Bindings.NONE, "");

  /** Sections that belong to replay, record and watch; they mean nothing to recorded traces. */
  private static final Set<String> OTHER_SECTIONS = Set.of("topics", "broker", "outputs", "inputs");

  /**
   * Reads a file of bindings.
   *
   * @throws RunException with everything wrong with it, if it has an error
   */
  public static BindingsFiles load(String file, RuleBook book) {
    return of(RuleFiles.read(Path.of(file)), book);
  }

  /** The same of a text that was read. */
  public static BindingsFiles of(Source source, RuleBook book) {
    Bindings.Resolved resolved = Bindings.resolve(BindingsFile.parse(source), book, OTHER_SECTIONS);
    String diagnostics = new DiagnosticRenderer(List.of(source)).render(resolved.diagnostics());
    if (resolved.hasErrors()) {
      throw new RunException(diagnostics, "the bindings have errors, nothing was judged");
    }
    return new BindingsFiles(Optional.of(source), resolved.bindings(), diagnostics);
  }

  /** The file as an input of a report. */
  public List<Input> inputs() {
    return source.map(read -> Digests.of(Input.Role.BINDINGS, read)).stream().toList();
  }
}
