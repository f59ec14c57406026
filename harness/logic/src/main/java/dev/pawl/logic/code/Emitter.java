package dev.pawl.logic.code;

import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.logic.runtime.Checks;
import dev.pawl.logic.runtime.LogicMemory;
import org.objectweb.asm.Label;
import org.objectweb.asm.MethodVisitor;
import org.objectweb.asm.Opcodes;
import org.objectweb.asm.Type;

/**
 * One method being written. Its parameters are the memory, the memory's words and, in function blocks, the address of
 * the instance.
 */
final class Emitter {

  static final String MEMORY = Type.getInternalName(LogicMemory.class);
  static final String CHECKS = Type.getInternalName(Checks.class);
  static final String WORDS = "[J";

  private static final int MEMORY_LOCAL = 0;
  private static final int WORDS_LOCAL = 1;
  private static final int INSTANCE_LOCAL = 2;

  private final MethodVisitor code;
  private final boolean instance;
  private int nextLocal;
  private int line;

  Emitter(MethodVisitor code, boolean instance) {
    this.code = code;
    this.instance = instance;
    this.nextLocal = instance ? 3 : 2;
    code.visitCode();
  }

  static String descriptor(boolean instance) {
    return instance ? "(L" + MEMORY + ";" + WORDS + "I)I" : "(L" + MEMORY + ";" + WORDS + ")I";
  }

  /** How a value of a type is passed: J for words, D for reals, a string otherwise. */
  static char shape(LogicType type) {
    if (type instanceof LogicType.StringType) {
      return 'S';
    }
    return type.stored().filter(Elementary::isReal).isPresent() ? 'D' : 'J';
  }

  static String descriptorOf(char shape) {
    return shape == 'S' ? "Ljava/lang/String;" : String.valueOf(shape);
  }

  MethodVisitor code() {
    return code;
  }

  void line(int number) {
    if (number > 0 && number != line && number < 65_536) {
      line = number;
      Label here = new Label();
      code.visitLabel(here);
      code.visitLineNumber(number, here);
    }
  }

  void op(int opcode) {
    code.visitInsn(opcode);
  }

  void jump(int opcode, Label target) {
    code.visitJumpInsn(opcode, target);
  }

  void label(Label label) {
    code.visitLabel(label);
  }

  void memory() {
    code.visitVarInsn(Opcodes.ALOAD, MEMORY_LOCAL);
  }

  void words() {
    code.visitVarInsn(Opcodes.ALOAD, WORDS_LOCAL);
  }

  void texts() {
    memory();
    code.visitFieldInsn(Opcodes.GETFIELD, MEMORY, "texts", "[Ljava/lang/String;");
  }

  void instance() {
    code.visitVarInsn(Opcodes.ILOAD, INSTANCE_LOCAL);
  }

  /** The parameters of this method, for a call of another method of the same unit. */
  void ownParameters() {
    memory();
    words();
    if (instance) {
      instance();
    }
  }

  int local(int slots) {
    int index = nextLocal;
    nextLocal += slots;
    return index;
  }

  void load(int opcode, int local) {
    code.visitVarInsn(opcode, local);
  }

  void number(int value) {
    if (value >= -1 && value <= 5) {
      op(Opcodes.ICONST_0 + value);
    } else if (value >= Byte.MIN_VALUE && value <= Byte.MAX_VALUE) {
      code.visitIntInsn(Opcodes.BIPUSH, value);
    } else if (value >= Short.MIN_VALUE && value <= Short.MAX_VALUE) {
      code.visitIntInsn(Opcodes.SIPUSH, value);
    } else {
      code.visitLdcInsn(value);
    }
  }

  void word(long value) {
    if (value == 0 || value == 1) {
      op(value == 0 ? Opcodes.LCONST_0 : Opcodes.LCONST_1);
    } else {
      code.visitLdcInsn(value);
    }
  }

  void real(double value) {
    code.visitLdcInsn(value);
  }

  void call(String owner, String name, String descriptor) {
    code.visitMethodInsn(Opcodes.INVOKESTATIC, owner, name, descriptor, false);
  }

  void check(String name, String descriptor) {
    call(CHECKS, name, descriptor);
  }

  void memoryCall(String name, String descriptor) {
    code.visitMethodInsn(Opcodes.INVOKEVIRTUAL, MEMORY, name, descriptor, false);
  }

  /** Pays for statements out of the watchdog's budget. */
  void spend(int statements) {
    memory();
    number(statements);
    memoryCall("spend", "(I)V");
  }

  /** Ends the method. */
  void finish() {
    code.visitMaxs(0, 0);
    code.visitEnd();
  }
}
