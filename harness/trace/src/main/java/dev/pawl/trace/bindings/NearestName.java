package dev.pawl.trace.bindings;

import java.util.Collection;

/** The known name that a misspelt one was probably meant to be. */
public final class NearestName {

  private NearestName() {}

  /** The nearest name, by number of single-letter edits, if it is near enough; else the empty string. */
  public static String to(String written, Collection<String> known) {
    int best = Math.max(1, Math.min(written.length(), 60) / 3) + 1;
    String nearest = "";
    for (String name : known) {
      int distance = name.equalsIgnoreCase(written) ? 0 : distance(written, name, best);
      if (distance < best) {
        best = distance;
        nearest = name;
      }
    }
    return nearest;
  }

  private static int distance(String left, String right, int limit) {
    if (Math.abs(left.length() - right.length()) >= limit) {
      return limit;
    }
    int[] row = new int[right.length() + 1];
    for (int j = 0; j < row.length; j++) {
      row[j] = j;
    }
    for (int i = 1; i <= left.length(); i++) {
      int diagonal = row[0];
      row[0] = i;
      for (int j = 1; j < row.length; j++) {
        int replaced = diagonal + (left.charAt(i - 1) == right.charAt(j - 1) ? 0 : 1);
        diagonal = row[j];
        row[j] = Math.min(replaced, 1 + Math.min(row[j], row[j - 1]));
      }
    }
    return row[right.length()];
  }
}
