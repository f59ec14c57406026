package dev.pawl.run.control;

import dev.pawl.grammar.logic.drawn.Shown;
import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.grammar.logic.model.Step;
import dev.pawl.grammar.logic.model.Unit;
import dev.pawl.grammar.source.Position;
import dev.pawl.report.model.Drawing;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** A network or chart of which it is known under which names its values can be seen. */
interface DrawnSheet {

  /** The unit in whose body it is drawn. */
  String unit();

  /** The name of what is TRUE once it was evaluated. */
  String evaluated();

  /** All names of values. */
  List<String> names();

  /** Where it stands. */
  Position position();

  /**
   * Whether it is what writes a variable at a line.
   *
   * @param variable its name without a path, in upper case; it decides where much is drawn in one line
   */
  boolean writes(Shown.Line line, String variable);

  /**
   * The drawing of what wrote a variable.
   *
   * @param values by their names
   */
  Drawing drawing(String signal, String variable, long time, Map<String, String> values);

  /** All that is shown. */
  static List<DrawnSheet> of(Shown shown) {
    List<DrawnSheet> sheets = new ArrayList<>();
    shown.networks().stream().filter(network -> !network.elements().isEmpty())
        .forEach(network -> sheets.add(new NetworkSheet(network)));
    shown.charts().forEach(chart -> sheets.add(new ChartSheet(chart)));
    return sheets;
  }

  /** Whether one instance alone runs it, so that values cannot be those of another. */
  default boolean isRunOnce(CheckedProgram program) {
    List<Unit> units = program.units().stream().filter(unit -> unit.body().stream().anyMatch(this::isHere)).toList();
    return units.size() == 1 && runs(units.get(0), program) == 1;
  }

  private boolean isHere(Step step) {
    boolean[] found = {false};
    step.walk(part -> found[0] |= part instanceof Step.Assign assign && assign.position().equals(position()));
    return found[0];
  }

  private static int runs(Unit unit, CheckedProgram program) {
    if (unit.kind() != Unit.Kind.FUNCTION_BLOCK) {
      return unit.kind() == Unit.Kind.PROGRAM ? 1 : 2;
    }
    int[] runs = {0};
    for (Unit outer : program.units()) {
      outer.body().forEach(step -> step.walk(part -> {
        if (part instanceof Step.Run run && unit.block().filter(block -> block == run.block()).isPresent()) {
          runs[0] += run.instance().steps().isEmpty() ? runs(outer, program) : 2;
        }
      }));
    }
    return runs[0];
  }
}
