package dev.pawl.cli.option;

import dev.pawl.cli.keep.KeptFiles;
import dev.pawl.run.files.Folders;
import dev.pawl.run.files.LogicFiles;
import dev.pawl.run.files.RuleFiles;
import dev.pawl.run.files.TraceFiles;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import picocli.CommandLine.ParseResult;

/**
 * The files that a run reads, none of which it may write.
 *
 * @param files each by one of its names
 */
public record RunInputs(List<Path> files) {

  private static final List<Option<Optional<String>>> SINGLE = List.of(ReadingOptions.BINDINGS,
      BrokerOptions.CREDENTIALS, BrokerOptions.CA, BrokerOptions.CERTIFICATE, BrokerOptions.KEY);

  /** The files that the words name, and those of the folders that they name. */
  public static RunInputs of(ParseResult words) {
    List<Path> files = new ArrayList<>();
    SINGLE.forEach(option -> option.of(words).map(Path::of).ifPresent(files::add));
    DecisionOptions.DECISIONS.of(words).stream().map(Path::of).forEach(files::add);
    add(files, RuleOptions.RULES.of(words), name -> name.endsWith(RuleFiles.ENDING));
    add(files, ProgramOptions.LOGIC.of(words), LogicFiles::reads);
    add(files, Operands.of(words), TraceFiles::isTrace);
    return new RunInputs(List.copyOf(files));
  }

  private static void add(List<Path> files, List<String> paths, Predicate<String> name) {
    for (String path : paths) {
      if (Files.isDirectory(Path.of(path))) {
        files.addAll(Folders.inside(Path.of(path), name));
      } else {
        files.add(Path.of(path));
      }
    }
  }

  /** Refuses a file that is to be written and is one of these, by whatever name. */
  public void refuse(Optional<String> kept) {
    for (Path input : files) {
      if (kept.isPresent() && isSame(input, Path.of(kept.get()))) {
        throw KeptFiles.refusal(Path.of(kept.get()), "this run reads that file; name another");
      }
    }
  }

  private static boolean isSame(Path one, Path other) {
    try {
      return Files.exists(one) && Files.exists(other) && Files.isSameFile(one, other);
    } catch (IOException e) {
      // A file that cannot be looked at cannot be written either.
      return false;
    }
  }
}
