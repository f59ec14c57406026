package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.Step;
import dev.pawl.grammar.logic.model.Unit;
import dev.pawl.grammar.logic.model.Value;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The search for units that call themselves, which the standard forbids: their variables have one place each. */
final class Recursion {

  private static final int UNSEEN = 0;
  private static final int UNDER_WAY = 1;
  private static final int DONE = 2;

  /** Calls within calls, counted in units; a program's deepest chain must fit the stack. */
  private static final int DEEPEST = 200;

  private final Reports reports;
  private final List<Unit> units;
  private final List<Map<Integer, Position>> calls = new ArrayList<>();
  private final int[] state;
  private boolean tooDeep;

  Recursion(Reports reports, List<Unit> units) {
    this.reports = reports;
    this.units = units;
    this.state = new int[units.size()];
  }

  void check() {
    units.forEach(unit -> calls.add(calls(unit)));
    for (int i = 0; i < units.size(); i++) {
      visit(i, 0);
    }
  }

  private Map<Integer, Position> calls(Unit unit) {
    Map<Integer, Position> found = new LinkedHashMap<>();
    new Walk(step -> {
      if (step instanceof Step.Run run) {
        blockUnit(run).ifPresent(called -> found.putIfAbsent(called.index(), run.position()));
      }
    }, value -> {
      if (value instanceof Value.Call call) {
        found.putIfAbsent(call.function(), call.position());
      }
    }).all(unit.body());
    return found;
  }

  private Optional<Unit> blockUnit(Step.Run run) {
    return units.stream().filter(unit -> unit.block().filter(block -> block == run.block()).isPresent()).findFirst();
  }

  private void visit(int unit, int depth) {
    if (state[unit] != UNSEEN || tooDeep) {
      return;
    }
    if (depth > DEEPEST) {
      tooDeep = true;
      reports.error(units.get(unit).position(), "calls nest more than " + DEEPEST + " units deep");
      return;
    }
    state[unit] = UNDER_WAY;
    calls.get(unit).forEach((called, position) -> {
      if (state[called] == UNDER_WAY) {
        reports.error(position, "this call of " + units.get(called).name() + " leads back to " + units.get(called).name()
            + " itself", "recursion is not allowed");
      } else {
        visit(called, depth + 1);
      }
    });
    state[unit] = DONE;
  }
}
