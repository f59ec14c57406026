package dev.pawl.grammar.source;

import java.util.Collection;
import java.util.Locale;

/** The search for the known name that someone probably meant. */
public final class NearNames {

  private NearNames() {}

  /** {@code did you mean NAME?} for the known name nearest to {@code written}, or the empty string where none is near. */
  public static String suggestion(String written, Collection<String> known) {
    String best = nearest(written, known);
    return best.isEmpty() ? "" : "did you mean " + best + "?";
  }

  /** The known name nearest to {@code written}, case ignored, or the empty string where none is near. */
  public static String nearest(String written, Collection<String> known) {
    String wanted = written.toUpperCase(Locale.ROOT);
    int limit = Math.max(1, Math.min(3, wanted.length() / 3));
    String best = "";
    int bestDistance = limit + 1;
    for (String candidate : known) {
      if (Math.abs(candidate.length() - wanted.length()) >= bestDistance) {
        continue;
      }
      int distance = distance(wanted, candidate.toUpperCase(Locale.ROOT));
      if (distance < bestDistance) {
        bestDistance = distance;
        best = candidate;
      }
    }
    return best;
  }

  /** Single-character insertions, deletions, replacements and swaps of neighbours that lead from one text to the other. */
  static int distance(String from, String to) {
    int[][] cost = new int[from.length() + 1][to.length() + 1];
    for (int i = 0; i <= from.length(); i++) {
      for (int j = 0; j <= to.length(); j++) {
        if (i == 0 || j == 0) {
          cost[i][j] = i + j;
          continue;
        }
        int replace = cost[i - 1][j - 1] + (from.charAt(i - 1) == to.charAt(j - 1) ? 0 : 1);
        cost[i][j] = Math.min(replace, 1 + Math.min(cost[i - 1][j], cost[i][j - 1]));
        if (i > 1 && j > 1 && from.charAt(i - 1) == to.charAt(j - 2) && from.charAt(i - 2) == to.charAt(j - 1)) {
          cost[i][j] = Math.min(cost[i][j], 1 + cost[i - 2][j - 2]);
        }
      }
    }
    return cost[from.length()][to.length()];
  }
}
