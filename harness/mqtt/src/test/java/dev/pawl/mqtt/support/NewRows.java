package dev.pawl.mqtt.support;

import dev.pawl.mqtt.feed.RowFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/** Files of rows that begin empty. */
public final class NewRows {

  private NewRows() {}

  /** Creates the file, or empties it. */
  public static RowFile at(Path path) throws IOException {
    return new RowFile(Files.newByteChannel(path, StandardOpenOption.CREATE, StandardOpenOption.TRUNCATE_EXISTING,
        StandardOpenOption.WRITE));
  }
}
