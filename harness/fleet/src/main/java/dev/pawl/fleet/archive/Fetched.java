package dev.pawl.fleet.archive;

import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

/** A file by its address, copied to this machine for as long as it is judged. */
record Fetched(Path path) implements Closeable {

  static Fetched of(String address) throws IOException {
    org.apache.flink.core.fs.Path from = new org.apache.flink.core.fs.Path(address);
    Path copy = Files.createTempFile("pawl-fleet-", "-" + from.getName());
    try (InputStream in = from.getFileSystem().open(from)) {
      Files.copy(in, copy, StandardCopyOption.REPLACE_EXISTING);
      return new Fetched(copy);
    } catch (IOException | RuntimeException e) {
      Files.deleteIfExists(copy);
      throw e;
    }
  }

  @Override
  public void close() throws IOException {
    Files.deleteIfExists(path);
  }
}
