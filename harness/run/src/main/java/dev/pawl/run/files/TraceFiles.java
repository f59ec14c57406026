package dev.pawl.run.files;

import dev.pawl.trace.TraceFormat;
import dev.pawl.trace.bytes.Decompression;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;

/** Traces by their paths. A file named outright is taken whatever its name; its format is known by its content. */
public final class TraceFiles {

  private static final long LARGE_BYTES = 8L * 1024 * 1024;

  private TraceFiles() {}

  public static List<Path> of(List<String> paths) {
    String wanted = "traces (" + TraceFormat.namesInWords() + ", also with "
        + Decompression.ENDINGS_IN_WORDS + ")";
    return Folders.files(paths, wanted, TraceFiles::isTrace);
  }

  /** Files of the folders among the paths that are left out: neither traces nor rules by their names. */
  public static List<Path> leftOut(List<String> paths) {
    return Folders.leftOut(paths, name -> isTrace(name) || name.endsWith(RuleFiles.ENDING));
  }

  /** Whether reading takes so long that a second thread is worth its start. */
  public static boolean isLarge(Path trace) {
    try {
      return Files.size(trace) > LARGE_BYTES;
    } catch (IOException e) {
      return false;
    }
  }

  public static boolean isTrace(String name) {
    String plain = name.toLowerCase(Locale.ROOT);
    for (String ending : Decompression.ENDINGS) {
      plain = plain.endsWith(ending) ? plain.substring(0, plain.length() - ending.length()) : plain;
    }
    return TraceFormat.isTrace(plain);
  }
}
