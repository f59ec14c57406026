package dev.pawl.report.html;

import dev.pawl.grammar.source.Legible;
import java.util.ArrayDeque;
import java.util.Deque;

/** Elements being written. Texts and attribute values are escaped here, and nowhere else can they get in. */
final class Markup {

  private final StringBuilder out = new StringBuilder();
  private final Deque<String> open = new ArrayDeque<>();

  /** Opens an element with attributes as name and value pairs. */
  Markup open(String element, String... attributes) {
    tag(element, attributes);
    open.push(element);
    return this;
  }

  /** An element without content, such as {@code br} or an SVG shape. */
  Markup lone(String element, String... attributes) {
    tag(element, attributes);
    out.setLength(out.length() - 1);
    out.append("/>");
    return this;
  }

  /** Closes the innermost open element. */
  Markup close() {
    out.append("</").append(open.pop()).append('>');
    return this;
  }

  /** Closes, and breaks the line. */
  Markup end() {
    close();
    out.append('\n');
    return this;
  }

  Markup text(String text) {
    escape(text);
    return this;
  }

  /** An element that holds only text. */
  Markup element(String element, String text, String... attributes) {
    return open(element, attributes).text(text).end();
  }

  /** Parts of the page that are this project's own: its style sheet and its script. */
  Markup own(String trusted) {
    out.append(trusted);
    return this;
  }

  private void tag(String element, String... attributes) {
    out.append('<').append(element);
    for (int i = 0; i < attributes.length; i += 2) {
      out.append(' ').append(attributes[i]).append("=\"");
      escape(attributes[i + 1]);
      out.append('"');
    }
    out.append('>');
  }

  private void escape(String text) {
    text.codePoints().forEach(c -> {
      switch (c) {
        case '<' -> out.append("&lt;");
        case '>' -> out.append("&gt;");
        case '&' -> out.append("&amp;");
        case '"' -> out.append("&quot;");
        case '\'' -> out.append("&#39;");
        default -> out.appendCodePoint(c == '\n' || Legible.isLegible(c) ? c : 0xFFFD);
      }
    });
  }

  /** What was written since the last call. */
  String take() {
    String written = out.toString();
    out.setLength(0);
    return written;
  }
}
