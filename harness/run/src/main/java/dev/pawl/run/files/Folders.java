package dev.pawl.run.files;

import dev.pawl.run.RunException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.FileVisitOption;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Stream;

/** Paths on the command line, which may be files or folders. */
public final class Folders {

  private Folders() {}

  /**
   * The files that paths stand for: a file itself, and of a folder all files below it, by name, that are wanted. No
   * file comes twice.
   *
   * @param wanted what is looked for, in the words of the message when a folder has none
   * @param name whether a file of a folder is wanted, by its name
   */
  public static List<Path> files(List<String> paths, String wanted, Predicate<String> name) {
    Set<Path> files = new LinkedHashSet<>();
    for (String path : paths) {
      Path file = Path.of(path);
      if (!Files.exists(file)) {
        throw new RunException(path + ": no such file or folder");
      }
      if (Files.isDirectory(file)) {
        List<Path> inside = inside(file, name);
        if (inside.isEmpty()) {
          throw new RunException(path + ": this folder holds no " + wanted);
        }
        files.addAll(inside);
      } else {
        files.add(file);
      }
    }
    return new ArrayList<>(files);
  }

  /** Files of the folders among the paths that are not wanted, by their names. */
  public static List<Path> leftOut(List<String> paths, Predicate<String> name) {
    List<Path> files = new ArrayList<>();
    for (String path : paths) {
      if (Files.isDirectory(Path.of(path))) {
        files.addAll(inside(Path.of(path), name.negate()));
      }
    }
    return files;
  }

  /** The files below a folder that are wanted. A link that leads nowhere is among them, so that reading it says so. */
  public static List<Path> inside(Path folder, Predicate<String> name) {
    try (Stream<Path> all = Files.walk(folder, FileVisitOption.FOLLOW_LINKS)) {
      return all.filter(file -> (Files.isRegularFile(file) || Files.isSymbolicLink(file) && !Files.exists(file))
          && name.test(file.getFileName().toString())).sorted().toList();
    } catch (IOException e) {
      throw new RunException(FileTrouble.message(folder.toString(), e));
    } catch (UncheckedIOException e) {
      throw new RunException(FileTrouble.message(folder.toString(), e.getCause()));
    }
  }
}
