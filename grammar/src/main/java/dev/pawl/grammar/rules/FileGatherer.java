package dev.pawl.grammar.rules;

import dev.pawl.grammar.rules.parse.ParsedFile;
import dev.pawl.grammar.rules.parse.RuleReader;
import dev.pawl.grammar.rules.tree.Declaration;
import dev.pawl.grammar.rules.tree.RuleFile;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.Source;
import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** Reads files and those they use, each once, whatever circles they use each other in. */
final class FileGatherer {

  private final SourceLoader loader;
  private final Diagnostics problems;
  private final Set<String> known = new HashSet<>();
  private final List<RuleFile> files = new ArrayList<>();

  FileGatherer(SourceLoader loader, Diagnostics problems) {
    this.loader = loader;
    this.problems = problems;
  }

  List<RuleFile> files() {
    return files;
  }

  /** Reads a file and then those it uses. */
  void add(Source source) {
    Deque<Source> waiting = new ArrayDeque<>();
    if (known.add(FileNames.normal(source.name()))) {
      waiting.add(source);
    }
    while (!waiting.isEmpty()) {
      ParsedFile parsed = RuleReader.read(waiting.poll());
      parsed.diagnostics().forEach(problems::add);
      files.add(parsed.file());
      for (Declaration declaration : parsed.file().declarations()) {
        if (declaration instanceof Declaration.Use use) {
          load(parsed.file().source(), use, waiting);
        }
      }
    }
  }

  private void load(Source user, Declaration.Use use, Deque<Source> waiting) {
    String name = FileNames.resolve(user.name(), use.file().text());
    if (!known.add(name)) {
      return;
    }
    try {
      waiting.add(loader.load(name));
    } catch (IOException problem) {
      problems.add(Diagnostic.error(use.file().position(), "`" + use.file().text() + "` cannot be read: "
          + problem.getMessage(), "the path counts from the folder of this file"));
    }
  }
}
