package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.Code;
import dev.pawl.grammar.logic.model.Place;
import dev.pawl.grammar.logic.model.Step;
import dev.pawl.grammar.logic.model.Unit;
import dev.pawl.grammar.logic.model.Variable;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Which units write one variable that several can name: a global one, or one at an output or marker. Where one of them
 * writes it whenever it runs, what the other wrote is lost, which is hardly meant.
 */
final class SharedWriters {

  private static final int LISTED = 5;

  private final Map<Integer, String> names = new HashMap<>();
  private final Map<Integer, Map<Unit, Write>> writes = new TreeMap<>();

  /**
   * The first writing of a slot in a unit.
   *
   * @param always whether it is done whenever the unit runs
   */
  private record Write(boolean always, Position position) {}

  private SharedWriters(List<Unit> units, List<Variable> globals) {
    globals.stream().filter(variable -> variable.name().indexOf(' ') < 0).forEach(this::name);
    units.forEach(unit -> unit.variables().stream().filter(variable -> !variable.address().isEmpty())
        .forEach(this::name));
  }

  /** Warns of such variables, once for two units. */
  static void warn(List<Unit> units, List<Variable> globals, Diagnostics diagnostics) {
    SharedWriters shared = new SharedWriters(units, globals);
    units.forEach(unit -> {
      unit.body().forEach(step -> shared.note(unit, step, true));
      unit.body().forEach(step -> shared.inside(unit, step));
    });
    shared.told(diagnostics);
  }

  private void name(Variable variable) {
    if (!variable.atInput() && !variable.constant()) {
      for (int slot = 0; slot < variable.type().size(); slot++) {
        names.putIfAbsent(variable.offset() + slot, variable.name());
      }
    }
  }

  private void note(Unit unit, Step step, boolean always) {
    if (step instanceof Step.Assign assign && assign.target().anchor() instanceof Place.Fixed
        && assign.target().steps().isEmpty() && names.containsKey(assign.target().offset())) {
      writes.computeIfAbsent(assign.target().offset(), unused -> new LinkedHashMap<>()).merge(unit,
          new Write(always, assign.position()), (one, other) -> one.always() ? one : other);
    }
  }

  private void inside(Unit unit, Code code) {
    for (Code part : code.parts()) {
      if (part instanceof Step step) {
        note(unit, step, false);
      }
      inside(unit, part);
    }
  }

  private void told(Diagnostics diagnostics) {
    Map<List<Unit>, List<Integer>> pairs = new LinkedHashMap<>();
    writes.forEach((slot, units) -> {
      List<Unit> writers = new ArrayList<>(units.keySet());
      for (int i = 1; i < writers.size(); i++) {
        if (units.get(writers.get(0)).always() || units.get(writers.get(i)).always()) {
          pairs.computeIfAbsent(List.of(writers.get(0), writers.get(i)), unused -> new ArrayList<>()).add(slot);
        }
      }
    });
    pairs.forEach((pair, slots) -> {
      List<String> shared = slots.stream().map(names::get).distinct().toList();
      String listed = String.join(", ", shared.subList(0, Math.min(LISTED, shared.size())))
          + (shared.size() > LISTED ? " and " + (shared.size() - LISTED) + " more" : "");
      diagnostics.add(Diagnostic.warning(writes.get(slots.get(0)).get(pair.get(1)).position(), pair.get(0).name()
          + " and " + pair.get(1).name() + " both write " + listed + ", and what comes last in the scan counts",
          "let one of them write it, or join both before"));
    });
  }
}
