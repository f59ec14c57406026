package dev.pawl.run.stress;

import dev.pawl.plant.loop.Truth;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.StringJoiner;

/**
 * What became of one mistake.
 *
 * @param program whether it is a program at all; nothing else is known of one that is none
 * @param ran whether the statement it is in ran anywhere in the unchanged logic
 * @param differed in how many runs an output differed from what the unchanged logic gave
 * @param noticedBy by rule: in how many runs it was broken where the unchanged logic broke it not
 * @param lost rules that the unchanged logic puts to the test in some run, and this in none
 * @param hazards kinds of hazards that were there in a run where the unchanged logic showed none of that kind
 * @param untold those of them that, in some such run, no rule noticed
 * @param where a run that showed the first of them, else one that noticed it, else one in which outputs differed
 */
public record MistakeResult(boolean program, boolean ran, int differed, int[] noticedBy, BitSet lost,
    Set<Truth.Kind> hazards, Set<Truth.Kind> untold, String where) {

  static MistakeResult none(int rules) {
    return new MistakeResult(false, false, 0, new int[rules], new BitSet(), Set.of(), Set.of(), "");
  }

  boolean isNoticed() {
    return Arrays.stream(noticedBy).anyMatch(it -> it > 0);
  }

  /** As one line. */
  public String line() {
    StringJoiner rules = new StringJoiner(",");
    for (int rule = 0; rule < noticedBy.length; rule++) {
      if (noticedBy[rule] > 0) {
        rules.add(rule + ":" + noticedBy[rule]);
      }
    }
    return String.join("\t", "" + program, "" + ran, "" + differed, rules.toString(), names(hazards), where,
        String.join(",", lost.stream().mapToObj(Integer::toString).toList()), names(untold));
  }

  private static String names(Set<Truth.Kind> kinds) {
    return String.join(",", kinds.stream().sorted().map(Enum::name).toList());
  }

  private static Set<Truth.Kind> kinds(String names) {
    Set<Truth.Kind> kinds = EnumSet.noneOf(Truth.Kind.class);
    words(names).forEach(it -> kinds.add(Truth.Kind.valueOf(it)));
    return kinds;
  }

  /**
   * What {@link #line} wrote.
   *
   * @return empty where it is no such line
   */
  public static Optional<MistakeResult> of(String line, int rules) {
    String[] parts = line.split("\t", -1);
    try {
      int[] noticedBy = new int[rules];
      for (String pair : words(parts[3])) {
        noticedBy[Integer.parseInt(pair.split(":")[0])] = Integer.parseInt(pair.split(":")[1]);
      }
      BitSet lost = new BitSet();
      words(parts[6]).forEach(rule -> lost.set(Integer.parseInt(rule)));
      return Optional.of(new MistakeResult(Boolean.parseBoolean(parts[0]), Boolean.parseBoolean(parts[1]), Integer
          .parseInt(parts[2]), noticedBy, lost, kinds(parts[4]), kinds(parts[7]), parts[5]));
    } catch (IllegalArgumentException | IndexOutOfBoundsException torn) {
      return Optional.empty();
    }
  }

  private static List<String> words(String text) {
    return text.isEmpty() ? List.of() : new ArrayList<>(List.of(text.split(",")));
  }
}
