package dev.pawl.cli.archive;

import org.objectweb.asm.MethodVisitor;
import org.objectweb.asm.Opcodes;
import org.objectweb.asm.Type;

/** Primitive types and the classes that hold their values. */
final class Boxes {

  private Boxes() {}

  static boolean isReference(Type type) {
    return type.getSort() >= Type.ARRAY;
  }

  /** The internal name of the class that holds values of a primitive type. */
  static String of(Type primitive) {
    return switch (primitive.getSort()) {
      case Type.BOOLEAN -> "java/lang/Boolean";
      case Type.BYTE -> "java/lang/Byte";
      case Type.CHAR -> "java/lang/Character";
      case Type.SHORT -> "java/lang/Short";
      case Type.INT -> "java/lang/Integer";
      case Type.LONG -> "java/lang/Long";
      case Type.FLOAT -> "java/lang/Float";
      default -> "java/lang/Double";
    };
  }

  /** Writes the code that puts the value on the stack into its box. */
  static void box(MethodVisitor code, Type primitive) {
    code.visitMethodInsn(Opcodes.INVOKESTATIC, of(primitive), "valueOf", "(" + primitive + ")L" + of(primitive) + ";", false);
  }

  /** Writes the code that takes the value out of the box on the stack. */
  static void unbox(MethodVisitor code, Type primitive) {
    code.visitTypeInsn(Opcodes.CHECKCAST, of(primitive));
    code.visitMethodInsn(Opcodes.INVOKEVIRTUAL, of(primitive), primitive.getClassName() + "Value", "()" + primitive, false);
  }
}
