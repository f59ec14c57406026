package dev.pawl.run.files;

import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.source.Source;
import dev.pawl.run.RunException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The files that rule files name with {@code use}: those in the folders of the files named, in the library
 * of rules, and in folders that were allowed. Others are not opened, so that no message can show what stands in them.
 */
public final class UsedFiles implements SourceLoader {

  private final List<Path> folders = new ArrayList<>();

  /**
   * The files that may be used.
   *
   * @param named files named to be judged by
   * @param allowed folders allowed beside theirs
   * @param library folder of the rule library, which need not exist
   */
  public UsedFiles(List<Path> named, List<String> allowed, Optional<Path> library) {
    named.forEach(file -> addIfThere(file.toAbsolutePath().getParent()));
    library.ifPresent(this::addIfThere);
    for (String folder : allowed) {
      if (!Files.isDirectory(Path.of(folder))) {
        throw new RunException(folder + ": no folder; --use-from takes one");
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
