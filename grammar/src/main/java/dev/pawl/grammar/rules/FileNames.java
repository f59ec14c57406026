package dev.pawl.grammar.rules;

import java.util.ArrayDeque;
import java.util.Deque;

/** Names of files as paths with {@code /}, so that one file has one name. */
final class FileNames {

  private FileNames() {}

  /** The name of a file that another one names relative to its own folder. */
  static String resolve(String user, String used) {
    int folder = user.replace('\\', '/').lastIndexOf('/');
    boolean absolute = used.startsWith("/") || used.matches("[A-Za-z]:.*");
    return normal(absolute || folder < 0 ? used : user.substring(0, folder + 1) + used);
  }

  /** The same path without {@code .}, and without {@code ..} where a folder stands before it. */
  static String normal(String path) {
    Deque<String> parts = new ArrayDeque<>();
    for (String part : path.replace('\\', '/').split("/")) {
      if (part.equals("..") && !parts.isEmpty() && !parts.peekLast().equals("..") && !parts.peekLast().isEmpty()) {
        parts.removeLast();
      } else if (!part.equals(".") && !(part.isEmpty() && !parts.isEmpty())) {
        parts.addLast(part);
      }
    }
    return String.join("/", parts);
  }
}
