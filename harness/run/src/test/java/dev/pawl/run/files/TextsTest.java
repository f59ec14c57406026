package dev.pawl.run.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** How large a text may be. */
class TextsTest {

  private static final int MEGABYTE = 1024 * 1024;

  @TempDir
  private Path folder;

  private Path file(int bytes) throws IOException {
    Path file = folder.resolve(bytes + ".txt");
    try (RandomAccessFile written = new RandomAccessFile(file.toFile(), "rw")) {
      written.setLength(bytes);
    }
    return file;
  }

  @Test
  void whatIsWrittenByHandHasSixteenMegabytesAtMost() throws IOException {
    assertThat(Texts.read(Files.writeString(folder.resolve("a"), "ride"))).isEqualTo("ride");
    Path larger = file(16 * MEGABYTE + 1);
    assertThatThrownBy(() -> Texts.read(larger)).isInstanceOf(IOException.class)
        .hasMessage("larger than 16 MB, which no file written by hand is");
  }

  @Test
  void aProjectMayBeLarger() throws IOException {
    assertThat(Texts.readInAnyLetters(file(16 * MEGABYTE + 1)).text().length()).isEqualTo(16 * MEGABYTE + 1);
    Path larger = file(64 * MEGABYTE + 1);
    assertThatThrownBy(() -> Texts.readInAnyLetters(larger)).isInstanceOf(IOException.class)
        .hasMessage("larger than 64 MB; export the project in several files");
  }
}
