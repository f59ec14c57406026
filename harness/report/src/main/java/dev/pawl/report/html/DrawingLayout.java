package dev.pawl.report.html;

import dev.pawl.report.model.Drawing;
import dev.pawl.report.model.Drawing.Box;
import dev.pawl.report.model.Drawing.Port;
import dev.pawl.report.model.Drawing.Shape;
import dev.pawl.report.model.Drawing.Wire;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;

/**
 * Where everything of a drawing lies: in columns from the left to the right, each box right of all that it takes from
 * and, where there is room, beside the first of them. What is too wide for a page lies in parts.
 */
final class DrawingLayout {

  /** The length of a wire that comes from something written beside it. */
  static final double STUB = 12;

  private static final double LETTER = 6.7;
  private static final double GAP = 44;
  private static final double ROW = 18;
  private static final double SPACE = 10;
  private static final double MARGIN = 8;
  private static final double WIDEST = 900;
  private static final int MOST_PARTS = 4;
  private static final double LABEL = 70;
  private static final int LONGEST = 34;
  /** The place of what would like none. */
  private static final double ANYWHERE = -1;

  private final Drawing drawing;
  private final int[] column;
  private final boolean[] drawn;
  private final double[] x;
  private final double[] y;
  private final double[] stub;
  private final Map<Integer, double[]> passes = new HashMap<>();
  private final double[] starts;
  private final double[] columnWidth;
  private final boolean cut;
  private double bottom;

  private DrawingLayout(Drawing drawing, int[] columns, int first, int last, boolean cut) {
    this.drawing = drawing;
    this.cut = cut;
    int boxes = drawing.boxes().size();
    column = Arrays.stream(columns).map(c -> c - first).toArray();
    drawn = new boolean[boxes];
    x = new double[boxes];
    y = new double[boxes];
    stub = new double[boxes];
    for (int i = 0; i < boxes; i++) {
      drawn[i] = column[i] >= 0 && column[i] <= last - first && !isInline(i);
    }
    starts = new double[last - first + 1];
    columnWidth = new double[last - first + 1];
    across();
    down();
  }

  /** The parts of a drawing, the leftmost first; what comes before the fourth part from the right is left out. */
  static List<DrawingLayout> parts(Drawing drawing) {
    int[] columns = new Columns(drawing).all();
    List<DrawingLayout> parts = new ArrayList<>();
    int last = Arrays.stream(columns).max().orElse(0);
    while (last >= 0 && parts.size() < MOST_PARTS) {
      int first = last;
      DrawingLayout part = new DrawingLayout(drawing, columns, first, last, first > 0);
      while (first > 0) {
        DrawingLayout wider = new DrawingLayout(drawing, columns, first - 1, last, first > 1);
        if (wider.width() > WIDEST && first > 1) {
          break;
        }
        part = wider;
        first--;
      }
      parts.add(0, part);
      last = first - 1;
    }
    return parts;
  }

  /** Which column each box lies in. */
  private record Columns(Drawing drawing) {

    /** Each box comes right of what it takes from; wires that close a circle do not count. */
    int[] all() {
      int[] columns = new int[drawing.boxes().size()];
      int[] state = new int[columns.length];
      for (int i = 0; i < columns.length; i++) {
        column(i, columns, state);
      }
      for (int i = columns.length - 1; i >= 0; i--) {
        nearer(i, columns);
      }
      return columns;
    }

    private Shape shape(int index) {
      return drawing.boxes().get(index).shape();
    }

    private int column(int index, int[] columns, int[] state) {
      if (state[index] == 0) {
        state[index] = 1;
        int found = 0;
        for (Wire wire : drawing.wires()) {
          if (wire.to() == index && !wire.last() && shape(wire.from()) != Shape.READ && state[wire.from()] != 1) {
            found = Math.max(found, column(wire.from(), columns, state) + 1);
          }
        }
        boolean first = shape(index) == Shape.STEP || shape(index) == Shape.TRANSITION || shape(index) == Shape.RAIL;
        columns[index] = first ? found : Math.max(1, found);
        state[index] = 2;
      }
      return columns[index];
    }

    /** What takes from nothing that is drawn lies just before what takes from it. */
    private void nearer(int index, int[] columns) {
      if (shape(index) == Shape.BLOCK && drawing.wires().stream().noneMatch(wire -> wire.to() == index && !wire.last()
          && shape(wire.from()) != Shape.READ)) {
        drawing.wires().stream().filter(wire -> wire.from() == index && !wire.last() && columns[wire.to()]
            > columns[index]).mapToInt(wire -> columns[wire.to()] - 1).min().ifPresent(c -> columns[index] = c);
      }
    }
  }

  static String shortened(String words) {
    return words.length() > LONGEST ? words.substring(0, LONGEST - 1) + "\u2026" : words;
  }

  /** Words in lines that are not longer than one that is shortened. */
  static List<String> lines(String words) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : words.split(" ")) {
      if (line.length() > 0 && line.length() + word.length() >= LONGEST) {
        lines.add(line.toString());
        line.setLength(0);
      }
      line.append(line.length() == 0 ? "" : " ").append(word);
    }
    lines.add(line.toString());
    return lines;
  }

  private Box box(int index) {
    return drawing.boxes().get(index);
  }

  private boolean isInline(int index) {
    return box(index).shape() == Shape.READ;
  }

  /** How much room the words beside the inputs of a box take. */
  private double stub(int index) {
    double longest = 0;
    for (Wire wire : drawing.wires()) {
      if (wire.to() == index) {
        Box from = box(wire.from());
        if (from.shape() == Shape.READ) {
          longest = Math.max(longest, written(from.name() + " = " + from.value()) + 30);
        } else if (wire.last()) {
          longest = Math.max(longest, written("last scan's " + from.name() + from.instance() + ".OUT = FALSE"));
        } else if (drawn[index] && !drawn[wire.from()]) {
          longest = Math.max(longest, written("A, behind " + from.name() + from.instance() + ".OUT: FALSE"));
        }
      }
    }
    return longest == 0 ? 0 : longest + STUB + 6;
  }

  private static double written(String words) {
    return shortened(words).length() * LETTER;
  }

  private void across() {
    double at = MARGIN;
    for (int c = 0; c < starts.length; c++) {
      for (int i = 0; i < column.length; i++) {
        if (drawn[i] && column[i] == c) {
          stub[i] = stub(i);
          columnWidth[c] = Math.max(columnWidth[c], stub[i] + width(i));
        }
      }
      starts[c] = at;
      for (int i = 0; i < column.length; i++) {
        if (drawn[i] && column[i] == c) {
          x[i] = at + stub[i];
        }
      }
      at += columnWidth[c] + GAP;
    }
  }

  /** A box, or a wire that passes through a column, with the place that it would like. */
  private record Slot(int box, int wire, double wanted, double above, double below) {}

  private void down() {
    double top = MARGIN + drawing.boxes().stream().mapToDouble(DrawingLayout::above).max().orElse(0);
    for (int c = 0; c < starts.length; c++) {
      List<Slot> slots = new ArrayList<>();
      for (int i = 0; i < column.length; i++) {
        if (drawn[i] && column[i] == c && box(i).shape() != Shape.RAIL) {
          slots.add(new Slot(i, -1, wanted(i), above(box(i)), below(i)));
        }
      }
      for (int w = 0; w < drawing.wires().size(); w++) {
        Wire wire = drawing.wires().get(w);
        if (isRouted(wire) && column[wire.from()] < c && column[wire.to()] > c && !passesElsewhere(w, c)) {
          slots.add(new Slot(-1, w, before(w, c), SPACE, SPACE));
        }
      }
      slots.sort(Comparator.comparingDouble(slot -> slot.wanted() == ANYWHERE ? Double.MAX_VALUE : slot.wanted()));
      double free = Double.NEGATIVE_INFINITY;
      for (Slot slot : slots) {
        double at = Math.max(Math.max(top, slot.wanted()), free + slot.above());
        free = at + slot.below() + SPACE;
        if (slot.box() >= 0) {
          y[slot.box()] = at;
        } else {
          passes.computeIfAbsent(slot.wire(), unused -> new double[starts.length])[c] = at;
        }
      }
      bottom = Math.max(bottom, free);
    }
    bottom = Math.max(bottom, railBottom() + 14);
  }

  /** Wires from one output share a way. */
  private boolean passesElsewhere(int index, int c) {
    Wire wire = drawing.wires().get(index);
    for (int w = 0; w < index; w++) {
      Wire other = drawing.wires().get(w);
      double[] way = passes.get(w);
      if (other.from() == wire.from() && other.output() == wire.output() && isRouted(other)
          && box(wire.from()).shape() != Shape.RAIL && column[other.to()] > c && (way == null || way[c] == 0)) {
        return true;
      }
    }
    return false;
  }

  private boolean isRouted(Wire wire) {
    return !wire.last() && drawn[wire.from()] && drawn[wire.to()];
  }

  /** Where a wire is in the column before. */
  private double before(int index, int c) {
    double[] way = passes.get(index);
    if (way != null && c > 0 && way[c - 1] > 0) {
      return way[c - 1];
    }
    Wire wire = drawing.wires().get(index);
    return box(wire.from()).shape() == Shape.RAIL ? ANYWHERE : outY(wire.from(), wire.output());
  }

  /** Beside the first that it takes from, so that the wire is straight. */
  private double wanted(int index) {
    double wanted = ANYWHERE;
    for (int w = 0; w < drawing.wires().size(); w++) {
      Wire wire = drawing.wires().get(w);
      if (wire.to() == index && isRouted(wire) && box(wire.from()).shape() != Shape.RAIL
          && column[wire.from()] < column[index]) {
        double there = before(w, column[index]) - offset(index, wire.input());
        wanted = wanted < 0 ? there : Math.min(wanted, there);
      }
    }
    return wanted;
  }

  private double offset(int index, int input) {
    return box(index).shape() == Shape.BLOCK ? ROW * input : 0;
  }

  private static double above(Box box) {
    return switch (box.shape()) {
      case BLOCK -> box.instance().isEmpty() ? 32 : 46;
      case STEP -> 16;
      case CONTACT, COIL -> 26;
      case TRANSITION -> 13 + 13 * lines(box.name()).size();
      default -> 10;
    };
  }

  private double below(int index) {
    Box box = box(index);
    return switch (box.shape()) {
      case BLOCK -> blockHeight(box) - 30;
      case STEP -> stepHeight(box) - 16;
      case TRANSITION -> 28 + 14 * box.inputs().size();
      case CONTACT, COIL -> 26 + 14 * Math.max(0, stubs(index) - 1);
      case WRITTEN -> 22;
      default -> 10;
    };
  }

  private long stubs(int index) {
    return drawing.wires().stream().filter(wire -> wire.to() == index && !isRouted(wire)).count();
  }

  // ---- what was laid out

  boolean isCut() {
    return cut;
  }

  /** Whether a wire leads from here to another part. */
  boolean goesOn(Wire wire) {
    return drawn[wire.from()] && !drawn[wire.to()] && !wire.last() && box(wire.from()).shape() != Shape.RAIL;
  }

  boolean isDrawn(int index) {
    return drawn[index];
  }

  double x(int index) {
    return x[index];
  }

  /** Of its first input. */
  double y(int index) {
    return y[index];
  }

  double width(int index) {
    Box box = box(index);
    double name = written(box.name());
    return switch (box.shape()) {
      case RAIL -> 0;
      case CONTACT, COIL -> Math.max(46, Math.max(name, written(box.value())) + 6);
      case BLOCK -> Math.max(Math.max(name, written(box.instance())) + 12, ports(box.inputs()) + ports(box.outputs())
          + 24);
      case READ, WRITTEN, LEAVE -> written(box.mark() + " " + box.name()) + 14;
      case STEP -> 14 + Math.max(Math.max(name, written(box.value())), ports(box.outputs()));
      case TRANSITION -> 10 + Math.max(Math.max(lines(box.name()).stream().mapToDouble(DrawingLayout::written).max()
          .orElse(0), written(box.value())), box.inputs().stream().mapToDouble(port ->
          written(port.name() + " = " + port.value())).max().orElse(0));
    };
  }

  private static double ports(List<Port> ports) {
    return ports.stream().mapToDouble(port -> written(port.name())).max().orElse(0);
  }

  double blockHeight(Box box) {
    return 30 + ROW * Math.max(1, Math.max(box.inputs().size(), box.outputs().size())) - 6;
  }

  double stepHeight(Box box) {
    return 36 + (box.outputs().isEmpty() ? 0 : 4 + 15 * box.outputs().size());
  }

  double inX(int index) {
    return x[index];
  }

  double inY(int index, int input) {
    return y[index] + offset(index, input);
  }

  double outY(int index, int output) {
    return y[index] + (box(index).shape() == Shape.BLOCK ? ROW * output : 0);
  }

  /** How far below its input the words of a stub stand: below a wire into it, and other words. */
  double stubDrop(int index) {
    Wire wire = drawing.wires().get(index);
    return 14 * IntStream.range(0, drawing.wires().size()).filter(i -> drawing.wires().get(i).to() == wire.to()
        && drawing.wires().get(i).input() == wire.input() && (isRouted(drawing.wires().get(i)) || i < index)).limit(3)
        .count();
  }

  /** The way of a wire, as a path. */
  String way(int index) {
    Wire wire = drawing.wires().get(index);
    boolean rail = box(wire.from()).shape() == Shape.RAIL;
    double fromX = x[wire.from()] + width(wire.from());
    double end = inY(wire.to(), wire.input());
    double at = rail ? first(index, end) : outY(wire.from(), wire.output());
    StringBuilder path = new StringBuilder("M" + TimingPicture.number(fromX) + " " + TimingPicture.number(at));
    for (int c = column[wire.from()] + 1; c <= column[wire.to()]; c++) {
      double next = c == column[wire.to()] ? end : through(index, c, at);
      if (next != at) {
        path.append('H').append(TimingPicture.number(channel(wire, c))).append('V').append(TimingPicture.number(next));
        at = next;
      }
    }
    return path.append('H').append(TimingPicture.number(inX(wire.to()))).toString();
  }

  private double first(int index, double end) {
    Wire wire = drawing.wires().get(index);
    return column[wire.to()] > column[wire.from()] + 1 ? through(index, column[wire.from()] + 1, end) : end;
  }

  private double through(int index, int c, double otherwise) {
    double[] way = passes.get(index);
    if (way != null && way[c] > 0) {
      return way[c];
    }
    Wire wire = drawing.wires().get(index);
    for (int w = 0; w < index; w++) {
      Wire other = drawing.wires().get(w);
      double[] shared = passes.get(w);
      if (other.from() == wire.from() && other.output() == wire.output() && shared != null && shared[c] > 0) {
        return shared[c];
      }
    }
    return otherwise;
  }

  /** Where wires turn before a column: those from different boxes not at one place. */
  private double channel(Wire wire, int c) {
    int rank = (int) IntStream.range(0, wire.from()).filter(i -> drawn[i] && column[i] == column[wire.from()]).count();
    return starts[c] - GAP + 24 + 5 * (rank % 4);
  }

  double railTop() {
    return rails().min().orElse(MARGIN);
  }

  double railBottom() {
    return rails().max().orElse(MARGIN);
  }

  /** Where wires leave the rail. */
  private DoubleStream rails() {
    List<Wire> wires = drawing.wires();
    return IntStream.range(0, wires.size()).filter(w -> isRouted(wires.get(w))
        && box(wires.get(w).from()).shape() == Shape.RAIL)
        .mapToDouble(w -> first(w, inY(wires.get(w).to(), wires.get(w).input())));
  }

  double width() {
    int last = starts.length - 1;
    boolean goesOn = drawing.wires().stream().anyMatch(this::goesOn);
    return Math.max(420, starts[last] + columnWidth[last] + (goesOn ? LABEL : 40));
  }

  double height() {
    return bottom + MARGIN;
  }
}
