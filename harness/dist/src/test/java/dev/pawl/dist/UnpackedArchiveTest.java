package dev.pawl.dist;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The archive, unpacked where nothing of the checkout is, and run with an ordinary Java and without Maven. */
class UnpackedArchiveTest {

  private static final List<String> TOOLS = List.of("sh", "ls", "cksum", "mktemp", "mkdir", "rm", "mv", "sync", "readlink", "stty");

  @TempDir
  private Path folder;
  private Path pawl;

  @BeforeEach
  void unpack() throws Exception {
    Path archive = only(Path.of("target"), "pawl-", ".zip");
    assertThat(new ProcessBuilder("unzip", "-q", archive.toAbsolutePath().toString()).directory(folder.toFile()).start().waitFor()).isZero();
    pawl = only(folder, "pawl-", "");
    Files.createDirectory(folder.resolve("tools"));
    for (String tool : TOOLS) {
      Path found = Stream.of("/bin", "/usr/bin").map(bin -> Path.of(bin, tool)).filter(Files::exists).findFirst().orElseThrow();
      Files.createSymbolicLink(folder.resolve("tools").resolve(tool), found);
    }
  }

  private static Path only(Path folder, String start, String end) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.filter(file -> file.getFileName().toString().startsWith(start) && file.getFileName().toString().endsWith(end))
          .findFirst().orElseThrow();
    }
  }

  private record Run(int status, String said) {}

  private Run run(String cache, String... words) throws Exception {
    List<String> command = new ArrayList<>(List.of(pawl.resolve("bin/pawl").toString()));
    command.addAll(List.of(words));
    Path said = folder.resolve("said.txt");
    ProcessBuilder process = new ProcessBuilder(command).directory(folder.toFile()).redirectErrorStream(true).redirectOutput(said.toFile());
    process.environment().clear();
    process.environment().putAll(Map.of("PATH", folder.resolve("tools").toString(), "JAVA_HOME", System.getProperty("java.home"),
        "XDG_CACHE_HOME", cache));
    int status = process.start().waitFor();
    return new Run(status, Files.readString(said, StandardCharsets.UTF_8));
  }

  @Test
  void runsTheDemoAndACheckAndNamesWhatIsMissing() throws Exception {
    // A cache that cannot be written: a file stands in its place.
    String nowhere = Files.createFile(folder.resolve("file")).toString();
    Run demo = run(nowhere, "demo", "--out", "out");
    assertThat(demo.status()).as(demo.said()).isZero();
    assertThat(folder.resolve("out/report/report.html")).isNotEmptyFile();

    String trace = only(folder.resolve("out/traces"), "ordinary", ".csv").toString();
    String rules = pawl.resolve("fixtures/kestrel-ridge/kestrel-ridge.rules").toString();
    Run check = run(nowhere, "check", "--rules", rules, trace);
    assertThat(check.status()).as(check.said()).isZero();

    Run watch = run(nowhere, "watch", "--rules", rules);
    assertThat(watch.status()).isEqualTo(2);
    assertThat(watch.said()).contains("pawl: the embedded broker is an archive of its own and is not here");
  }

  @Test
  void carriesLicenceNoticesAndBillOfMaterials() throws Exception {
    assertThat(pawl.resolve("LICENSE")).isNotEmptyFile();
    String notices = Files.readString(pawl.resolve("THIRD-PARTY.txt"));
    String bill = Files.readString(pawl.resolve("bom.json"));
    try (Stream<Path> jars = Files.list(pawl.resolve("lib"))) {
      for (Path jar : jars.filter(it -> !it.getFileName().toString().startsWith("pawl-")).toList()) {
        String name = jar.getFileName().toString().replaceFirst("-\\d.*", "");
        String version = jar.getFileName().toString().substring(name.length() + 1).replace(".jar", "");
        assertThat(notices).containsPattern("\\(.+\\) .*:" + java.util.regex.Pattern.quote(name + ":" + version) + " ");
        assertThat(bill).contains("/" + name + "@" + version);
      }
    }
  }
}
