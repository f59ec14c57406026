package dev.pawl.dist;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The archive with its own Java, unpacked in a root in which nothing else is but a shell and the libraries of C that it
 * and Java are linked with: no Java, no Maven, no tool.
 */
class EmptyRootTest {

  /** What a Java from this system's packages is linked with; one that carries more of its own needs less. */
  private static final Set<String> LIBRARIES = Set.of("ld-linux-x86-64.so.2", "ld-linux-aarch64.so.1", "libc.so.6",
      "libm.so.6", "libz.so.1", "libgcc_s.so.1", "libstdc++.so.6");

  @TempDir
  private Path root;

  private Path pawl;

  @BeforeEach
  void unpack() throws Exception {
    assumeTrue(System.getProperty("os.name").equals("Linux"), "roots are changed as on Linux here");
    Archives.unpack(Archives.withJava(), root);
    pawl = Archives.only(root, "pawl-.*");
    Files.createDirectories(root.resolve("bin"));
    Files.createDirectories(root.resolve("tmp"));
    Files.createDirectories(root.resolve("proc"));
    // The broker looks there for processors, and finds none.
    Files.createDirectories(root.resolve("sys"));
    Files.createFile(Files.createDirectories(root.resolve("dev")).resolve("null"));
    Files.copy(Path.of("/bin/sh").toRealPath(), root.resolve("bin/sh"));
    Set<Path> libraries = new TreeSet<>(libraries(root.resolve("bin/sh")));
    try (Stream<Path> files = Files.walk(pawl.resolve("runtime"))) {
      for (Path file : files.filter(it -> it.getFileName().toString().matches("java|.*\\.so")).toList()) {
        libraries.addAll(libraries(file));
      }
    }
    for (Path library : libraries) {
      assertThat(LIBRARIES).contains(library.getFileName().toString());
      Path place = root.resolve(library.toString().substring(1));
      Files.createDirectories(place.getParent());
      Files.copy(library.toRealPath(), place);
    }
  }

  /** The libraries that a file is linked with and that are not beside it. */
  private Set<Path> libraries(Path file) throws Exception {
    Process ldd = new ProcessBuilder("ldd", file.toString()).redirectErrorStream(true).start();
    String said = new String(ldd.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    Matcher named = Pattern.compile("(/\\S+) \\(0x").matcher(said);
    Set<Path> libraries = new TreeSet<>();
    while (named.find()) {
      if (!named.group(1).startsWith(root.toString())) {
        libraries.add(Path.of(named.group(1)));
      }
    }
    return libraries;
  }

  /** The words of a command inside the root. Java's loader asks the system's /proc where Java itself lies. */
  private List<String> enter(String... words) {
    List<String> command = new ArrayList<>();
    command.addAll(List.of("/usr/bin/unshare", "--map-root-user", "--mount", "--pid", "--fork", "--mount-proc="
        + root.resolve("proc"), "/usr/sbin/chroot", root.toString()));
    command.addAll(List.of(words));
    return command;
  }

  private record Run(int status, String said) {}

  private Run run(String... words) throws Exception {
    ProcessBuilder process = new ProcessBuilder(enter(words)).redirectErrorStream(true);
    process.environment().clear();
    process.environment().put("PATH", "");
    Process started = process.start();
    String said = new String(started.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    return new Run(started.waitFor(), said);
  }

  private Run pawl(String... words) throws Exception {
    String[] command = new String[words.length + 1];
    command[0] = "/" + root.relativize(pawl) + "/bin/pawl";
    System.arraycopy(words, 0, command, 1, words.length);
    Run run = run(command);
    assumeTrue(!run.said().startsWith("unshare: "), "this system gives a test no root of its own: " + run.said());
    return run;
  }

  @Test
  void theDemoRunsWithNoJavaNoMavenAndNoTool() throws Exception {
    Run version = pawl("--version");
    assertThat(version.said()).startsWith("pawl " + pawl.getFileName().toString().substring("pawl-".length()));
    Run demo = pawl("demo", "--out", "/tmp/out");
    assertThat(demo.status()).as(demo.said()).isZero();
    assertThat(demo.said()).doesNotContain("not found");
    assertThat(root.resolve("tmp/out/report/report.html")).isNotEmptyFile();
    assertThat(others()).as("all there is beside the archive and its output").allMatch(name -> name.equals("sh")
        || LIBRARIES.contains(name));
  }

  @Test
  void theBrokerUnpackedOverItRunsOnTheSameJava() throws Exception {
    Archives.unpack(Archives.broker(), root);
    String rules = "/" + root.relativize(pawl) + "/fixtures/kestrel-ridge/kestrel-ridge.rules";
    Run watch = pawl("watch", "--rules", rules, "--for", "1s");
    assertThat(watch.status()).as(watch.said()).isZero();
    assertThat(watch.said()).contains("pawl: embedded broker at mqtt://127.0.0.1:", "0 messages, 0 events");
  }

  private List<String> others() throws IOException {
    try (Stream<Path> files = Files.walk(root)) {
      return files.filter(file -> Files.isRegularFile(file) && !file.startsWith(pawl)
          && Stream.of("tmp", "dev", "proc").noneMatch(it -> file.startsWith(root.resolve(it)))).map(file -> file.getFileName().toString()).toList();
    }
  }
}
