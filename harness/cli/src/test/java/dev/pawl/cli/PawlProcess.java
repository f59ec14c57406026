package dev.pawl.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;

/** The command as a process of its own, as the launcher starts it, to be sent signals. */
final class PawlProcess implements AutoCloseable {

  private static final long PATIENCE_SECONDS = 240;
  /** A process of a few seconds spends most of them on what the better compiler does for longer ones. */
  private static final String QUICK = "-XX:TieredStopAtLevel=1";

  private final Process process;
  private final Path out;
  private final Path err;

  private PawlProcess(Process process, Path out, Path err) {
    this.process = process;
    this.out = out;
    this.err = err;
  }

  static PawlProcess start(Path folder, String... words) throws IOException {
    Path out = Files.createTempFile(folder, "pawl", ".out");
    Path err = Files.createTempFile(folder, "pawl", ".err");
    return new PawlProcess(new ProcessBuilder(command(words)).redirectOutput(out.toFile()).redirectError(err.toFile())
        .start(), out, err);
  }

  /** The same by a shell, whose text says by {@code "$@"} where the command stands. */
  static PawlProcess startIn(Path folder, String text, String... words) throws IOException {
    Path out = Files.createTempFile(folder, "pawl", ".out");
    Path err = Files.createTempFile(folder, "pawl", ".err");
    List<String> shell = new ArrayList<>(List.of("sh", "-c", text, "sh"));
    shell.addAll(command(words));
    return new PawlProcess(new ProcessBuilder(shell).redirectOutput(out.toFile()).redirectError(err.toFile()).start(),
        out, err);
  }

  /** The words that start it. */
  static List<String> command(String... words) {
    // A build that was started in the background ignores the interrupt, and so would its children.
    String java = Path.of(System.getProperty("java.home"), "bin", "java").toString();
    String classes = System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
    List<String> command = new ArrayList<>(List.of("env", "--default-signal=INT", java, "-XX:+UseSerialGC", "-Xmx128m",
        QUICK, "-cp", classes, Main.class.getName()));
    command.addAll(List.of(words));
    return command;
  }

  /** Sends a signal by its name, such as INT. */
  void signal(String name) throws IOException, InterruptedException {
    new ProcessBuilder("kill", "-" + name, Long.toString(process.pid())).start().waitFor();
  }

  /** Waits until it has said so, to a person, and fails if it ends or takes too long. */
  void awaitWords(String words) throws InterruptedException {
    await(() -> err().contains(words), "it says '" + words + "'");
  }

  void await(BooleanSupplier condition, String what) throws InterruptedException {
    long deadline = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE_SECONDS);
    while (!condition.getAsBoolean()) {
      if (!process.isAlive() || System.nanoTime() > deadline) {
        throw new AssertionError("waited in vain until " + what + "; " + out() + err());
      }
      TimeUnit.MILLISECONDS.sleep(20);
    }
  }

  /** Waits until the condition holds or the process has ended. */
  void awaitOrEnd(BooleanSupplier condition) throws InterruptedException {
    long deadline = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE_SECONDS);
    while (process.isAlive() && System.nanoTime() < deadline && !condition.getAsBoolean()) {
      TimeUnit.MILLISECONDS.sleep(1);
    }
  }

  /** Its exit status. */
  int end() throws InterruptedException {
    if (!process.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
      throw new AssertionError("it does not end; " + out() + err());
    }
    return process.exitValue();
  }

  String out() {
    return text(out);
  }

  String err() {
    return text(err);
  }

  private static String text(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public void close() {
    process.destroyForcibly();
  }
}
