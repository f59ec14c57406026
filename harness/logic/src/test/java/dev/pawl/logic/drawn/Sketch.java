package dev.pawl.logic.drawn;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A diagram in a few lines, one for each element:
 *
 * <pre>
 * 1 contact a          < rail
 * 2 contact /b         < rail          / negated, ^ rising edge, _ falling edge
 * 3 coil q             < 1|2           also /q, ^q, _q, Sq (set), Rq (reset)
 * 4 block TON t        IN<3 PT<=T#50ms    = begins an expression that is read; IN!<3 is negated
 * 5 out n              < 4.ET
 * 6 jump L             < 3             label L, return, connector c, continuation c, inout v
 * </pre>
 *
 * Elements are drawn below one another, in the order of their lines, unless a line ends in {@code @x,y}; {@code #5}
 * before that is a number of execution.
 */
final class Sketch {

  /** Where a value comes from: an element's output, or an expression. */
  record From(int element, String output, Optional<String> expression) {}

  /** Something that an element takes. */
  record Pin(String name, boolean negated, List<From> from) {}

  /** An element. */
  record Part(int id, String kind, String name, String instance, char mark, List<Pin> pins, double x, double y,
      Optional<Integer> order) {

    Pin pin() {
      return pins.isEmpty() ? new Pin("", false, List.of()) : pins.get(0);
    }
  }

  private static final int RAIL = 0;

  private final List<Part> parts = new ArrayList<>();

  static Sketch of(List<String> lines) {
    Sketch sketch = new Sketch();
    lines.forEach(sketch::add);
    return sketch;
  }

  List<Part> parts() {
    return parts;
  }

  void add(Part part) {
    parts.add(part);
  }

  private void add(String line) {
    String text = line.strip();
    double x = 10 * (parts.size() + 1);
    double y = x;
    int at = text.lastIndexOf(" @");
    if (at > 0) {
      String[] place = text.substring(at + 2).split(",");
      x = Double.parseDouble(place[0]);
      y = Double.parseDouble(place[1]);
      text = text.substring(0, at).strip();
    }
    Optional<Integer> order = Optional.empty();
    int number = text.lastIndexOf(" #");
    if (number > 0) {
      order = Optional.of(Integer.parseInt(text.substring(number + 2)));
      text = text.substring(0, number).strip();
    }
    String[] words = text.split("\\s+");
    String kind = words[1];
    int next = 2;
    String name = next < words.length && !words[next].contains("<") ? words[next++] : "";
    String instance = kind.equals("block") && next < words.length && !words[next].contains("<") ? words[next++] : "";
    char mark = name.isEmpty() || kind.equals("block") ? ' ' : name.charAt(0);
    boolean marked = "/^_SR".indexOf(mark) >= 0 && (mark != 'S' && mark != 'R' || kind.equals("coil"))
        && name.length() > 1;
    List<Pin> pins = new ArrayList<>();
    for (; next < words.length; next++) {
      int arrow = words[next].indexOf('<');
      String from = words[next].substring(arrow + 1);
      if (from.isEmpty()) {
        from = words[++next];
      }
      String pin = arrow <= 0 ? "" : words[next].contains("<") ? words[next].substring(0, arrow) : "";
      pins.add(new Pin(pin.replace("!", ""), pin.endsWith("!"), sources(from)));
    }
    parts.add(new Part(Integer.parseInt(words[0]), kind, marked ? name.substring(1) : name, instance,
        marked ? mark : ' ', pins, x, y, order));
  }

  private static List<From> sources(String text) {
    List<From> sources = new ArrayList<>();
    for (String each : text.split("\\|")) {
      if (each.startsWith("=")) {
        sources.add(new From(-1, "", Optional.of(each.substring(1))));
      } else if (each.equals("rail")) {
        sources.add(new From(RAIL, "", Optional.empty()));
      } else {
        String[] pieces = each.split("\\.");
        sources.add(new From(Integer.parseInt(pieces[0]), pieces.length > 1 ? pieces[1] : "", Optional.empty()));
      }
    }
    return sources;
  }
}
