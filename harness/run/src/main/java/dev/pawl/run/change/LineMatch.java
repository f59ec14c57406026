package dev.pawl.run.change;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Which lines of two texts are the same, in the same order, so that as many as possible are.
 *
 * @param partner by index of a line of the first text, that of its partner in the second; -1 for none
 * @param hunks what lies between lines that are the same
 */
record LineMatch(int[] partner, List<Hunk> hunks) {

  /** Between so many lines of one text and of the other nobody looks for those that are the same. */
  private static final long MOST = 50_000_000;

  /** Neighbouring lines without a partner, by their indices. */
  record Hunk(List<Integer> before, List<Integer> after) {}

  static LineMatch of(List<String> before, List<String> after) {
    int[] partner = new int[before.size()];
    Arrays.fill(partner, -1);
    int start = 0;
    while (start < Math.min(before.size(), after.size()) && before.get(start).equals(after.get(start))) {
      partner[start] = start++;
    }
    int tail = 0;
    while (tail < Math.min(before.size(), after.size()) - start
        && before.get(before.size() - 1 - tail).equals(after.get(after.size() - 1 - tail))) {
      partner[before.size() - 1 - tail] = after.size() - 1 - tail;
      tail++;
    }
    match(before.subList(start, before.size() - tail), after.subList(start, after.size() - tail), start, partner);
    return new LineMatch(partner, hunks(partner, after.size()));
  }

  private static void match(List<String> before, List<String> after, int start, int[] partner) {
    if ((before.size() + 1L) * (after.size() + 1L) > MOST) {
      return;
    }
    int[][] common = new int[before.size() + 1][after.size() + 1];
    for (int i = before.size() - 1; i >= 0; i--) {
      for (int j = after.size() - 1; j >= 0; j--) {
        common[i][j] = before.get(i).equals(after.get(j)) ? 1 + common[i + 1][j + 1]
            : Math.max(common[i + 1][j], common[i][j + 1]);
      }
    }
    for (int i = 0, j = 0; i < before.size() && j < after.size();) {
      if (before.get(i).equals(after.get(j))) {
        partner[start + i++] = start + j++;
      } else if (common[i + 1][j] >= common[i][j + 1]) {
        i++;
      } else {
        j++;
      }
    }
  }

  private static List<Hunk> hunks(int[] partner, int after) {
    List<Hunk> hunks = new ArrayList<>();
    int next = 0;
    for (int i = 0; i <= partner.length; i++) {
      List<Integer> lost = new ArrayList<>();
      while (i < partner.length && partner[i] < 0) {
        lost.add(i++);
      }
      int end = i < partner.length ? partner[i] : after;
      List<Integer> come = new ArrayList<>();
      while (next < end) {
        come.add(next++);
      }
      next = end + 1;
      if (!lost.isEmpty() || !come.isEmpty()) {
        hunks.add(new Hunk(lost, come));
      }
    }
    return hunks;
  }
}
