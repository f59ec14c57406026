package dev.pawl.run.files;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;

/**
 * What tells that a file was written to or replaced: its size, when it was last written, and which file it is. It
 * spares a second reading of traces that are large.
 */
public record FileStamp(long bytes, String written, String key) {

  /** The stamp of a file as it is; one that cannot be looked at has one too. */
  public static FileStamp of(Path file) {
    try {
      BasicFileAttributes attributes = Files.readAttributes(file, BasicFileAttributes.class);
      return new FileStamp(attributes.size(), attributes.lastModifiedTime().toInstant().toString(),
          String.valueOf(attributes.fileKey()));
    } catch (IOException e) {
      return new FileStamp(-1, "", "");
    }
  }
}
