package dev.pawl.report.html;

import dev.pawl.report.model.Drawing;
import dev.pawl.report.model.Drawing.Box;
import dev.pawl.report.model.Drawing.Port;
import dev.pawl.report.model.Drawing.Shape;
import dev.pawl.report.model.Drawing.Wire;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.words.TimeText;
import java.util.List;
import java.util.Locale;
import java.util.StringJoiner;

/**
 * What wrote an output, drawn as inline SVG from left to right. What is TRUE is drawn thick, and every value is written
 * beside what has it, so that nothing rests on colour.
 */
final class DrawingView {

  private static final double ARROW = 5;

  private final Markup svg;
  private final Drawing drawing;
  private final TimeBase base;
  private final List<DrawingLayout> parts;
  private DrawingLayout layout;

  DrawingView(Markup svg, Drawing drawing, TimeBase base) {
    this.svg = svg;
    this.drawing = drawing;
    this.base = base;
    this.parts = DrawingLayout.parts(drawing);
  }

  void write() {
    boolean chart = drawing.boxes().stream().anyMatch(box -> box.shape() == Shape.STEP);
    String title = "What wrote " + drawing.signal() + ": " + drawing.title();
    svg.open("figure", "class", "drawn");
    svg.element("figcaption", title + ", with the values of its last evaluation by then, at "
        + TimeText.at(base, drawing.time()) + ". Thick is " + (chart ? "active" : "TRUE")
        + (parts.get(0).isCut() ? "; what leads here from further left is not drawn" : "")
        + (parts.size() > 1 ? "; it goes on at the letters" : "") + ".");
    for (DrawingLayout part : parts) {
      layout = part;
      svg.open("svg", "viewBox", "0 0 " + number(layout.width()) + " " + number(layout.height()), "width",
          number(layout.width()), "height", number(layout.height()), "role", "img", "aria-label", part == parts.get(0)
              ? title + ". " + said() : "It goes on");
      draw();
      svg.end();
    }
    svg.end();
  }

  private void draw() {
    for (int i = 0; i < drawing.wires().size(); i++) {
      wire(i);
    }
    for (int i = 0; i < drawing.boxes().size(); i++) {
      if (layout.isDrawn(i)) {
        box(i);
      }
    }
  }

  /** What a person hears who does not see it. */
  private String said() {
    StringJoiner words = new StringJoiner("; ", "", ".");
    for (Box box : drawing.boxes()) {
      if (box.shape() == Shape.RAIL) {
        continue;
      }
      StringJoiner parts = new StringJoiner(", ");
      parts.add(word(box) + box.name() + (box.instance().isEmpty() ? "" : " " + box.instance()));
      if (!box.mark().isEmpty()) {
        parts.add(box.mark());
      }
      if (!box.value().isEmpty()) {
        parts.add(box.value());
      }
      box.inputs().stream().filter(port -> !port.value().isEmpty()).forEach(port -> parts.add(port.name() + " "
          + port.value()));
      box.outputs().stream().filter(port -> !port.value().isEmpty()).forEach(port -> parts.add((port.name().isEmpty()
          ? "gives" : port.name()) + " " + port.value()));
      words.add(parts.toString());
    }
    return words.toString();
  }

  private static String word(Box box) {
    return switch (box.shape()) {
      case READ -> "input ";
      case WRITTEN -> "output ";
      case LEAVE, RAIL -> "";
      default -> box.shape().name().toLowerCase(Locale.ROOT) + " ";
    };
  }

  // ---- wires

  private void wire(int index) {
    Wire wire = drawing.wires().get(index);
    String style = wire.value().equals("TRUE") ? "flow" : "still";
    if (layout.goesOn(wire)) {
      goesOn(wire, style);
    }
    if (!layout.isDrawn(wire.to())) {
      return;
    }
    if (wire.last()) {
      stub(index, wire, "last scan's " + source(wire) + (wire.value().isEmpty() ? "" : " = " + wire.value()), style);
    } else if (!layout.isDrawn(wire.from())) {
      Box from = drawing.boxes().get(wire.from());
      stub(index, wire, from.shape() == Shape.READ ? (from.mark().equals("NOT") ? "NOT " : "") + from.name()
          + (from.value().isEmpty() ? "" : " = " + from.value()) : from.shape() == Shape.RAIL ? "rail"
              : letter(wire) + "behind " + source(wire) + ": " + wire.value(), style);
    } else {
      svg.lone("path", "class", style, "d", layout.way(index));
      arrow(wire, style);
    }
  }

  /** A wire that goes on in the next part. */
  private void goesOn(Wire wire, String style) {
    double x = layout.x(wire.from()) + layout.width(wire.from());
    double y = layout.outY(wire.from(), wire.output());
    svg.lone("path", "class", style, "d", "M" + number(x) + " " + number(y) + "h36");
    text("to " + letter(wire).replace(", ", ""), x + 40, y + 4, "start", "");
  }

  /** The letter of a wire between parts; empty where it comes from what is not drawn. */
  private String letter(Wire wire) {
    if (parts.stream().noneMatch(part -> part.isDrawn(wire.from()))) {
      return "";
    }
    long before = drawing.wires().stream().filter(other -> parts.stream().anyMatch(part -> part.goesOn(other)))
        .filter(other -> other.from() < wire.from() || other.from() == wire.from() && other.output() < wire.output())
        .map(other -> other.from() + " " + other.output()).distinct().count();
    return (char) ('A' + before) + ", ";
  }

  private String source(Wire wire) {
    Box from = drawing.boxes().get(wire.from());
    String output = wire.output() < from.outputs().size() ? from.outputs().get(wire.output()).name() : "";
    return (from.instance().isEmpty() ? from.name() : from.instance()) + (output.isEmpty() ? "" : "." + output);
  }

  /** A short wire with what it comes from. */
  private void stub(int index, Wire wire, String words, String style) {
    double x = layout.inX(wire.to());
    double at = layout.inY(wire.to(), wire.input());
    double y = at + layout.stubDrop(index);
    svg.lone("path", "class", style, "d", "M" + number(x - DrawingLayout.STUB) + " " + number(y) + "H" + number(x)
        + (y > at ? "V" + number(at) : ""));
    text(DrawingLayout.shortened(words), x - DrawingLayout.STUB - 4, y + 4, "end", "");
  }

  private void arrow(Wire wire, String style) {
    if (drawing.boxes().get(wire.to()).shape() == Shape.STEP) {
      double x = layout.inX(wire.to());
      double y = layout.inY(wire.to(), wire.input());
      svg.lone("path", "class", style, "d", "M" + number(x - ARROW) + " " + number(y - ARROW) + "L" + number(x) + " "
          + number(y) + "L" + number(x - ARROW) + " " + number(y + ARROW));
    }
  }

  // ---- boxes

  private void box(int index) {
    Box box = drawing.boxes().get(index);
    double x = layout.x(index);
    double y = layout.y(index);
    double width = layout.width(index);
    switch (box.shape()) {
      case RAIL -> svg.lone("path", "class", "flow", "d", "M" + number(x) + " " + number(layout.railTop() - 12) + "V"
          + number(layout.railBottom() + 12));
      case CONTACT -> contact(box, in(index), x, y, width);
      case COIL -> coil(box, in(index), x, y, width);
      case BLOCK -> block(box, index, x, y, width);
      case READ -> text(box.name() + (box.value().isEmpty() ? "" : " = " + box.value()), x, y + 4, "start", "");
      case WRITTEN -> {
        text((box.mark().isEmpty() ? "" : box.mark() + " ") + DrawingLayout.shortened(box.name()), x + 4, y + 4,
            "start", emphasis(box));
        text("= " + box.value(), x + 4, y + 18, "start", "");
      }
      case LEAVE -> text("\u00bb " + (box.mark().isEmpty() ? "" : box.mark() + " ") + box.name(), x + 4, y + 4, "start",
          "");
      case STEP -> step(box, x, y, width);
      case TRANSITION -> transition(box, x, y, width);
    }
  }

  private static String emphasis(Box box) {
    return box.writes() ? "writes" : "";
  }

  private String weight(Box box) {
    return box.outputs().stream().anyMatch(port -> port.value().equals("TRUE")) ? "flow" : "still";
  }

  /** Two bars, with the variable above and its value below, and what comes out behind them. */
  private void contact(Box box, String in, double x, double y, double width) {
    double middle = x + width / 2;
    double from = middle - 6;
    double to = middle + 6;
    svg.lone("path", "class", in, "d", "M" + number(x) + " " + number(y) + "H" + number(from));
    svg.lone("path", "class", weight(box), "d", "M" + number(to) + " " + number(y) + "H" + number(x + width));
    svg.lone("path", "class", "shape", "d", "M" + number(from) + " " + number(y - 9) + "v18M" + number(to) + " "
        + number(y - 9) + "v18" + (box.mark().equals("NOT") ? "M" + number(from + 1) + " " + number(y + 8) + "l10 -16"
            : ""));
    sign(box, middle, y);
    named(box, middle, y);
  }

  /** How what comes in is drawn. */
  private String in(int index) {
    return drawing.wires().stream().anyMatch(wire -> wire.to() == index && wire.value().equals("TRUE")) ? "flow"
        : "still";
  }

  private void sign(Box box, double middle, double y) {
    String sign = switch (box.mark()) {
      case "rises" -> "P";
      case "falls" -> "N";
      case "set" -> "S";
      case "reset" -> "R";
      default -> "";
    };
    if (!sign.isEmpty()) {
      text(sign, middle, y + 4, "middle", "");
    }
  }

  private void named(Box box, double middle, double y) {
    text(DrawingLayout.shortened(box.name()), middle, y - 14, "middle", emphasis(box));
    text(box.value(), middle, y + 23, "middle", "");
  }

  private void coil(Box box, String in, double x, double y, double width) {
    double middle = x + width / 2;
    svg.lone("path", "class", in, "d", "M" + number(x) + " " + number(y) + "H" + number(middle - 10));
    svg.lone("path", "class", box.writes() ? "shape bold" : "shape", "d", "M" + number(middle - 6) + " "
        + number(y - 9) + "q-8 9 0 18M" + number(middle + 6) + " " + number(y - 9) + "q8 9 0 18"
        + (box.mark().equals("NOT") ? "M" + number(middle - 5) + " " + number(y + 8) + "l10 -16" : ""));
    sign(box, middle, y);
    named(box, middle, y);
  }

  private void block(Box box, int index, double x, double y, double width) {
    svg.lone("rect", "class", box.writes() ? "shape bold" : "shape", "x", number(x), "y", number(y - 30), "width",
        number(width), "height", number(layout.blockHeight(box)));
    if (!box.instance().isEmpty()) {
      text(box.instance(), x + width / 2, y - 35, "middle", "");
    }
    text(box.name(), x + width / 2, y - 16, "middle", "writes");
    for (int i = 0; i < box.inputs().size(); i++) {
      Port port = box.inputs().get(i);
      double at = layout.inY(index, i);
      negated(port, x - 4, at);
      text(port.name(), x + 5, at + 4, "start", "");
    }
    for (int i = 0; i < box.outputs().size(); i++) {
      Port port = box.outputs().get(i);
      double at = layout.outY(index, i);
      negated(port, x + width + 4, at);
      text(port.name(), x + width - 5, at + 4, "end", "");
      text(port.value(), x + width + (port.negated() ? 11 : 4), at - 4, "start", "");
    }
  }

  private void negated(Port port, double x, double y) {
    if (port.negated()) {
      svg.lone("circle", "class", "shape", "cx", number(x), "cy", number(y), "r", "4");
    }
  }

  private void step(Box box, double x, double y, double width) {
    boolean active = box.value().startsWith("active");
    double height = layout.stepHeight(box);
    svg.lone("rect", "class", active ? "shape bold" : "shape", "x", number(x), "y", number(y - 16), "width",
        number(width), "height", number(height));
    if (box.mark().equals("initial")) {
      svg.lone("rect", "class", "shape", "x", number(x + 3), "y", number(y - 13), "width", number(width - 6), "height",
          number(height - 6));
    }
    text(box.name(), x + width / 2, y + (box.value().isEmpty() ? 4 : -1), "middle", active ? "writes" : "");
    text(box.value(), x + width / 2, y + 13, "middle", "");
    for (int i = 0; i < box.outputs().size(); i++) {
      text(box.outputs().get(i).name(), x + width / 2, y + 32 + 15 * i, "middle",
          box.outputs().get(i).value());
    }
  }

  private void transition(Box box, double x, double y, double width) {
    double middle = x + width / 2;
    svg.lone("path", "class", "still", "d", "M" + number(x) + " " + number(y) + "H" + number(x + width));
    svg.lone("path", "class", "shape bold", "d", "M" + number(middle) + " " + number(y - 9) + "v18");
    List<String> lines = DrawingLayout.lines(box.name());
    for (int i = 0; i < lines.size(); i++) {
      text(lines.get(i), middle, y - 14 - 13 * (lines.size() - 1 - i), "middle", "");
    }
    text(box.value(), middle, y + 22, "middle", "writes");
    for (int i = 0; i < box.inputs().size(); i++) {
      Port read = box.inputs().get(i);
      text(DrawingLayout.shortened(read.name() + " = " + read.value()), middle, y + 36 + 14 * i, "middle", "");
    }
  }

  private void text(String words, double x, double y, String anchor, String style) {
    if (!words.isEmpty()) {
      if (style.isEmpty()) {
        svg.element("text", words, "x", number(x), "y", number(y), "text-anchor", anchor);
      } else {
        svg.element("text", words, "x", number(x), "y", number(y), "text-anchor", anchor, "class", style);
      }
    }
  }

  private static String number(double value) {
    return TimingPicture.number(value);
  }
}
