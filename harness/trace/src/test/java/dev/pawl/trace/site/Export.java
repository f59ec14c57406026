package dev.pawl.trace.site;

import java.nio.charset.StandardCharsets;

/**
 * The session as some system writes it.
 *
 * @param name what is said about it
 * @param bindings what has to be stated for it to be read: ten lines at most
 * @param dated whether its times are dates
 */
record Export(String name, byte[] bytes, String bindings, boolean dated) {

  static Export dated(String name, String bindings, String text) {
    return new Export(name, text.getBytes(StandardCharsets.UTF_8), bindings, true);
  }

  static Export elapsed(String name, String bindings, String text) {
    return new Export(name, text.getBytes(StandardCharsets.UTF_8), bindings, false);
  }

  @Override
  public String toString() {
    return name;
  }
}
