package dev.pawl.cli;

import dev.pawl.run.files.FileTrouble;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;

/**
 * Standard output, which remembers the first failure to write to it: a print stream tells nobody. That its reader has
 * had enough, as {@code head} has, is no failure.
 */
final class StandardOutput extends OutputStream {

  private static final Path ITSELF = Path.of("/proc/self/fd/1");

  private final FileOutputStream out;
  private Optional<IOException> failure = Optional.empty();

  StandardOutput(FileOutputStream out) {
    this.out = out;
  }

  @Override
  public void write(int octet) {
    write(new byte[] {(byte) octet}, 0, 1);
  }

  @Override
  public void write(byte[] bytes, int from, int count) {
    if (failure.isEmpty()) {
      try {
        out.write(bytes, from, count);
      } catch (IOException e) {
        failure = Optional.of(e);
      }
    }
  }

  /** Why what was written did not all arrive, unless its reader ended. */
  Optional<String> failure() {
    return failure.filter(problem -> !readerEnded(problem)).map(problem -> FileTrouble.message("standard output",
        problem));
  }

  /** The message may be in any language; but nothing else can go wrong with a pipe. */
  private static boolean readerEnded(IOException problem) {
    boolean said = String.valueOf(problem.getMessage()).toLowerCase(Locale.ROOT).contains("broken pipe");
    try {
      return said || Files.isSymbolicLink(ITSELF) && Files.readSymbolicLink(ITSELF).toString().startsWith("pipe:");
    } catch (IOException e) {
      return said;
    }
  }
}
