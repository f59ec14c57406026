package dev.pawl.dist;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.yaml.snakeyaml.Yaml;

/** The templates for builds: the commands of each, and the hook, run by a real shell with the unpacked archive. */
class BuildTemplatesTest {

  private static final Path TEMPLATES = Path.of("ci");
  private static final String RULES = """
      ride "Test stand"
      input  estop_chain : bool
      output lift_run    : bool

      rule STOP-01 "Emergency stop stops the lift"
        basis    practice
        severity critical
        when     falls(estop_chain)
        must     not lift_run within 500 ms

      example "stops in time" for STOP-01 gives held
        at 0 s   estop_chain = true, lift_run = true
        at 1 s   estop_chain = false
        at 1.3 s lift_run = false
        at 2 s   lift_run = false
      """;
  private static final String TRACE = """
      time_ms,signal,value
      0,estop_chain,1
      0,lift_run,1
      1000,estop_chain,0
      1300,lift_run,0
      2000,lift_run,0
      """;

  @TempDir
  private Path folder;

  private Path pawl;
  private Path site;

  @BeforeEach
  void siteWithPawl() throws Exception {
    Archives.unpack(Archives.plain(), folder);
    pawl = Archives.only(folder, "pawl-.*").resolve("bin/pawl");
    site = Files.createDirectories(folder.resolve("site"));
    Files.createDirectories(site.resolve("ride"));
    Files.createDirectories(site.resolve("traces"));
    Files.writeString(site.resolve("ride/stand.rules"), RULES);
    Files.writeString(site.resolve("traces/day.csv"), TRACE);
  }

  private record Run(int status, String said) {}

  private Run run(String... command) throws Exception {
    ProcessBuilder process = new ProcessBuilder(command).directory(site.toFile()).redirectErrorStream(true);
    process.environment().putAll(Map.of("PAWL", pawl.toString(), "XDG_CACHE_HOME", folder.resolve("none").toString(),
        "GIT_AUTHOR_NAME", "a", "GIT_AUTHOR_EMAIL", "a@b", "GIT_COMMITTER_NAME", "a", "GIT_COMMITTER_EMAIL", "a@b"));
    Process started = process.start();
    String said = new String(started.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    return new Run(started.waitFor(), said);
  }

  /** The texts of a YAML document, wherever in it. */
  private static Stream<String> texts(Object node) {
    if (node instanceof Map<?, ?> map) {
      return map.values().stream().flatMap(BuildTemplatesTest::texts);
    }
    return node instanceof Collection<?> list ? list.stream().flatMap(BuildTemplatesTest::texts)
        : node instanceof String text ? Stream.of(text) : Stream.of();
  }

  /** The commands by which a template runs pawl. */
  private static String commands(String template) throws IOException {
    String text = Files.readString(TEMPLATES.resolve(template));
    List<String> found = new ArrayList<>();
    if (template.equals("Jenkinsfile")) {
      found.add(text.split("\'\'\'")[1]);
    } else {
      Object page = new Yaml().load(text);
      texts(page).filter(step -> step.contains("\"$PAWL\" check")).forEach(found::add);
    }
    assertThat(found).hasSize(1);
    return found.get(0);
  }

  @ParameterizedTest
  @ValueSource(strings = {"github-actions.yml", "gitlab-ci.yml", "azure-pipelines.yml", "Jenkinsfile"})
  void aTemplatesCommandsEndAsTheRulesDo(String template) throws Exception {
    String commands = commands(template);
    Run held = run("bash", "-e", "-c", commands);
    assertThat(held.status()).as(held.said()).isZero();
    assertThat(site.resolve("report/junit.xml")).isNotEmptyFile();
    Files.writeString(site.resolve("traces/day.csv"), TRACE.replace("1300", "1900"));
    Run broken = run("bash", "-e", "-c", commands);
    assertThat(broken.status()).as(broken.said()).isEqualTo(1);
    Files.writeString(site.resolve("ride/stand.rules"), RULES.replace("500 ms", "500 m"));
    assertThat(run("bash", "-e", "-c", commands).status()).isEqualTo(2);
  }

  @Test
  void theHookRefusesWhatIsWrongAndWhatIsUntidy() throws Exception {
    assertThat(run("git", "init", "-q").status()).isZero();
    Files.copy(TEMPLATES.resolve("pre-commit"), site.resolve(".git/hooks/pre-commit"));
    assertThat(site.resolve(".git/hooks/pre-commit").toFile().setExecutable(true)).isTrue();
    Run right = commit(RULES);
    assertThat(right.status()).as(right.said()).isZero();
    Run wrong = commit(RULES.replace("500 ms", "500 m"));
    assertThat(wrong.status()).as(wrong.said()).isNotZero();
    assertThat(wrong.said()).contains("stand.rules:9:", "error: ");
    Run untidy = commit(RULES.replace("basis    practice", "basis practice"));
    assertThat(untidy.status()).as(untidy.said()).isNotZero();
    assertThat(untidy.said()).contains("ride/stand.rules: not laid out; 'pawl format --write' does it");
  }

  private Run commit(String rules) throws Exception {
    Files.writeString(site.resolve("ride/stand.rules"), rules);
    run("git", "add", "ride");
    return run("git", "commit", "-q", "-m", "rules");
  }
}
