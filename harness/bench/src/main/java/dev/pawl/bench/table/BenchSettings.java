package dev.pawl.bench.table;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * What the command was asked for.
 *
 * @param home root of the checkout
 * @param data folder for the generated traces
 * @param peers class path of the foreign libraries; empty to leave them out
 * @param rows rows of the main trace
 * @param large rows of the large trace, whose peak memory is compared; 0 to leave it out
 * @param runs how often each program is run
 * @param eventRows rows that the event engine is given, as objects in memory
 * @param parts what to measure
 */
record BenchSettings(Path home, Path data, String peers, long rows, long large, int runs, int eventRows,
    List<String> parts) {

  static final List<String> PARTS = List.of("check", "peers", "jobs", "memory", "start", "series", "allocation",
      "logic", "mqtt");

  static final String USAGE = """
      usage: harness/bench/run [OPTION...]
        --rows N      rows of the main trace (20000000)
        --large N     rows of the large trace whose memory is compared; 0 leaves it out (200000000, for a while
                      some 5.5 GB on disk)
        --runs N      runs of each program; the shortest counts, the longest is shown (3)
        --events N    rows for the event engine, all in memory (as --rows)
        --only PARTS  some of check,peers,jobs,memory,start,series,allocation,logic,mqtt, with commas between
        --data DIR    folder for the traces (harness/bench/target/data)
      """;

  static BenchSettings of(String[] arguments) {
    Map<String, String> given = new HashMap<>();
    for (int i = 0; i + 1 < arguments.length; i += 2) {
      given.put(arguments[i], arguments[i + 1]);
    }
    List<String> known = List.of("--home", "--data", "--peers", "--rows", "--large", "--runs", "--events", "--only");
    if (arguments.length % 2 != 0 || !known.containsAll(given.keySet())) {
      throw new IllegalArgumentException(USAGE);
    }
    long rows = number(given, "--rows", 20_000_000);
    List<String> parts = Arrays.asList(given.getOrDefault("--only", String.join(",", PARTS)).split(","));
    if (!PARTS.containsAll(parts)) {
      throw new IllegalArgumentException(USAGE);
    }
    return new BenchSettings(Path.of(given.get("--home")), Path.of(given.get("--data")),
        given.getOrDefault("--peers", ""), rows, number(given, "--large", 200_000_000),
        (int) number(given, "--runs", 3), (int) number(given, "--events", rows), parts);
  }

  private static long number(Map<String, String> given, String option, long usual) {
    try {
      return Long.parseLong(given.getOrDefault(option, Long.toString(usual)).replace("_", ""));
    } catch (NumberFormatException e) {
      throw new IllegalArgumentException(option + ": not a whole number\n" + USAGE, e);
    }
  }

  boolean measures(String part) {
    return parts.contains(part);
  }
}
