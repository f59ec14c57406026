package dev.pawl.grammar.logic.drawn.xml;

import dev.pawl.grammar.source.Position;
import dev.pawl.grammar.source.Source;
import java.util.Optional;

/**
 * Where the tags of a text stand. The parser says where a tag ends only; so this goes along beside it, from one start
 * tag to the next, over all that is none. It relies on the parser having found the text well-formed that far.
 */
final class Marks {

  private static final String CDATA = "<![CDATA[";
  private static final String DOCTYPE = "<!DOCTYPE";

  private final String file;
  private final String text;
  private int at;
  private int line = 1;
  private int lineStart;
  private int counted;

  Marks(Source source) {
    this.file = source.name();
    this.text = source.text();
  }

  /**
   * The place of the next start tag; goes on behind it.
   *
   * @param name characters of its name
   * @param attributes how many it has, declarations of namespaces among them
   */
  Position startTag(int name, int attributes) {
    while (true) {
      at = find("<");
      if (text.startsWith("<!--", at)) {
        behind("-->");
      } else if (text.startsWith(CDATA, at)) {
        behind("]]>");
      } else if (text.startsWith("<?", at)) {
        behind("?>");
      } else if (text.startsWith("</", at) || text.startsWith("<!", at)) {
        behind(">");
      } else {
        break;
      }
    }
    Position position = position(at, 1 + name);
    for (int i = 0; i < attributes; i++) {
      behind("=");
      while (text.charAt(at) != '"' && text.charAt(at) != '\'') {
        at++;
      }
      at = text.indexOf(text.charAt(at), at + 1) + 1;
    }
    behind(">");
    return position;
  }

  /** The place of a document type, which can stand before the first element only; goes on behind what else is there. */
  Optional<Position> documentType() {
    while (at < text.length()) {
      if (text.startsWith("<!--", at)) {
        behind("-->");
      } else if (text.startsWith("<?", at)) {
        behind("?>");
      } else if (text.startsWith(DOCTYPE, at)) {
        return Optional.of(position(at, DOCTYPE.length()));
      } else if (text.charAt(at) == '<') {
        break;
      } else {
        at++;
      }
    }
    return Optional.empty();
  }

  /** The place just behind the last start tag. */
  Position here() {
    return position(at, 1);
  }

  /** Where text begins that follows the last start tag as its first; nothing where a remark stands before it. */
  Optional<Position> textAfterTag() {
    if (text.startsWith(CDATA, at)) {
      return Optional.of(position(at + CDATA.length(), 1));
    }
    return text.startsWith("<", at) ? Optional.empty() : Optional.of(position(at, 1));
  }

  private int find(String what) {
    int found = text.indexOf(what, at);
    return found < 0 ? text.length() : found;
  }

  private void behind(String what) {
    at = Math.min(text.length(), find(what) + what.length());
  }

  private Position position(int offset, int length) {
    int next = text.indexOf('\n', counted);
    while (next >= 0 && next < offset) {
      line++;
      lineStart = next + 1;
      counted = next + 1;
      next = text.indexOf('\n', counted);
    }
    return new Position(file, line, Math.max(1, offset - lineStart + 1), Math.max(1, length));
  }
}
