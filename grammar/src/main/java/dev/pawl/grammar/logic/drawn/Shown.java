package dev.pawl.grammar.logic.drawn;

import dev.pawl.grammar.logic.drawn.tree.Element;
import dev.pawl.grammar.logic.drawn.tree.Sequence;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;

/**
 * Networks and charts of which it is to be seen what their elements come to. A program that is translated with it does
 * the same as without, and beside that keeps each such value under a name of its own until the next evaluation. Where
 * several instances run what is drawn, those keep theirs that are marked.
 */
public final class Shown {

  /** No text can name it; it has no blank, so that it is a symbol also in instances, as other hidden names are not. */
  private static final String MARK = "shown#";

  private final Set<Line> wanted;
  private final List<Network> networks = new ArrayList<>();
  private final List<Chart> charts = new ArrayList<>();
  private final Map<String, Name> marks = new HashMap<>();
  private int names;

  /**
   * What writes at some lines.
   *
   * @param wanted lines at which elements stand that write
   */
  public Shown(Set<Line> wanted) {
    this.wanted = Set.copyOf(wanted);
  }

  /** Nothing is to be seen. */
  public static Shown nothing() {
    return new Shown(Set.of());
  }

  /** A line of a source; the first is 1. */
  public record Line(String file, int line) {
    static Line of(Position position) {
      return new Line(position.file(), position.line());
    }
  }

  /**
   * A network.
   *
   * @param unit the name of its unit
   * @param number which of the unit's networks it is, from 1
   * @param evaluated the name of what is TRUE once it was evaluated
   * @param writers the numbers of those of its elements that write at a wanted line
   * @param elements in the order of evaluation, connected to where their wires come from
   * @param outputs the names of what comes out of elements
   * @param before the names of what came out in the scan before, where an element takes that
   * @param operands the names of what variables of elements are, by their numbers: of those that are written,
   *     afterwards
   */
  public record Network(String unit, int number, String evaluated, List<Element> writers, List<Element> elements,
      Map<Element.Link, String> outputs, Map<Element.Link, String> before, Map<Long, String> operands) {}

  /**
   * A chart.
   *
   * @param unit the name of its unit
   * @param evaluated the name of what is TRUE once it was evaluated
   * @param targets in upper case, the actions and variables that write at a wanted line
   * @param steps the names of {@code X} and {@code T} of each step, by the step's name in upper case
   * @param cleared the names of whether each transition was cleared, by transition
   * @param operands the names of what a transition's condition reads, by transition and variable
   */
  public record Chart(String unit, String evaluated, Sequence sequence, Set<String> targets,
      Map<String, List<String>> steps, Map<Sequence.Transition, String> cleared,
      Map<Sequence.Transition, Map<String, String>> operands) {}

  public List<Network> networks() {
    return networks;
  }

  public List<Chart> charts() {
    return charts;
  }

  /** Whether what stands at a place is wanted. */
  public boolean wants(Position position) {
    return !wanted.isEmpty() && wanted.contains(Line.of(position));
  }

  /** Whether any of so many lines from a place on is wanted. */
  public boolean wants(Position position, int lines) {
    return wanted.stream().anyMatch(line -> line.file().equals(position.file()) && line.line() >= position.line()
        && line.line() < position.line() + lines);
  }

  /** A name under which a value can be seen. */
  public Name name(Position position) {
    return new Name("shown " + ++names, position);
  }

  /**
   * The variable of a unit that is TRUE in those of its instances whose values are kept; at first in all of them.
   *
   * @param declare declares it in the unit
   */
  public Name mark(String unit, Position position, Consumer<Name> declare) {
    return marks.computeIfAbsent(unit.toUpperCase(Locale.ROOT), unused -> {
      Name mark = new Name(MARK + ++names, position);
      declare.accept(mark);
      return mark;
    });
  }

  /** The name of that variable, if anything of the unit is kept. */
  public Optional<String> mark(String unit) {
    return Optional.ofNullable(marks.get(unit.toUpperCase(Locale.ROOT))).map(Name::text);
  }

  /** Begins to look at a network. */
  public Network network(String unit, int number, Position position) {
    Network network = new Network(unit, number, name(position).text(), new ArrayList<>(), new ArrayList<>(),
        new LinkedHashMap<>(), new LinkedHashMap<>(), new LinkedHashMap<>());
    networks.add(network);
    return network;
  }

  /** Begins to look at a chart. */
  public Chart chart(String unit, Sequence sequence, Set<String> targets) {
    Chart chart = new Chart(unit, name(sequence.position()).text(), sequence, targets, new LinkedHashMap<>(),
        new LinkedHashMap<>(), new LinkedHashMap<>());
    charts.add(chart);
    return chart;
  }
}
