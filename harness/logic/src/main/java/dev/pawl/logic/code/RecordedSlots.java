package dev.pawl.logic.code;

import dev.pawl.grammar.logic.model.BlockType;
import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.Place;
import dev.pawl.grammar.logic.model.Unit;
import dev.pawl.grammar.logic.model.Variable;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** The slots whose last writer is noted, and where in instances of function blocks they lie. */
final class RecordedSlots {

  private final BitSet recorded;
  private final Map<BlockType, BitSet> inside = new HashMap<>();

  RecordedSlots(CheckedProgram program, BitSet recorded) {
    this.recorded = recorded;
    find(program.globals());
    program.programs().forEach(unit -> find(unit.variables()));
  }

  private void find(List<Variable> variables) {
    variables.forEach(variable -> find(variable.type(), variable.offset()));
  }

  private void find(LogicType type, int from) {
    int next = recorded.nextSetBit(from);
    if (next < 0 || next >= from + type.size()) {
      return;
    }
    type.match(scalar -> null, array -> {
      for (int i = 0; i < array.elements(); i++) {
        find(array.element(), from + i * array.element().size());
      }
      return null;
    }, structure -> {
      structure.fields().forEach(field -> find(field.type(), from + field.offset()));
      return null;
    }, block -> {
      for (int slot = next; slot >= 0 && slot < from + block.size(); slot = recorded.nextSetBit(slot + 1)) {
        inside.computeIfAbsent(block, unused -> new BitSet()).set(slot - from);
      }
      block.variables().stream().filter(variable -> variable.role() != Variable.Role.IN_OUT)
          .forEach(variable -> find(variable.type(), from + variable.offset()));
      return null;
    });
  }

  /**
   * Whether a unit that writes a place could hit one of them.
   *
   * @param size slots that it writes at once
   */
  boolean mayBeHit(Unit unit, Place place, int size) {
    return place.anchor().match(fixed -> isHit(recorded, place, size), instance -> isHit(unit.block()
        .map(inside::get).orElseGet(BitSet::new), place, size), pointer -> !recorded.isEmpty());
  }

  private static boolean isHit(BitSet slots, Place place, int size) {
    int reach = size + place.steps().stream().mapToInt(step -> (int) (step.high() - step.low()) * step.stride()).sum();
    int next = slots.nextSetBit(place.offset());
    return next >= 0 && next < place.offset() + reach;
  }
}
