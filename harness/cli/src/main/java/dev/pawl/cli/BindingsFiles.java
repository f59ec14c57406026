package dev.pawl.cli;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.DiagnosticRenderer;
import dev.pawl.grammar.source.Source;
import dev.pawl.trace.bindings.Bindings;
import dev.pawl.trace.bindings.BindingsFile;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** Bindings files named on the command line. */
final class BindingsFiles {

  /** Sections that belong to replay, record and watch; they mean nothing to recorded traces. */
  private static final Set<String> OTHER_SECTIONS = Set.of("topics", "broker", "outputs", "inputs");

  private BindingsFiles() {}

  /** The bindings, or none where no file was named; everything wrong with the file goes to the console. */
  static Bindings load(Optional<String> path, RuleBook book, Console console) {
    if (path.isEmpty()) {
      return Bindings.NONE;
    }
    Source source = RuleFiles.read(Path.of(path.get()));
    Bindings.Resolved resolved = Bindings.resolve(BindingsFile.parse(source), book, OTHER_SECTIONS);
    console.err().print(new DiagnosticRenderer(List.of(source)).render(resolved.diagnostics()));
    if (resolved.hasErrors()) {
      throw new CommandException("the bindings have errors, nothing was judged");
    }
    return resolved.bindings();
  }
}
