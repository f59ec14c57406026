package dev.pawl.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;

/** The traces that a command was given. A file named outright is taken whatever its name; its format is known by its content. */
final class TraceFiles {

  private static final String[] ENDINGS = {".csv", ".jsonl", ".ndjson", ".vcd"};
  private static final String[] COMPRESSED = {".gz", ".zst"};

  private static final int MOST_NAMED = 5;
  private static final long LARGE_BYTES = 8L * 1024 * 1024;

  private TraceFiles() {}

  static List<Path> of(List<String> paths) {
    return Folders.files(paths, "traces (*.csv, *.jsonl, *.ndjson or *.vcd, also with .gz or .zst)", TraceFiles::isTrace);
  }

  /** Says which files of folders are left out, because they are neither traces nor rules by their names. */
  static void mentionLeftOut(List<String> paths, Console console) {
    List<Path> files = Folders.leftOut(paths, name -> isTrace(name) || name.endsWith(RuleFiles.ENDING));
    if (!files.isEmpty()) {
      String names = String.join(", ", files.stream().limit(MOST_NAMED).map(Path::toString).toList());
      console.err().println("pawl: " + (files.size() == 1 ? "1 file is no trace by its name and is left out: "
          : files.size() + " files are no traces by their names and are left out: ") + names
          + (files.size() > MOST_NAMED ? ", ..." : "") + " (name one itself to have it read)");
    }
  }

  /** Whether reading takes so long that a second thread is worth its start. */
  static boolean isLarge(Path trace) {
    try {
      return Files.size(trace) > LARGE_BYTES;
    } catch (IOException e) {
      return false;
    }
  }

  static boolean isTrace(String name) {
    String plain = name.toLowerCase(Locale.ROOT);
    for (String ending : COMPRESSED) {
      plain = plain.endsWith(ending) ? plain.substring(0, plain.length() - ending.length()) : plain;
    }
    for (String ending : ENDINGS) {
      if (plain.endsWith(ending)) {
        return true;
      }
    }
    return false;
  }
}
