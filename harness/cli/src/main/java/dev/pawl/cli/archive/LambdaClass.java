package dev.pawl.cli.archive;

import org.objectweb.asm.ClassVisitor;
import org.objectweb.asm.ClassWriter;
import org.objectweb.asm.Handle;
import org.objectweb.asm.MethodVisitor;
import org.objectweb.asm.Opcodes;
import org.objectweb.asm.Type;

/**
 * A lambda expression, or the name of a method in its place, as a class: it holds what the expression has captured, and its one method hands that and its own
 * arguments to the method with the expression's code.
 *
 * @param name internal name of the class to be
 * @param method name of the interface's method
 * @param factory what is captured, and the interface
 * @param erased the interface's method as it is compiled
 * @param used the same with the types that it has in this place
 * @param code what is to be called
 */
record LambdaClass(String name, String method, Type factory, Type erased, Type used, Handle code) {

  private static final String ONLY = "ONLY";
  private static final String MAKE = "make";
  private static final int KEPT = Opcodes.ACC_PRIVATE | Opcodes.ACC_FINAL;

  /** Whether each argument and the result can be handed on as they are, by a cast, or in or out of their box; nothing is widened. */
  boolean isPlain() {
    Type[] given = used.getArgumentTypes();
    Type[] wanted = wanted();
    int captured = captured().length;
    boolean plain = !code.getOwner().startsWith("[") && wanted.length == captured + given.length;
    for (int i = 0; plain && i < given.length; i++) {
      plain = isPlain(given[i], wanted[captured + i]);
    }
    return plain && (erased.getReturnType() == Type.VOID_TYPE || isPlain(result(), used.getReturnType()));
  }

  private static boolean isPlain(Type from, Type to) {
    if (Boxes.isReference(to)) {
      return true;
    }
    return Boxes.isReference(from) ? from.getInternalName().equals(Boxes.of(to)) : from.equals(to);
  }

  private Type[] captured() {
    return factory.getArgumentTypes();
  }

  /** What is to be called takes: the object that it is called on, if any, and its arguments. */
  private Type[] wanted() {
    Type[] arguments = Type.getArgumentTypes(code.getDesc());
    if (code.getTag() == Opcodes.H_INVOKESTATIC || code.getTag() == Opcodes.H_NEWINVOKESPECIAL) {
      return arguments;
    }
    Type[] all = new Type[arguments.length + 1];
    all[0] = Type.getObjectType(code.getOwner());
    System.arraycopy(arguments, 0, all, 1, arguments.length);
    return all;
  }

  private Type result() {
    return code.getTag() == Opcodes.H_NEWINVOKESPECIAL ? Type.getObjectType(code.getOwner()) : Type.getReturnType(code.getDesc());
  }

  /** Writes what takes the captured values from the stack and leaves the lambda there. */
  void writeUse(MethodVisitor user) {
    String type = "L" + name + ";";
    if (captured().length == 0) {
      user.visitFieldInsn(Opcodes.GETSTATIC, name, ONLY, type);
    } else {
      user.visitMethodInsn(Opcodes.INVOKESTATIC, name, MAKE, Type.getMethodDescriptor(Type.getType(type), captured()), false);
    }
  }

  /** The class, as a member of its user's nest, so that it may call what is private there. */
  byte[] written(String nest) {
    ClassWriter writer = new ClassWriter(ClassWriter.COMPUTE_MAXS);
    writer.visit(Opcodes.V17, Opcodes.ACC_FINAL | Opcodes.ACC_SUPER | Opcodes.ACC_SYNTHETIC, name, null, "java/lang/Object",
        new String[] {factory.getReturnType().getInternalName()});
    writer.visitNestHost(nest);
    for (int i = 0; i < captured().length; i++) {
      writer.visitField(KEPT, field(i), captured()[i].getDescriptor(), null, null).visitEnd();
    }
    writeConstructor(writer);
    writeMaking(writer);
    writeMethod(writer);
    writer.visitEnd();
    return writer.toByteArray();
  }

  private static String field(int number) {
    return "captured" + number;
  }

  private String constructor() {
    return Type.getMethodDescriptor(Type.VOID_TYPE, captured());
  }

  private void writeConstructor(ClassVisitor writer) {
    MethodVisitor code = writer.visitMethod(Opcodes.ACC_PRIVATE, "<init>", constructor(), null, null);
    code.visitCode();
    code.visitVarInsn(Opcodes.ALOAD, 0);
    code.visitMethodInsn(Opcodes.INVOKESPECIAL, "java/lang/Object", "<init>", "()V", false);
    int variable = 1;
    for (int i = 0; i < captured().length; i++) {
      code.visitVarInsn(Opcodes.ALOAD, 0);
      code.visitVarInsn(captured()[i].getOpcode(Opcodes.ILOAD), variable);
      code.visitFieldInsn(Opcodes.PUTFIELD, name, field(i), captured()[i].getDescriptor());
      variable += captured()[i].getSize();
    }
    end(code, Type.VOID_TYPE);
  }

  /** The one object of a class that captures nothing, or the method that makes an object. */
  private void writeMaking(ClassVisitor writer) {
    Type type = Type.getObjectType(name);
    boolean single = captured().length == 0;
    if (single) {
      writer.visitField(Opcodes.ACC_STATIC | Opcodes.ACC_FINAL, ONLY, type.getDescriptor(), null, null).visitEnd();
    }
    String shape = single ? "()V" : Type.getMethodDescriptor(type, captured());
    MethodVisitor code = writer.visitMethod(Opcodes.ACC_STATIC, single ? "<clinit>" : MAKE, shape, null, null);
    code.visitCode();
    code.visitTypeInsn(Opcodes.NEW, name);
    code.visitInsn(Opcodes.DUP);
    int variable = 0;
    for (Type captured : captured()) {
      code.visitVarInsn(captured.getOpcode(Opcodes.ILOAD), variable);
      variable += captured.getSize();
    }
    code.visitMethodInsn(Opcodes.INVOKESPECIAL, name, "<init>", constructor(), false);
    if (single) {
      code.visitFieldInsn(Opcodes.PUTSTATIC, name, ONLY, type.getDescriptor());
    }
    end(code, single ? Type.VOID_TYPE : type);
  }

  private void writeMethod(ClassVisitor writer) {
    MethodVisitor body = writer.visitMethod(Opcodes.ACC_PUBLIC, method, erased.getDescriptor(), null, null);
    body.visitCode();
    if (code.getTag() == Opcodes.H_NEWINVOKESPECIAL) {
      body.visitTypeInsn(Opcodes.NEW, code.getOwner());
      body.visitInsn(Opcodes.DUP);
    }
    Type[] captured = captured();
    for (int i = 0; i < captured.length; i++) {
      body.visitVarInsn(Opcodes.ALOAD, 0);
      body.visitFieldInsn(Opcodes.GETFIELD, name, field(i), captured[i].getDescriptor());
    }
    Type[] wanted = wanted();
    Type[] given = erased.getArgumentTypes();
    int variable = 1;
    for (int i = 0; i < given.length; i++) {
      body.visitVarInsn(given[i].getOpcode(Opcodes.ILOAD), variable);
      convert(body, given[i], wanted[captured.length + i]);
      variable += given[i].getSize();
    }
    body.visitMethodInsn(instruction(), code.getOwner(), code.getName(), code.getDesc(), code.isInterface());
    if (erased.getReturnType() != Type.VOID_TYPE) {
      convert(body, result(), erased.getReturnType());
    } else if (result().getSize() > 0) {
      body.visitInsn(result().getSize() == 2 ? Opcodes.POP2 : Opcodes.POP);
    }
    end(body, erased.getReturnType());
  }

  private int instruction() {
    return switch (code.getTag()) {
      case Opcodes.H_INVOKESTATIC -> Opcodes.INVOKESTATIC;
      case Opcodes.H_NEWINVOKESPECIAL -> Opcodes.INVOKESPECIAL;
      default -> code.isInterface() ? Opcodes.INVOKEINTERFACE : Opcodes.INVOKEVIRTUAL;
    };
  }

  private static void convert(MethodVisitor body, Type from, Type to) {
    if (Boxes.isReference(from) && !Boxes.isReference(to)) {
      Boxes.unbox(body, to);
    } else if (!Boxes.isReference(from) && Boxes.isReference(to)) {
      Boxes.box(body, from);
    } else if (!from.equals(to) && !to.getInternalName().equals("java/lang/Object")) {
      body.visitTypeInsn(Opcodes.CHECKCAST, to.getInternalName());
    }
  }

  private static void end(MethodVisitor code, Type result) {
    code.visitInsn(result.getOpcode(Opcodes.IRETURN));
    code.visitMaxs(0, 0);
    code.visitEnd();
  }
}
