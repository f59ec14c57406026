package dev.pawl.cli.option;

/** The known word that a mistyped one is nearest to. */
public final class Nearest {

  private Nearest() {}

  /** The nearest of the known words by edits, or the empty string where none is near. */
  public static String to(String word, String... known) {
    String nearest = "";
    int least = Math.max(1, word.length() / 3);
    for (String candidate : known) {
      int distance = distance(word, candidate);
      if (distance <= least && (nearest.isEmpty() || distance < distance(word, nearest))) {
        nearest = candidate;
      }
    }
    return nearest;
  }

  /** Levenshtein's distance. */
  private static int distance(String left, String right) {
    int[] previous = new int[right.length() + 1];
    for (int j = 0; j <= right.length(); j++) {
      previous[j] = j;
    }
    for (int i = 1; i <= left.length(); i++) {
      int[] current = new int[right.length() + 1];
      current[0] = i;
      for (int j = 1; j <= right.length(); j++) {
        int change = previous[j - 1] + (left.charAt(i - 1) == right.charAt(j - 1) ? 0 : 1);
        current[j] = Math.min(change, 1 + Math.min(previous[j], current[j - 1]));
      }
      previous = current;
    }
    return previous[right.length()];
  }
}
