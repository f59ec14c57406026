package dev.pawl.logic.code;

import dev.pawl.grammar.logic.model.Place;
import dev.pawl.grammar.logic.model.Step;
import java.util.BitSet;
import org.objectweb.asm.Opcodes;

/** The writer of what changes memory: values into their places, and who put them there. */
final class StoreEmitter {

  private final ValueEmitter values;
  private final BitSet recorded;
  private final int file;
  private final LineEmitter lines;

  /**
   * For the statements of one file.
   *
   * @param recorded the slots whose writers are recorded
   */
  StoreEmitter(ValueEmitter values, BitSet recorded, int file, LineEmitter lines) {
    this.lines = lines;
    this.values = values;
    this.recorded = recorded;
    this.file = file;
  }

  /** Writes an assignment. */
  void assign(Emitter out, Step.Assign assign) {
    char shape = Emitter.shape(assign.target().type());
    int address = place(out, assign.target(), shape);
    values.emit(out, assign.value());
    lines.give(out, shape, assign.position().line());
    store(out, shape);
    record(out, assign.target(), address, 1, assign.position().line());
  }

  /**
   * Leaves array and address of a place on the stack; keeps an address that is not fixed in a local, whose number is
   * returned.
   */
  int place(Emitter out, Place place, char shape) {
    if (shape == 'S') {
      out.texts();
    } else {
      out.words();
    }
    values.address(out, place);
    if (place.isStatic() || !mayRecord(place, 1)) {
      return -1;
    }
    int local = out.local(1);
    out.op(Opcodes.DUP);
    out.load(Opcodes.ISTORE, local);
    return local;
  }

  /** Writes the storing of the value on the stack into the place below it. */
  static void store(Emitter out, char shape) {
    if (shape == 'D') {
      out.call("java/lang/Double", "doubleToRawLongBits", "(D)J");
    }
    out.op(shape == 'S' ? Opcodes.AASTORE : Opcodes.LASTORE);
  }

  /** Whether a write could hit a slot whose writers are recorded. */
  private boolean mayRecord(Place place, int size) {
    return place.anchor().match(fixed -> {
      int reach = size + place.steps().stream().mapToInt(step -> (int) (step.high() - step.low()) * step.stride())
          .sum();
      int next = recorded.nextSetBit(place.offset());
      return next >= 0 && next < place.offset() + reach;
    }, instance -> false, pointer -> !recorded.isEmpty());
  }

  /** Writes the noting of who wrote a place, where somebody wants to know. */
  void record(Emitter out, Place place, int local, int size, int line) {
    if (!mayRecord(place, size)) {
      return;
    }
    int writer = file << 24 | line & 0xFFFFFF;
    out.memory();
    if (size == 1) {
      out.code().visitFieldInsn(Opcodes.GETFIELD, Emitter.MEMORY, "writers", "[I");
    }
    if (local >= 0) {
      out.load(Opcodes.ILOAD, local);
    } else {
      out.number(place.offset());
    }
    if (size == 1) {
      out.number(writer);
      out.op(Opcodes.IASTORE);
    } else {
      out.number(size);
      out.number(writer);
      out.memoryCall("wrote", "(III)V");
    }
  }

  /** Writes the copying of a value of several slots. */
  void copy(Emitter out, Step.Copy copy) {
    int target = out.local(1);
    values.address(out, copy.target());
    out.load(Opcodes.ISTORE, target);
    out.memory();
    out.load(Opcodes.ILOAD, target);
    values.address(out, copy.source());
    out.number(copy.target().type().size());
    out.memoryCall("copy", "(III)V");
    lines.giveAll(out, target, copy.target().type().size(), copy.position().line());
    record(out, copy.target(), target, copy.target().type().size(), copy.position().line());
  }

  /** Writes an assignment to some bits of a slot. */
  void part(Emitter out, Step.AssignPart part) {
    long mask = part.width() == 64 ? -1L : (1L << part.width()) - 1;
    int address = place(out, part.target(), 'J');
    out.op(Opcodes.DUP2);
    out.op(Opcodes.LALOAD);
    out.word(~(mask << part.shift()));
    out.op(Opcodes.LAND);
    values.emit(out, part.value());
    lines.give(out, 'J', part.position().line());
    out.number(part.shift());
    out.op(Opcodes.LSHL);
    out.op(Opcodes.LOR);
    out.op(Opcodes.LASTORE);
    record(out, part.target(), address, 1, part.position().line());
  }

  /** Writes the noting of which variable a parameter stands for. */
  void bind(Emitter out, Step.Bind bind) {
    out.words();
    values.address(out, bind.slot());
    values.address(out, bind.target());
    out.op(Opcodes.I2L);
    out.op(Opcodes.LASTORE);
  }
}
