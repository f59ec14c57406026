package dev.pawl.cli.keep;

import dev.pawl.run.control.RecordingFile;
import dev.pawl.trace.time.TimeScale;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/**
 * The file that a replay's trace is kept in. It is written beside its place, under the same name with
 * {@code .unfinished} behind it, and comes to its place when it is whole.
 *
 * @param file its place
 * @param replace whether a kept trace may be there already, whose place it takes
 */
public record KeptTrace(Path file, boolean replace) implements RecordingFile {

  private static final TimeScale[] SCALES = {TimeScale.NANOSECONDS, TimeScale.RFC_3339};

  /** A file that may be written as things are. */
  public static KeptTrace of(String file, boolean replace) {
    KeptTrace kept = new KeptTrace(Path.of(file), replace);
    kept.check();
    kept.checkUnfinished();
    return kept;
  }

  Path unfinished() {
    return file.resolveSibling(file.getFileName() + ".unfinished");
  }

  @Override
  public RuntimeException trouble(IOException problem) {
    return KeptFiles.trouble(file, problem);
  }

  private void check() {
    if (!KeptFiles.isThere(file)) {
      return;
    }
    if (!replace) {
      throw KeptFiles.refusal(file,
          "is there already, and nothing is written over it; --replace puts another kept trace in its place, or name"
          + " another file");
    }
    requireKept(file);
  }

  private void checkUnfinished() {
    if (KeptFiles.isThere(unfinished())) {
      requireKept(unfinished());
    }
  }

  private static void requireKept(Path file) {
    KeptFiles.requireFileItself(file);
    try {
      if (!KeptFiles.beginsAsKept(file, SCALES)) {
        throw KeptFiles.refusal(file, "is no trace that pawl kept, and stays; name another file");
      }
    } catch (IOException e) {
      throw KeptFiles.trouble(file, e);
    }
  }

  /** Opens the file beside, empty; what an earlier run left there when it was killed is given up. */
  @Override
  public FileChannel open() {
    checkUnfinished();
    try {
      FileChannel channel = FileChannel.open(unfinished(), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
      KeptFiles.claim(channel, file);
      channel.truncate(0);
      return channel;
    } catch (IOException e) {
      throw KeptFiles.trouble(unfinished(), e);
    }
  }

  /** Puts the file in its place. */
  @Override
  public void finish() {
    check();
    try {
      Durable.file(unfinished());
      if (replace) {
        Files.move(unfinished(), file, StandardCopyOption.REPLACE_EXISTING);
      } else {
        Files.move(unfinished(), file);
      }
      Durable.nameOf(file);
    } catch (IOException e) {
      throw KeptFiles.trouble(file, e);
    }
  }

  /** Takes the file beside away, of which nothing is of use. */
  @Override
  public void giveUp() {
    try {
      Files.deleteIfExists(unfinished());
    } catch (IOException e) {
      throw KeptFiles.trouble(unfinished(), e);
    }
  }
}
