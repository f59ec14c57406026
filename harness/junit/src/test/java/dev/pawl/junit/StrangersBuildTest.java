package dev.pawl.junit;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.w3c.dom.Element;

/**
 * A Maven project of somebody else, with this module as its one dependency: built by the Maven that runs this test,
 * offline, with the jars that this build made. Its repository is the one of this build but for pawl itself, of which
 * nothing is installed.
 */
class StrangersBuildTest {

  private static final String VERSION = "0.1.0";
  private static final Path ROOT = Path.of("../..").toAbsolutePath().normalize();

  private static final String POM = """
      <project xmlns="http://maven.apache.org/POM/4.0.0">
        <modelVersion>4.0.0</modelVersion>
        <groupId>com.example</groupId>
        <artifactId>their-ride</artifactId>
        <version>1</version>
        <properties>
          <maven.compiler.release>17</maven.compiler.release>
          <project.build.sourceEncoding>UTF-8</project.build.sourceEncoding>
        </properties>
        <dependencies>
          <dependency>
            <groupId>dev.pawl</groupId><artifactId>pawl-junit</artifactId><version>0.1.0</version><scope>test</scope>
          </dependency>
        </dependencies>
        <build>
          <plugins>
            <plugin><artifactId>maven-resources-plugin</artifactId><version>3.5.0</version></plugin>
            <plugin><artifactId>maven-compiler-plugin</artifactId><version>3.16.0</version></plugin>
            <plugin><artifactId>maven-surefire-plugin</artifactId><version>3.6.1</version></plugin>
          </plugins>
        </build>
      </project>
      """;

  private static final String TEST = """
      package com.example;

      import dev.pawl.junit.RuleTest;

      class TheirRideTest {

        @RuleTest(rules = "ride/stand.rules", traces = "ride/day.csv")
        void keepsItsRules() {}
      }
      """;

  @TempDir
  private Path folder;
  private final List<Path> links = new ArrayList<>();

  /** The links are taken away before the folder is, so that nobody has to wonder what goes with them. */
  @AfterEach
  void unlink() throws IOException {
    for (Path link : links) {
      Files.delete(link);
    }
  }

  @Test
  void theirBuildRunsTheRules() throws Exception {
    Path project = folder.resolve("project");
    Site.write(project.resolve("ride"));
    Files.writeString(project.resolve("pom.xml"), POM);
    Path test = project.resolve("src/test/java/com/example/TheirRideTest.java");
    Files.createDirectories(test.getParent());
    Files.writeString(test, TEST);
    Path said = folder.resolve("said.txt");
    Process maven = new ProcessBuilder(System.getProperty("pawl.maven"), "-o", "-B", "-ntp", "-q",
        "-Dmaven.repo.local=" + repository(), "test").directory(project.toFile()).redirectErrorStream(true)
        .redirectOutput(said.toFile()).start();
    assertThat(maven.waitFor(5, TimeUnit.MINUTES)).isTrue();
    String words = Files.readString(said);
    Path results = project.resolve("target/surefire-reports/TEST-com.example.TheirRideTest.xml");
    assertThat(results).as(words).exists();
    assertThat(maven.exitValue()).as("a broken rule breaks their build").isNotZero();
    Document report = DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(results.toFile());
    Element suite = report.getDocumentElement();
    assertThat(List.of(suite.getAttribute("tests"), suite.getAttribute("failures"), suite.getAttribute("skipped"),
        suite.getAttribute("errors"))).as(words).containsExactly("3", "1", "1", "0");
    assertThat(((Element) report.getElementsByTagName("failure").item(0)).getAttribute("message"))
        .contains("no response by the deadline", "ride/day.csv:6: estop_chain became false at 1.000 s");
    assertThat(report.getElementsByTagName("skipped").item(0).getTextContent()).contains("not exercised: ");
  }

  /** A repository like the one of this build, with pawl as it was built and not as it may have been installed. */
  private Path repository() throws IOException {
    Path ours = Path.of(System.getProperty("pawl.repository"));
    Path theirs = Files.createDirectories(folder.resolve("repository"));
    link(ours, theirs, "dev");
    if (Files.isDirectory(ours.resolve("dev"))) {
      link(ours.resolve("dev"), Files.createDirectories(theirs.resolve("dev")), "pawl");
    }
    Path pawl = theirs.resolve("dev/pawl");
    copy(ROOT.resolve("pom.xml"), pawl, "pawl", ".pom");
    try (Stream<Path> modules = Stream.concat(Stream.of(ROOT.resolve("grammar")),
        Files.list(ROOT.resolve("harness")))) {
      for (Path module : modules.filter(each -> Files.exists(each.resolve("pom.xml"))).toList()) {
        String artifact = "pawl-" + module.getFileName();
        Path jar = module.resolve("target/" + artifact + "-" + VERSION + ".jar");
        if (Files.exists(jar)) {
          copy(module.resolve("pom.xml"), pawl, artifact, ".pom");
          copy(jar, pawl, artifact, ".jar");
        }
      }
    }
    return theirs;
  }

  private void link(Path from, Path to, String except) throws IOException {
    try (Stream<Path> entries = Files.list(from)) {
      for (Path entry : entries.filter(each -> !each.getFileName().toString().equals(except)).toList()) {
        links.add(Files.createSymbolicLink(to.resolve(entry.getFileName()), entry));
      }
    }
  }

  private static void copy(Path file, Path pawl, String artifact, String ending) throws IOException {
    Path folder = Files.createDirectories(pawl.resolve(artifact).resolve(VERSION));
    Files.copy(file, folder.resolve(artifact + "-" + VERSION + ending));
  }
}
