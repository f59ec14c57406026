package dev.pawl.fleet;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.fleet.SmallArchive.Said;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A campaign whose runs workers make comes to what {@code pawl stress} comes to, file by file. */
class CampaignTest {

  private static final String RIDE = "../../fixtures/fallow-loop/";

  @TempDir
  private Path folder;

  private List<String> words(int runs, String... first) {
    List<String> words = new ArrayList<>(List.of(first));
    words.addAll(List.of("--rules", RIDE + "fallow-loop.rules", "--logic", RIDE + "logic/fallow-loop.st", "--ride", RIDE
        + "fallow-loop.ride", "--runs", "" + runs, "--findings", "2", "--quiet", "ordinary-day"));
    return words;
  }

  @Test
  void runsMadeByWorkers() throws Exception {
    same(24, "--slots", "2");
  }

  /** Its second half is a search, which learns from the runs before. */
  @Test
  @Tag("soak")
  void aCampaignOfSeveralBatches() throws Exception {
    same(300, "--slots", "2", "--workers", "2");
  }

  private void same(int runs, String... where) throws Exception {
    List<String> many = words(runs, "fleet", "campaign", "--out", folder.resolve("many").toString(), "--checkpoint",
        "1");
    many.addAll(List.of(where));
    Said together = SmallArchive.pawl(many);
    Said alone = SmallArchive.pawl(words(runs, "stress", "--out", folder.resolve("alone").toString()));
    assertThat(together.err()).isEqualTo(alone.err());
    assertThat(together.out()).isEqualTo(alone.out()).contains(runs + " runs");
    assertThat(together.status()).isEqualTo(alone.status());
    assertThat(files("many")).isEqualTo(files("alone")).containsKey("findings/01.scenario");
  }

  private Map<String, String> files(String place) throws IOException {
    Map<String, String> files = new TreeMap<>();
    try (Stream<Path> all = Files.walk(folder.resolve(place))) {
      // What a campaign keeps to go on from has the order in which its threads were done.
      for (Path file : all.filter(Files::isRegularFile).filter(it -> !it.endsWith("campaign.runs")).toList()) {
        files.put(folder.resolve(place).relativize(file).toString(), Files.readString(file));
      }
    }
    return files;
  }
}
