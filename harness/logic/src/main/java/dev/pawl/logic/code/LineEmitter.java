package dev.pawl.logic.code;

import dev.pawl.grammar.logic.model.Value;
import dev.pawl.logic.runtime.LineResults;
import java.util.Map;
import org.objectweb.asm.Label;
import org.objectweb.asm.Opcodes;
import org.objectweb.asm.Type;

/** The writer of what notes whether watched lines run and what they come to. For other lines it writes nothing. */
final class LineEmitter {

  private static final String RESULTS = Type.getInternalName(LineResults.class);
  private static final String LAST = "IL" + Emitter.MEMORY + ";)V";

  private final Map<Integer, Integer> numbers;

  /**
   * For the statements of one file.
   *
   * @param numbers the number of each watched line
   */
  LineEmitter(Map<Integer, Integer> numbers) {
    this.numbers = numbers;
  }

  /** Notes that the line runs. */
  void run(Emitter out, int line) {
    note(out, line, "run", "(");
  }

  /** Notes the value on top of the stack, which stays there. */
  void give(Emitter out, char shape, int line) {
    if (numbers.containsKey(line)) {
      out.op(shape == 'S' ? Opcodes.DUP : Opcodes.DUP2);
      if (shape == 'D') {
        out.call("java/lang/Double", "doubleToLongBits", "(D)J");
      } else if (shape == 'S') {
        out.code().visitMethodInsn(Opcodes.INVOKEVIRTUAL, "java/lang/String", "hashCode", "()I", false);
        out.op(Opcodes.I2L);
      }
      note(out, line, "give", "(J");
    }
  }

  /** Notes the words in some locals. */
  void give(Emitter out, int[] locals, int line) {
    if (numbers.containsKey(line)) {
      for (int local : locals) {
        out.load(Opcodes.LLOAD, local);
        note(out, line, "give", "(J");
      }
    }
  }

  /** Notes the slots from the address in a local on. */
  void giveAll(Emitter out, int local, int size, int line) {
    if (numbers.containsKey(line)) {
      out.load(Opcodes.ILOAD, local);
      out.number(size);
      note(out, line, "giveAll", "(II");
    }
  }

  private void note(Emitter out, int line, String routine, String first) {
    Integer number = numbers.get(line);
    if (number != null) {
      out.number(number);
      out.memory();
      out.call(RESULTS, routine, first + LAST);
    }
  }

  /** Writes a jump where a condition is false, and notes what it came to. */
  void decision(Emitter out, ValueEmitter values, Value condition, int line, Label otherwise) {
    if (!numbers.containsKey(line)) {
      values.jump(out, condition, false, otherwise);
      return;
    }
    values.emit(out, condition);
    give(out, 'J', line);
    out.op(Opcodes.L2I);
    out.jump(Opcodes.IFEQ, otherwise);
  }
}
