package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.CheckedProgram.Symbol;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.Unit;
import dev.pawl.grammar.logic.model.Variable;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** The list of single values that can be seen from outside. */
final class SymbolTable {

  /** Elements of an array that are listed; larger arrays are left out. */
  private static final int LARGEST_ARRAY = 1024;

  private final Map<String, Symbol> symbols = new HashMap<>();

  private final Overlaps overlaps;

  private SymbolTable(Overlaps overlaps) {
    this.overlaps = overlaps;
  }

  static Map<String, Symbol> of(List<Unit> units, List<Variable> globals, Map<String, List<Variable>> ofResources,
      Overlaps overlaps) {
    SymbolTable table = new SymbolTable(overlaps);
    globals.forEach(variable -> table.add(variable.name(), variable, variable.type(), variable.offset()));
    ofResources.forEach((resource, variables) -> variables.forEach(variable ->
        table.add(resource + "." + variable.name(), variable, variable.type(), variable.offset())));
    units.stream().filter(unit -> unit.kind() == Unit.Kind.PROGRAM).forEach(unit -> unit.variables().stream()
        .filter(variable -> variable.name().indexOf(' ') < 0).forEach(variable -> table.add(unit.name() + "."
        + variable.name(), variable, variable.type(), variable.offset())));
    return table.symbols;
  }

  private void add(String path, Variable variable, LogicType type, int address) {
    type.match(scalar -> {
      Symbol symbol = overlaps.of(variable).map(shared -> new Symbol(path, type, shared.wide().offset(),
          shared.shift(), ConstantFolder.mask(shared.type()), variable.role(), variable.address()))
          .orElseGet(() -> new Symbol(path, type, address, 0, -1, variable.role(), variable.address()));
      return symbols.putIfAbsent(path.toUpperCase(Locale.ROOT), symbol);
    }, array -> {
      for (int i = 0; array.bounds().size() == 1 && array.elements() <= LARGEST_ARRAY && i < array.elements(); i++) {
        add(path + "[" + (array.bounds().get(0).low() + i) + "]", variable, array.element(), address
            + i * array.element().size());
      }
      return null;
    }, structure -> {
      structure.fields().forEach(field -> add(path + "." + field.name(), variable, field.type(), address
          + field.offset()));
      return null;
    }, block -> {
      block.variables().stream().filter(inner -> inner.role() != Variable.Role.IN_OUT && inner.name().indexOf(' ') < 0)
          .forEach(inner -> add(path + "." + inner.name(), inner, inner.type(), address + inner.offset()));
      return null;
    });
  }
}
