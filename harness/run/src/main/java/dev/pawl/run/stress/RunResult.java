package dev.pawl.run.stress;

import dev.pawl.plant.loop.Truth;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.StringJoiner;

/**
 * What one run came to.
 *
 * @param hazards those that truly happened, in order of time: the first of each kind that rules noticed, and that none
 * did
 * @param broken by rule: nanoseconds after the start when it was first broken; negative for never
 * @param margins by rule: its smallest distance to breaking; not a number where none can be stated
 * @param gap the smallest distance in metres that was seen between two trains
 * @param tried rules that it put to the test; not kept by {@link #line}
 * @param outputs a number that differs, but for chance, where outputs differed at any time
 * @param scans how many scans it had
 * @param end why it ended early, where it did
 */
public record RunResult(List<Hazard> hazards, long[] broken, double[] margins, BitSet tried, double gap, long outputs,
    long scans,
    Optional<String> end) {

  public RunResult {
    hazards = List.copyOf(hazards);
  }

  /**
   * Something by which people could have come to harm.
   *
   * @param seconds since the start
   * @param noticed whether a rule was broken before it or soon after
   */
  public record Hazard(Truth.Kind kind, double seconds, String words, boolean noticed) {}

  boolean isBroken(int rule) {
    return broken[rule] >= 0;
  }

  /** The first hazard of a kind that was noticed, or was not. */
  Optional<Hazard> first(Truth.Kind kind, boolean noticed) {
    return hazards.stream().filter(it -> it.kind() == kind && it.noticed() == noticed).findFirst();
  }

  /** The same with what its hazards are called. */
  RunResult named(List<String> words) {
    List<Hazard> called = new ArrayList<>();
    for (Hazard hazard : hazards) {
      called.add(new Hazard(hazard.kind(), hazard.seconds(), words.get(called.size()), hazard.noticed()));
    }
    return new RunResult(called, broken, margins, tried, gap, outputs, scans, end);
  }

  /** As one line, without what a hazard is called. */
  public String line() {
    StringJoiner hazardWords = new StringJoiner(",");
    hazards.forEach(it -> hazardWords.add(it.kind() + ":" + it.seconds() + ":" + it.noticed()));
    StringJoiner brokenWords = new StringJoiner(",");
    StringJoiner marginWords = new StringJoiner(",");
    for (int rule = 0; rule < broken.length; rule++) {
      if (isBroken(rule)) {
        brokenWords.add(rule + ":" + broken[rule]);
      }
      if (!Double.isNaN(margins[rule])) {
        marginWords.add(rule + ":" + margins[rule]);
      }
    }
    return String.join("\t", hazardWords.toString(), brokenWords.toString(), marginWords.toString(), "" + gap, ""
        + outputs, "" + scans, end.orElse("").replaceAll("\\s+", " "));
  }

  /**
   * What {@link #line} wrote.
   *
   * @param rules how many rules there are
   * @return empty where it is no such line
   */
  public static Optional<RunResult> of(String line, int rules) {
    String[] parts = line.split("\t", -1);
    try {
      List<Hazard> hazards = new ArrayList<>();
      long[] broken = new long[rules];
      double[] margins = new double[rules];
      Arrays.fill(broken, -1);
      Arrays.fill(margins, Double.NaN);
      for (String[] it : pairs(parts[0])) {
        hazards.add(new Hazard(Truth.Kind.valueOf(it[0]), Double.parseDouble(it[1]), "", Boolean.parseBoolean(it[2])));
      }
      for (String[] it : pairs(parts[1])) {
        broken[Integer.parseInt(it[0])] = Long.parseLong(it[1]);
      }
      for (String[] it : pairs(parts[2])) {
        margins[Integer.parseInt(it[0])] = Double.parseDouble(it[1]);
      }
      return Optional.of(new RunResult(hazards, broken, margins, new BitSet(), Double.parseDouble(parts[3]),
          Long.parseLong(parts[4]),
          Long.parseLong(parts[5]), Optional.of(parts[6]).filter(it -> !it.isEmpty())));
    } catch (IllegalArgumentException | IndexOutOfBoundsException torn) {
      return Optional.empty();
    }
  }

  private static List<String[]> pairs(String words) {
    return words.isEmpty() ? List.of() : Arrays.stream(words.split(",")).map(it -> it.split(":")).toList();
  }
}
