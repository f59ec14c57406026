package dev.pawl.bench.workload;

import dev.pawl.bench.trace.CampaignTrace;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

/** A generated campaign trace on disk; made once, and made whole or not at all. */
public final class CampaignFile {

  private static final int ROWS_PER_CYCLE = 100;

  private CampaignFile() {}

  /** The trace of that many rows: always 100 rows to a dispatch, so that shorter and longer ones are alike. */
  public static CampaignTrace trace(long rows) {
    return new CampaignTrace(rows, Math.toIntExact(Math.max(1, rows / ROWS_PER_CYCLE)), CampaignTrace.FULL.seed());
  }

  /** The file of the trace of that many rows, which is made if it is not there. */
  public static Path make(Path folder, long rows) throws IOException {
    Path file = folder.resolve("campaign-" + rows + ".csv");
    if (!Files.exists(file)) {
      Files.createDirectories(folder);
      Path part = folder.resolve(file.getFileName() + ".part");
      try (OutputStream out = Files.newOutputStream(part)) {
        trace(rows).writeTo(out);
      }
      Files.move(part, file, StandardCopyOption.ATOMIC_MOVE);
    }
    return file;
  }

  /** Makes another file with the same content. */
  public static void copy(Path file, Path other) throws IOException {
    Path part = other.resolveSibling(other.getFileName() + ".part");
    Files.copy(file, part, StandardCopyOption.REPLACE_EXISTING);
    Files.move(part, other, StandardCopyOption.ATOMIC_MOVE);
  }

  /** Writes the trace of the given number of rows into the given folder. */
  public static void main(String[] arguments) throws IOException {
    make(Path.of(arguments[0]), Long.parseLong(arguments[1]));
  }
}
