package dev.pawl.cli;

import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.source.Source;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * The files that rule files name with {@code use}: those in the folders of the files named on the command line, in pawl's own library
 * of rules, and in folders that were allowed. Others are not opened, so that no message can show what stands in them.
 */
final class UsedFiles implements SourceLoader {

  private final List<Path> folders = new ArrayList<>();

  /**
   * The files that may be used.
   *
   * @param named files named on the command line
   * @param allowed folders allowed there
   * @param library pawl's own library of rules, which need not exist
   */
  UsedFiles(List<Path> named, List<String> allowed, Path library) {
    named.forEach(file -> addIfThere(file.toAbsolutePath().getParent()));
    addIfThere(library);
    for (String folder : allowed) {
      if (!Files.isDirectory(Path.of(folder))) {
        throw new CommandException(folder + ": no folder; --use-from takes one");
      }
      addIfThere(Path.of(folder));
    }
  }

  /** A folder that cannot be reached allows nothing; the file in it gets its own message when it is read. */
  private void addIfThere(Path folder) {
    try {
      folders.add(folder.toRealPath());
    } catch (IOException missing) {
      return;
    }
  }

  @Override
  public Source load(String name) throws IOException {
    Path file;
    try {
      file = Path.of(name).toRealPath();
    } catch (IOException problem) {
      throw new IOException(FileTrouble.reason(problem), problem);
    }
    if (folders.stream().noneMatch(file::startsWith)) {
      throw new IOException("it lies outside the folder of the rule file; allow its folder with --use-from");
    }
    return new Source(name, Texts.read(file));
  }
}
