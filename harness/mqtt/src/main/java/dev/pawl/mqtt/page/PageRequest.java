package dev.pawl.mqtt.page;

import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * What the head of a request asks for (RFC 9112), as far as the page minds it.
 *
 * @param method such as GET
 * @param target path, and whatever follows it
 * @param host what the one header of that name says; empty if there is none, or more than one
 */
record PageRequest(String method, String target, Optional<String> host) {

  /** A browser sends along whatever other programs of this machine have put into its cookies. */
  private static final int LONGEST_HEAD = 16_384;
  private static final String HOST = "host:";
  private static final int HTTP = 80;

  /**
   * Reads the head, and nothing after it.
   *
   * @return empty if what comes is too long, ends early or is no request
   */
  static Optional<PageRequest> read(InputStream in) throws IOException {
    StringBuilder head = new StringBuilder();
    while (head.length() < LONGEST_HEAD) {
      int octet = in.read();
      if (octet < 0) {
        return Optional.empty();
      }
      head.append((char) octet);
      if (octet == '\n' && head.length() >= 4 && head.indexOf("\r\n\r\n", head.length() - 4) >= 0) {
        return of(head.toString().split("\r\n"));
      }
    }
    return Optional.empty();
  }

  private static Optional<PageRequest> of(String[] lines) {
    String[] words = lines.length == 0 ? new String[0] : lines[0].split(" ", -1);
    if (words.length != 3 || !words[2].startsWith("HTTP/1.")
        || List.of(lines).stream().anyMatch(PageRequest::hasControl)) {
      return Optional.empty();
    }
    List<String> hosts = List.of(lines).stream().skip(1).filter(line -> line.toLowerCase(Locale.ROOT).startsWith(HOST))
        .map(line -> line.substring(HOST.length()).strip()).toList();
    return Optional.of(new PageRequest(words[0], words[1], hosts.size() == 1 ? Optional.of(hosts.get(0))
        : Optional.empty()));
  }

  /** Line breaks of another kind among them, by which others would see other lines. */
  private static boolean hasControl(String line) {
    return line.chars().anyMatch(c -> c < ' ' && c != '\t' || c == 0x7F);
  }

  /** Whether the request names this machine and this port, not some name that a stranger made point here. */
  boolean isFor(int port) {
    return host.isPresent() && List.of("127.0.0.1", "localhost").stream()
        .anyMatch(name -> host.get().equalsIgnoreCase(name + ":" + port) || port == HTTP
            && host.get().equalsIgnoreCase(name));
  }
}
