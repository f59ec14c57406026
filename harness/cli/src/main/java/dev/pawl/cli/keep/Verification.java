package dev.pawl.cli.keep;

import dev.pawl.cli.CommandException;
import dev.pawl.run.files.Digests;
import dev.pawl.run.files.FileTrouble;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/**
 * What became of the files of a report, and of those that it rests on, since it was written.
 *
 * @param same how many are as they were
 * @param changed those that are not, by their paths
 * @param missing those that are not there, or cannot be read
 * @param added those that came into the report's folder, or into one that was judged
 * @param beside files that are named as signatures of the manifest are; what they hold is not looked at
 */
public record Verification(int same, List<String> changed, List<String> missing, List<String> added,
    List<String> beside) {

  /** Whether all is as it was. */
  public boolean isSame() {
    return changed.isEmpty() && missing.isEmpty() && added.isEmpty();
  }

  /** The SHA-256 of the manifest itself, which a site may have kept elsewhere. */
  public static String manifest(Path folder) {
    try {
      return Digests.sha256(folder.resolve(Manifest.NAME));
    } catch (IOException e) {
      throw new CommandException(FileTrouble.message(folder.resolve(Manifest.NAME).toString(), e));
    }
  }

  /** Looks at the files of a report. */
  public static Verification ofReport(Path folder) {
    try {
      Search search = new Search();
      List<Checksum> stated = Manifest.stated(folder.resolve(Manifest.NAME));
      if (stated.isEmpty()) {
        throw new CommandException(folder.resolve(Manifest.NAME) + ": states no file, so it is no whole manifest");
      }
      search.lookIn(folder, stated);
      List<String> known = new ArrayList<>(stated.stream().map(Checksum::path).toList());
      known.addAll(List.of(Manifest.NAME, RunRecord.NAME));
      if (Files.exists(folder.resolve(RunRecord.NAME))) {
        search.lookIn(folder, Manifest.stated(folder.resolve(RunRecord.NAME)));
      } else {
        search.missing.add(folder.resolve(RunRecord.NAME).toString());
      }
      List<String> beside = new ArrayList<>();
      try (Stream<Path> files = Files.list(folder)) {
        files.filter(file -> !known.contains(file.getFileName().toString())).sorted().forEach(file ->
            (isSignature(file) ? beside : search.added).add(file.toString()));
      }
      return search.result(beside);
    } catch (IOException e) {
      throw new CommandException(FileTrouble.message(folder.toString(), e));
    }
  }

  private static boolean isSignature(Path file) {
    String name = file.getFileName().toString();
    return name.startsWith(Manifest.NAME + ".") || name.startsWith(RunRecord.NAME + ".");
  }

  /**
   * Looks at the files that a report rests on.
   *
   * @param from where their paths begin
   */
  public static Verification ofInputs(Path folder, Path from) {
    try {
      Search search = new Search();
      List<String> lines = Files.readAllLines(folder.resolve(InputList.NAME));
      InputList.files(lines).forEach(sum -> search.look(from.resolve(sum.path()), sum, sum.path()));
      search.missing.addAll(InputList.unread(lines));
      search.added.addAll(InputList.added(lines, from));
      return search.result(List.of());
    } catch (IOException e) {
      throw new CommandException(FileTrouble.message(folder.resolve(InputList.NAME).toString(), e));
    }
  }

  /** Both together. */
  public Verification and(Verification other) {
    return new Verification(same + other.same, joined(changed, other.changed), joined(missing, other.missing),
        joined(added, other.added), joined(beside, other.beside));
  }

  private static List<String> joined(List<String> one, List<String> other) {
    return Stream.concat(one.stream(), other.stream()).distinct().toList();
  }

  /** What is found while it is looked for. */
  private static final class Search {

    private int same;
    private final List<String> changed = new ArrayList<>();
    private final List<String> missing = new ArrayList<>();
    private final List<String> added = new ArrayList<>();

    private void lookIn(Path folder, List<Checksum> stated) {
      stated.forEach(sum -> look(folder.resolve(sum.path()), sum, folder.resolve(sum.path()).toString()));
    }

    private void look(Path file, Checksum stated, String shown) {
      try {
        if (Digests.sha256(file).equals(stated.sha256())) {
          same++;
        } else {
          changed.add(shown);
        }
      } catch (IOException e) {
        missing.add(shown);
      }
    }

    private Verification result(List<String> beside) {
      return new Verification(same, changed, missing, added, beside);
    }
  }
}
