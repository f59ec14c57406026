package dev.pawl.dist;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;

/** The archives that the build has made. */
final class Archives {

  private static final Path BUILT = Path.of("target");

  private Archives() {}

  /** The one for any system that has a Java. */
  static Path plain() throws IOException {
    return only(BUILT, "pawl-[0-9.]+\\.zip");
  }

  /** The one for this system, with its Java. */
  static Path withJava() throws IOException {
    return only(BUILT, "pawl-[0-9.]+-.+\\.zip");
  }

  static Path broker() throws IOException {
    return only(Path.of("../broker/target"), "pawl-broker-.*\\.zip");
  }

  static void unpack(Path archive, Path folder) throws Exception {
    assertThat(new ProcessBuilder("unzip", "-q", "-o", archive.toAbsolutePath().toString()).directory(folder.toFile())
        .start().waitFor()).isZero();
  }

  /** The file or folder of this name. */
  static Path only(Path folder, String name) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.filter(file -> file.getFileName().toString().matches(name)).findFirst().orElseThrow();
    }
  }
}
