package dev.pawl.grammar.logic.model;

import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * A program without errors.
 *
 * @param units all units by index; each instance of a program is a unit of its own
 * @param tasks which of them run, and when; the most urgent first, and else as declared
 * @param globals global and located variables
 * @param symbols elementary and string variables that can be seen from outside, by {@code NAME} for globals,
 *     {@code RESOURCE.NAME} for those of one of several resources, and
 * {@code PROGRAM.NAME} for variables of programs, parts as {@code PROGRAM.TIMER.ET} and {@code PROGRAM.TABLE[3]}, all
 * in
 *     upper case
 * @param image first values of the whole memory
 * @param retained slots that survive a warm restart
 * @param files names of the sources, by which lines are told apart
 */
public record CheckedProgram(List<Unit> units, List<Task> tasks, List<Variable> globals, Map<String, Symbol> symbols,
    Image image, BitSet retained, List<String> files) {

  public CheckedProgram {
    units = List.copyOf(units);
    tasks = List.copyOf(tasks);
    globals = List.copyOf(globals);
    symbols = Map.copyOf(symbols);
    files = List.copyOf(files);
  }

  /**
   * A single value that can be seen from outside.
   *
   * @param path as declared, such as {@code Ride.idle_timer.ET}
   * @param type its type
   * @param address its slot
   * @param shift its first bit in the slot, where it is a part of another variable; else 0
   * @param mask its bits in the slot, shifted down; all of them where the slot is its own
   * @param role the role of the variable it is or is part of
   * @param located located address in upper case, or the empty string
   */
  public record Symbol(String path, LogicType type, int address, int shift, long mask, Variable.Role role,
      String located) {

    /** Its word out of that of the slot. */
    public long of(long slot) {
      return slot >>> shift & mask;
    }

    /** The word of the slot with this in it. */
    public long into(long slot, long word) {
      return slot & ~(mask << shift) | (word & mask) << shift;
    }
  }

  /** The programs, as declared. */
  public List<Unit> programs() {
    return units.stream().filter(unit -> unit.kind() == Unit.Kind.PROGRAM).toList();
  }

  /**
   * The value of that path or at that address; a variable of a program is also found by its bare name, the first
   * program first.
   */
  public Optional<Symbol> symbol(String path) {
    String key = path.toUpperCase(Locale.ROOT);
    Symbol exact = symbols.get(key);
    if (exact != null) {
      return Optional.of(exact);
    }
    if (key.startsWith("%")) {
      String sized = key.matches("%[IQM][0-9].*") ? key.substring(0, 2) + "X" + key.substring(2) : key;
      return symbols.values().stream().filter(symbol -> symbol.located().equals(sized))
          .min(Comparator.comparing(Symbol::path));
    }
    return programs().stream().map(unit -> symbols.get(unit.name().toUpperCase(Locale.ROOT) + "." + key))
        .filter(symbol -> symbol != null).findFirst();
  }
}
