package dev.pawl.grammar.source;

import java.util.Collection;
import java.util.Comparator;
import java.util.Locale;
import java.util.Optional;

/** The known name that a mistyped one most probably stands for. */
public final class NearName {

  /** How a hint at a near name begins. */
  static final String HINT = "did you mean ";

  private static final int LONGEST = 64;

  private NearName() {}

  /** {@code did you mean ...?} for the nearest of {@code known}, or nothing where none is near. */
  public static Optional<String> hint(String typed, Collection<String> known) {
    return of(typed, known).map(name -> HINT + name + "?");
  }

  /**
   * The nearest of {@code known}, at most one change in three letters away and three in all; the first by alphabet
   * among equals. Names of one or two letters are near only where nothing but upper and lower case differs.
   */
  public static Optional<String> of(String typed, Collection<String> known) {
    if (typed.length() > LONGEST) {
      return Optional.empty();
    }
    int limit = Math.min(3, typed.length() / 3);
    return known.stream()
        .filter(name -> !name.equals(typed) && Math.abs(name.length() - typed.length()) <= limit)
        .filter(name -> distance(typed, name) <= limit)
        .min(Comparator.comparingInt((String name) -> distance(typed, name)).thenComparing(Comparator.naturalOrder()));
  }

  /** Number of letters to insert, remove, replace or swap with a neighbour; upper and lower case count as equal. */
  static int distance(String first, String second) {
    String a = first.toLowerCase(Locale.ROOT);
    String b = second.toLowerCase(Locale.ROOT);
    int[][] cost = new int[a.length() + 1][b.length() + 1];
    for (int i = 0; i <= a.length(); i++) {
      for (int j = 0; j <= b.length(); j++) {
        cost[i][j] = i == 0 ? j : j == 0 ? i : step(cost, a, b, i, j);
      }
    }
    return cost[a.length()][b.length()];
  }

  private static int step(int[][] cost, String a, String b, int i, int j) {
    int replace = cost[i - 1][j - 1] + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
    int best = Math.min(replace, 1 + Math.min(cost[i - 1][j], cost[i][j - 1]));
    boolean swapped = i > 1 && j > 1 && a.charAt(i - 1) == b.charAt(j - 2) && a.charAt(i - 2) == b.charAt(j - 1);
    return swapped ? Math.min(best, cost[i - 2][j - 2] + 1) : best;
  }
}
