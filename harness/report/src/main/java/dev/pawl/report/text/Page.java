package dev.pawl.report.text;

import dev.pawl.grammar.source.Legible;

/** Lines being set: indented, labelled, and broken at blanks to the width of the style. */
final class Page {

  private static final int INDENT = 2;
  private static final int LABEL = 12;
  private static final int MIN_ROOM = 30;

  private final StringBuilder out = new StringBuilder();
  private final Style style;

  Page(Style style) {
    this.style = style;
  }

  /** A line as it is; control characters in it are shown, not sent. */
  void line(String text) {
    out.append(text).append('\n');
  }

  void blank() {
    if (out.length() > 0 && out.charAt(out.length() - 1) == '\n'
        && !(out.length() > 1 && out.charAt(out.length() - 2) == '\n')) {
      out.append('\n');
    }
  }

  /** A label, and a text beside it that goes on below itself. */
  void labelled(String label, String text) {
    labelled(label, LABEL - 1, text);
  }

  /** The same with labels of another width, for lists whose labels are longer. */
  void labelled(String label, int width, String text) {
    String rest = Legible.of(text);
    String lead = " ".repeat(INDENT) + pad(Legible.of(label), width) + " ";
    int room = Math.max(MIN_ROOM, style.width() - lead.length());
    while (rest.length() > room) {
      int cut = breakBefore(rest, room);
      out.append(style.faint(lead)).append(rest.substring(0, cut).stripTrailing()).append('\n');
      rest = rest.substring(cut).stripLeading();
      lead = " ".repeat(lead.length());
    }
    out.append(style.faint(lead)).append(rest).append('\n');
  }

  /** The last blank within the room that does not part a number from its unit; else the room itself. */
  private static int breakBefore(String text, int room) {
    for (int i = room; i > 0; i--) {
      boolean unit = Character.isDigit(text.charAt(i - 1)) && i + 1 < text.length()
          && Character.isLetter(text.charAt(i + 1));
      if (text.charAt(i) == ' ' && !unit) {
        return i;
      }
    }
    return room;
  }

  static String pad(String text, int width) {
    return text.length() >= width ? text : text + " ".repeat(width - text.length());
  }

  @Override
  public String toString() {
    return out.toString();
  }
}
