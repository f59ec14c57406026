package dev.pawl.cli.keep;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/**
 * Sees to it that what is written is on the disk and not in the system's memory alone, so that a power cut leaves it
 * there.
 */
public final class Durable {

  private Durable() {}

  /** A file's bytes, whoever wrote them. */
  public static void file(Path file) throws IOException {
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
      channel.force(true);
    }
  }

  /** The names in the folder that a file or folder lies in. */
  public static void nameOf(Path file) {
    try (FileChannel folder = FileChannel.open(file.toAbsolutePath().getParent(), StandardOpenOption.READ)) {
      folder.force(true);
    } catch (IOException e) {
      // Not every system lets a folder be opened; the names are then written in its own time.
      return;
    }
  }
}
