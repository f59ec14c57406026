package dev.pawl.trace.json;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.trace.Recording;
import dev.pawl.trace.TraceOptions;
import java.util.Random;
import java.util.function.BiFunction;

/** Rows, and almost rows, that the short way and the library's parser have to read alike. */
final class BothWays {

  private BothWays() {}

  /**
   * Reads some rows both ways.
   *
   * @param row a row by a random choice and its time
   * @param spare characters to damage rows with
   * @param key which, with an escape in it, forces the long way
   */
  static void agree(String first, BiFunction<Random, Integer, String> row, String spare, long seed,
      TraceOptions options, String... key) {
    Random random = new Random(seed);
    StringBuilder trace = new StringBuilder(first);
    for (int i = 1; i < 6; i++) {
      trace.append(damaged(row.apply(random, i), random, spare)).append('\n');
    }
    String escaped = trace.toString();
    for (String each : key) {
      escaped = escaped.replace("\"" + each + "\"", "\"" + each.substring(0, each.length() - 1)
          + String.format("\\u%04x\"", (int) each.charAt(each.length() - 1)));
    }
    assertThat(escaped).isNotEqualTo(trace.toString());
    Recording ordinary = Recording.of(trace.toString(), options);
    Recording other = Recording.of(escaped, options);
    assertThat(ordinary.events()).as(trace.toString()).isEqualTo(other.events());
    assertThat(ordinary.lines()).isEqualTo(other.lines());
    assertThat(ordinary.summary().problems()).as(trace.toString()).isEqualTo(other.summary().problems());
  }

  private static String damaged(String row, Random random, String spare) {
    if (random.nextInt(3) > 0) {
      return row;
    }
    int at = random.nextInt(row.length());
    String put = random.nextBoolean() ? "" : String.valueOf(spare.charAt(random.nextInt(spare.length())));
    return row.substring(0, at) + put + row.substring(at + random.nextInt(2));
  }
}
