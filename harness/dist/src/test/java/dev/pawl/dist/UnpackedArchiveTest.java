package dev.pawl.dist;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The archive, unpacked where nothing of the checkout is, and run with an ordinary Java and without Maven. */
class UnpackedArchiveTest {

  private static final List<String> TOOLS = List.of("sh", "ls", "mktemp", "mkdir", "rm", "mv", "sync",
      "readlink", "stty");

  @TempDir
  private Path folder;
  private Path pawl;
  private String javaOptions = "";

  @BeforeEach
  void unpack() throws Exception {
    unpack(Archives.plain());
    pawl = Archives.only(folder, "pawl-.*");
    Files.createDirectory(folder.resolve("tools"));
    for (String tool : TOOLS) {
      Path found = Stream.of("/bin", "/usr/bin").map(bin -> Path.of(bin, tool)).filter(Files::exists).findFirst()
          .orElseThrow();
      Files.createSymbolicLink(folder.resolve("tools").resolve(tool), found);
    }
  }

  private void unpack(Path archive) throws Exception {
    Archives.unpack(archive, folder);
  }

  private record Run(int status, String said) {}

  private Run run(String cache, String... words) throws Exception {
    Path said = folder.resolve("said.txt");
    int status = start(said, cache, List.of(), words).waitFor();
    return new Run(status, Files.readString(said, StandardCharsets.UTF_8));
  }

  /**
   * Starts it.
   *
   * @param as the words of a command that starts it as somebody else
   */
  private Process start(Path said, String cache, List<String> as, String... words) throws IOException {
    List<String> command = new ArrayList<>(as);
    command.add(pawl.resolve("bin/pawl").toString());
    command.addAll(List.of(words));
    ProcessBuilder process = new ProcessBuilder(command).directory(folder.toFile()).redirectErrorStream(true)
        .redirectOutput(said.toFile());
    process.environment().clear();
    process.environment().putAll(Map.of("PATH", folder.resolve("tools").toString(), "JAVA_HOME",
        System.getProperty("java.home"), "XDG_CACHE_HOME", cache, "PAWL_JAVA_OPTIONS", javaOptions));
    return process.start();
  }

  /** Who may write everywhere proves nothing, so that it is somebody else then. */
  private static List<String> asSomebodyWithoutRights() {
    return System.getProperty("user.name").equals("root") ? List.of("/usr/bin/setpriv", "--reuid=65534",
        "--regid=65534", "--clear-groups") : List.of();
  }

  @Test
  void firstStartsAtTheSameTimeOfAnInstallThatCannotBeWrittenMakeOneArchiveOfAllClasses() throws Exception {
    Path cache = Files.createDirectory(folder.resolve("cache"));
    Files.setPosixFilePermissions(cache, PosixFilePermissions.fromString("rwxrwxrwx"));
    permit("r-xr-xr-x");
    List<Process> starts = new ArrayList<>();
    for (int i = 0; i < 3; i++) {
      starts.add(start(cache.resolve(i + ".txt"), cache.toString(), asSomebodyWithoutRights(), "--version"));
    }
    for (int i = 0; i < 3; i++) {
      assertThat(starts.get(i).waitFor()).isZero();
      assertThat(cache.resolve(i + ".txt")).content().matches("pawl \\S+\\n(.*\\n){3}");
    }
    Path archives = Path.of(cache + "/pawl" + pawl.toRealPath());
    long deadline = System.nanoTime() + TimeUnit.MINUTES.toNanos(2);
    while (names(archives).stream().anyMatch(name -> !name.endsWith(".jsa")) || names(archives).isEmpty()) {
      assertThat(System.nanoTime()).as("still " + names(archives)).isLessThan(deadline);
      TimeUnit.MILLISECONDS.sleep(100);
    }
    assertThat(names(archives)).hasSize(1);
    permit("rwxr-xr-x");
    javaOptions = "-Xlog:class+load";
    Run next = run(cache.toString(), "check", "--help");
    assertThat(next.status()).as(next.said()).isZero();
    assertThat(next.said()).contains(" dev.pawl.cli.Main source: shared objects file",
        " picocli.CommandLine source: shared objects file");
  }

  /** What may be done in the folders of the install and in that which they lie in. */
  private void permit(String permissions) throws IOException {
    Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString(permissions));
    try (Stream<Path> all = Files.walk(pawl)) {
      for (Path path : all.filter(Files::isDirectory).toList()) {
        Files.setPosixFilePermissions(path, PosixFilePermissions.fromString(permissions));
      }
    }
  }

  private static List<String> names(Path archives) throws IOException {
    if (!Files.exists(archives)) {
      return List.of();
    }
    try (Stream<Path> files = Files.list(archives)) {
      return files.map(file -> file.getFileName().toString()).toList();
    }
  }

  @Test
  void withTheBrokersArchiveUnpackedOverItItHasABrokerOfItsOwn() throws Exception {
    unpack(Archives.broker());
    String nowhere = Files.createFile(folder.resolve("file")).toString();
    Path rules = pawl.resolve("fixtures/kestrel-ridge/kestrel-ridge.rules");
    Run watch = run(nowhere, "watch", "--rules", rules.toString(), "--for", "1s");
    assertThat(watch.status()).as(watch.said()).isZero();
    assertThat(watch.said()).contains("pawl: embedded broker at mqtt://127.0.0.1:",
        "pawl: listening to mqtt://127.0.0.1:", "0 messages, 0 events");
  }

  @Test
  void runsTheDemoAndACheckAndNamesWhatIsMissing() throws Exception {
    // A cache that cannot be written: a file stands in its place.
    String nowhere = Files.createFile(folder.resolve("file")).toString();
    Run demo = run(nowhere, "demo", "--out", "out");
    assertThat(demo.status()).as(demo.said()).isZero();
    assertThat(folder.resolve("out/report/report.html")).isNotEmptyFile();

    String trace = Archives.only(folder.resolve("out/traces"), "ordinary.*\\.csv").toString();
    String rules = pawl.resolve("fixtures/kestrel-ridge/kestrel-ridge.rules").toString();
    Run check = run(nowhere, "check", "--rules", rules, trace);
    assertThat(check.status()).as(check.said()).isZero();

    Run watch = run(nowhere, "watch", "--rules", rules);
    assertThat(watch.status()).isEqualTo(2);
    assertThat(watch.said()).contains("pawl: the embedded broker is an archive of its own and is not here");
  }

  /**
   * As a scheduler starts it, with no language set; a shell makes the name, since this machine may not know such
   * letters either.
   */
  @Test
  void aNameBeyondAsciiIsReadWhereNoLanguageIsSet() throws Exception {
    Files.writeString(folder.resolve("a.rules"), """
        ride "Test stand"
        input lift_run : bool
        rule RUN-01 "The lift stands"
          severity minor
          basis practice
          never lift_run
        """);
    Path shell = Files.writeString(folder.resolve("named.sh"), """
        name=$(printf 'pr\\303\\274fung.csv')
        printf 'time_ms,signal,value\\n0,lift_run,0\\n9,lift_run,0\\n' > "$name"
        exec "$@" "$name"
        """);
    Path said = folder.resolve("said.txt");
    String nowhere = Files.createFile(folder.resolve("file")).toString();
    int status = start(said, nowhere, List.of("/bin/sh", shell.toString()), "check", "--rules", "a.rules").waitFor();
    String words = Files.readString(said, StandardCharsets.UTF_8);
    assertThat(status).as(words).isZero();
    assertThat(words).contains("pr\u00fcfung.csv");
  }

  @Test
  void answersAnEditorThatStartsIt() throws Exception {
    StringBuilder asked = new StringBuilder();
    for (String message : List.of("""
        {"jsonrpc":"2.0","id":1,"method":"initialize","params":{"capabilities":{}}}""", """
        {"jsonrpc":"2.0","id":2,"method":"shutdown"}""", """
        {"jsonrpc":"2.0","method":"exit"}""")) {
      asked.append("Content-Length: ").append(message.length()).append("\r\n\r\n").append(message);
    }
    Path words = Files.writeString(folder.resolve("asked.txt"), asked);
    Path shell = Files.writeString(folder.resolve("asked.sh"), "exec \"$@\" < '" + words + "'\n");
    Path said = folder.resolve("said.txt");
    String nowhere = Files.createFile(folder.resolve("file")).toString();
    int status = start(said, nowhere, List.of("/bin/sh", shell.toString()), "editor", "--stdio").waitFor();
    String answers = Files.readString(said, StandardCharsets.UTF_8);
    assertThat(status).as(answers).isZero();
    assertThat(answers).contains("\"hoverProvider\":true", "\"id\":2");
  }

  @Test
  void carriesLicenceNoticesAndBillOfMaterials() throws Exception {
    assertThat(pawl.resolve("LICENSE")).isNotEmptyFile();
    String notices = Files.readString(pawl.resolve("THIRD-PARTY.txt"));
    String bill = Files.readString(pawl.resolve("bom.json"));
    try (Stream<Path> files = Files.walk(pawl.resolve("lib"))) {
      for (Path jar : files.filter(it -> it.getFileName().toString().matches("(?!pawl-).*\\.jar")).toList()) {
        String name = jar.getFileName().toString().replaceFirst("-\\d.*", "");
        String version = jar.getFileName().toString().substring(name.length() + 1).replace(".jar", "");
        assertThat(notices).containsPattern("\\(.+\\) .*:" + java.util.regex.Pattern.quote(name + ":" + version) + " ");
        assertThat(bill).contains("/" + name + "@" + version);
      }
    }
  }
}
