package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Standard output that cannot be written. */
class OutletTest {

  @TempDir
  private Path folder;

  /** A check that says half a page, as JSON. */
  private String[] check() throws IOException {
    Path rules = Files.writeString(folder.resolve("stand.rules"), """
        ride "Test stand"
        input lift_run : bool
        rule RUN-01 "The lift runs"
          severity minor
          basis practice
          always lift_run
        """);
    Path trace = Files.writeString(folder.resolve("day.csv"), "time_ms,signal,value\n0,lift_run,1\n9,lift_run,1\n");
    return new String[] {"check", "--format", "json", "--rules", rules.toString(), trace.toString()};
  }

  @Test
  void aFullDiskIsSaidAndEndsWithTheStatusOfTrouble() throws Exception {
    Assumptions.assumeTrue(Files.exists(Path.of("/dev/full")), "this system has no /dev/full");
    for (String[] words : new String[][] {check(), {"--version"}}) {
      try (PawlProcess pawl = PawlProcess.startIn(folder, "\"$@\" >/dev/full", words)) {
        assertThat(pawl.end()).isEqualTo(ExitStatus.WRONG_INPUT);
        assertThat(pawl.err())
            .isEqualTo("pawl: standard output: No space left on device; what was to be said there is incomplete\n");
      }
    }
  }

  @Test
  void aClosedOutputIsSaid() throws Exception {
    try (PawlProcess pawl = PawlProcess.startIn(folder, "\"$@\" >&-", "--version")) {
      assertThat(pawl.end()).isEqualTo(ExitStatus.WRONG_INPUT);
      assertThat(pawl.err()).startsWith("pawl: standard output: ")
          .endsWith("; what was to be said there is incomplete\n");
    }
  }

  /** The reader is gone before anything is said. */
  @Test
  void aReaderThatHasHadEnoughIsNoTrouble() throws Exception {
    try (PawlProcess pawl = PawlProcess.startIn(folder, "{ \"$@\"; echo ended with $? >&2; } | true", check())) {
      pawl.end();
      assertThat(pawl.err()).isEqualTo("ended with 0\n");
    }
  }
}
