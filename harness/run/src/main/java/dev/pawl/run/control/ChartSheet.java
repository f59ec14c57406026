package dev.pawl.run.control;

import dev.pawl.grammar.logic.drawn.Shown;
import dev.pawl.grammar.logic.drawn.tree.Body;
import dev.pawl.grammar.logic.drawn.tree.Sequence;
import dev.pawl.grammar.logic.drawn.tree.Sequence.Association;
import dev.pawl.grammar.logic.drawn.tree.Sequence.Step;
import dev.pawl.grammar.logic.drawn.tree.Sequence.Transition;
import dev.pawl.grammar.logic.drawn.network.Reads;
import dev.pawl.grammar.logic.parse.Fragment;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.source.Position;
import dev.pawl.report.model.Drawing;
import dev.pawl.report.model.Drawing.Box;
import dev.pawl.report.model.Drawing.Port;
import dev.pawl.report.model.Drawing.Shape;
import dev.pawl.report.words.TimeText;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A chart: the steps that control what wrote an output and those that are active are drawn, with the transitions that
 * lead to and from them.
 */
record ChartSheet(Shown.Chart chart) implements DrawnSheet {

  private static final int MOST_STEPS = 5;

  @Override
  public String unit() {
    return chart.unit();
  }

  @Override
  public String evaluated() {
    return chart.evaluated();
  }

  @Override
  public List<String> names() {
    return Stream.of(chart.steps().values().stream().flatMap(List::stream), chart.cleared().values().stream(),
        chart.operands().values().stream().flatMap(it -> it.values().stream())).flatMap(it -> it).toList();
  }

  @Override
  public Position position() {
    return chart.sequence().position();
  }

  @Override
  public boolean writes(Shown.Line line, String variable) {
    return position().file().equals(line.file()) && (chart.sequence().steps().stream()
        .flatMap(step -> step.associations().stream()).anyMatch(it -> it.position().line() == line.line())
        || chart.sequence().actions().stream().flatMap(action -> action.bodies().stream())
            .anyMatch(body -> body instanceof Body.Written text && holds(text.text(), line.line())));
  }

  private static boolean holds(Fragment text, int line) {
    return line >= text.start().line() && line < text.start().line() + text.text().lines().count();
  }

  private static String target(Association association) {
    return association.target().text().strip();
  }

  @Override
  public Drawing drawing(String signal, String variable, long time, Map<String, String> values) {
    Set<String> wanted = chart.targets().stream().filter(it -> it.endsWith(variable)).collect(Collectors.toSet());
    Set<String> targets = wanted.isEmpty() ? chart.targets() : wanted;
    Builder builder = new Builder(values, targets);
    chart.sequence().steps().stream().filter(step -> step.associations().stream()
        .anyMatch(it -> targets.contains(target(it).toUpperCase(Locale.ROOT))) || builder.isActive(step.name().key()))
        .limit(MOST_STEPS).forEach(builder::region);
    return new Drawing(chart.unit(), signal, time, builder.boxes, builder.wires);
  }

  /** The drawing while it grows. */
  private final class Builder {
    private final Map<String, String> values;
    private final Set<String> targets;
    private final List<Box> boxes = new ArrayList<>();
    private final List<Drawing.Wire> wires = new ArrayList<>();

    Builder(Map<String, String> values, Set<String> targets) {
      this.values = values;
      this.targets = targets;
    }

    boolean isActive(String step) {
      return values.getOrDefault(chart.steps().getOrDefault(step, List.of("")).get(0), "").equals("TRUE");
    }

    /** A step with the transitions around it, and the names of the steps beyond those. */
    void region(Step step) {
      String key = step.name().key();
      int own = add(box(step));
      for (Transition transition : chart.sequence().transitions()) {
        if (transition.to().contains(key)) {
          int bar = add(box(transition));
          connect(bar, own, false);
          transition.from().forEach(from -> connect(add(neighbour(from)), bar, isActive(from)));
        }
        if (transition.from().contains(key)) {
          int bar = add(box(transition));
          connect(own, bar, isActive(key));
          transition.to().forEach(to -> connect(bar, add(neighbour(to)), false));
        }
      }
    }

    private int add(Box box) {
      boxes.add(box);
      return boxes.size() - 1;
    }

    private void connect(int from, int to, boolean active) {
      wires.add(new Drawing.Wire(from, 0, to, 0, active ? "TRUE" : "FALSE", false));
    }

    private Box box(Step step) {
      List<Port> controls = step.associations().stream().map(it -> new Port(it.qualifier() + it.time().map(time ->
          " " + time(time)).orElse("") + " " + target(it), false, targets.contains(target(it)
              .toUpperCase(Locale.ROOT)) ? "writes" : "")).toList();
      boolean writes = step.associations().stream().anyMatch(it -> targets.contains(target(it)
          .toUpperCase(Locale.ROOT)));
      return new Box(Shape.STEP, step.name().text(), "", step.initial() ? "initial" : "", state(step.name().key()),
          writes, List.of(new Port("", false, "")), controls);
    }

    private static String time(Expression time) {
      return time instanceof Expression.TimeLiteral literal ? TimeText.duration(literal.nanoseconds())
          : Reads.isPath(time) ? Reads.spelled(time) : "";
    }

    private String state(String key) {
      List<String> names = chart.steps().getOrDefault(key, List.of());
      return isActive(key) ? "active for " + values.getOrDefault(names.get(1), "") : "not active";
    }

    private Box neighbour(String key) {
      String name = chart.sequence().steps().stream().map(Step::name).filter(it -> it.key().equals(key)).findFirst()
          .map(Object::toString).orElse(key);
      return new Box(Shape.STEP, name, "", "", isActive(key) ? "active" : "", false, List.of(new Port("", false, "")),
          List.of());
    }

    private Box box(Transition transition) {
      boolean cleared = values.getOrDefault(chart.cleared().get(transition), "").equals("TRUE");
      String value = cleared ? "cleared now" : transition.from().stream().allMatch(this::isActive) ? "not met"
          : "not enabled";
      String text = transition.condition() instanceof Sequence.Expressed written ? written.expression().text().strip()
          : "drawn condition";
      List<Port> reads = chart.operands().getOrDefault(transition, Map.of()).entrySet().stream()
          .map(it -> new Port(it.getKey(), false, values.getOrDefault(it.getValue(), ""))).toList();
      return new Box(Shape.TRANSITION, (transition.negated() ? "NOT " : "") + text.replaceAll("\\s+", " "), "", "",
          value, false, reads, List.of());
    }
  }
}
