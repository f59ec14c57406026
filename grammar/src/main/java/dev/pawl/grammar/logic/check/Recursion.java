package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.Step;
import dev.pawl.grammar.logic.model.Unit;
import dev.pawl.grammar.logic.model.Value;
import dev.pawl.grammar.source.Diagnostics;
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

  private final Diagnostics diagnostics;
  private final List<Unit> units;
  private final List<Map<Integer, Position>> calls = new ArrayList<>();
  private final int[] state;
  private final int[] depth;
  private boolean tooDeep;

  Recursion(Diagnostics diagnostics, List<Unit> units) {
    this.diagnostics = diagnostics;
    this.units = units;
    this.state = new int[units.size()];
    this.depth = new int[units.size()];
  }

  void check() {
    units.forEach(unit -> calls.add(calls(unit)));
    for (int i = 0; i < units.size() && !tooDeep; i++) {
      visit(i, 1);
    }
  }

  private Map<Integer, Position> calls(Unit unit) {
    Map<Integer, Position> found = new LinkedHashMap<>();
    unit.body().forEach(step -> step.walk(code -> {
      if (code instanceof Step.Run run) {
        blockUnit(run).ifPresent(called -> found.putIfAbsent(called.index(), run.position()));
      } else if (code instanceof Value.Call call) {
        found.putIfAbsent(call.function(), call.position());
      }
    }));
    return found;
  }

  private Optional<Unit> blockUnit(Step.Run run) {
    return units.stream().filter(unit -> unit.block().filter(block -> block == run.block()).isPresent()).findFirst();
  }

  /**
   * Follows the calls of a unit that is itself called at the given level, and notes how many levels of units it needs.
   */
  private void visit(int unit, int level) {
    if (state[unit] != UNSEEN || tooDeep) {
      return;
    }
    state[unit] = UNDER_WAY;
    depth[unit] = 1;
    calls.get(unit).forEach((called, position) -> {
      if (state[called] == UNDER_WAY) {
        diagnostics.error(position, "this call of " + units.get(called).name() + " leads back to " + units.get(called)
            .name() + " itself", "recursion is not allowed");
      } else {
        if (level < DEEPEST) {
          visit(called, level + 1);
        }
        depth[unit] = Math.max(depth[unit], 1 + depth[called]);
      }
    });
    if (!tooDeep && (depth[unit] > DEEPEST || level >= DEEPEST && !calls.get(unit).isEmpty())) {
      tooDeep = true;
      diagnostics.error(units.get(unit).position(), "calls nest more than " + DEEPEST + " units deep");
    }
    state[unit] = DONE;
  }
}
