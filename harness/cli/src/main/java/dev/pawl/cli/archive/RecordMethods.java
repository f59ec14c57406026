package dev.pawl.cli.archive;

import java.util.ArrayList;
import java.util.List;
import org.objectweb.asm.ClassReader;
import org.objectweb.asm.ClassVisitor;
import org.objectweb.asm.ClassWriter;
import org.objectweb.asm.Handle;
import org.objectweb.asm.Label;
import org.objectweb.asm.MethodVisitor;
import org.objectweb.asm.Opcodes;
import org.objectweb.asm.Type;

/**
 * Writes out {@code equals} and {@code hashCode} of records as plain code that does the same. As they are compiled, Java makes them up anew in every
 * run when they are first called, one and a half milliseconds each, and takes them into no class archive.
 */
final class RecordMethods extends ClassVisitor {

  private static final String MAKER = "java/lang/runtime/ObjectMethods";
  private static final String OBJECTS = "java/util/Objects";

  private final List<Runnable> wanted = new ArrayList<>();
  private String owner;

  private RecordMethods(ClassVisitor next) {
    super(Opcodes.ASM9, next);
  }

  /** A class with these methods written out; the same array if it is no record, or has them written out already. */
  static byte[] writtenOut(byte[] bytes) {
    ClassReader reader = new ClassReader(bytes);
    if (!"java/lang/Record".equals(reader.getSuperName())) {
      return bytes;
    }
    ClassWriter writer = new ClassWriter(ClassWriter.COMPUTE_MAXS);
    RecordMethods methods = new RecordMethods(writer);
    reader.accept(methods, 0);
    return methods.wanted.isEmpty() ? bytes : writer.toByteArray();
  }

  @Override
  public void visit(int version, int access, String name, String signature, String parent, String[] interfaces) {
    owner = name;
    super.visit(version, access, name, signature, parent, interfaces);
  }

  @Override
  public MethodVisitor visitMethod(int access, String name, String descriptor, String signature, String[] exceptions) {
    return new MethodVisitor(Opcodes.ASM9, super.visitMethod(access, name, descriptor, signature, exceptions)) {
      @Override
      public void visitInvokeDynamicInsn(String called, String shape, Handle bootstrap, Object... arguments) {
        if (bootstrap.getOwner().equals(MAKER) && !called.equals("toString")) {
          String plain = "plain$" + called;
          visitMethodInsn(Opcodes.INVOKESTATIC, owner, plain, shape, false);
          wanted.add(() -> write(plain, shape, called.equals("equals"), arguments));
        } else {
          super.visitInvokeDynamicInsn(called, shape, bootstrap, arguments);
        }
      }
    };
  }

  @Override
  public void visitEnd() {
    wanted.forEach(Runnable::run);
    super.visitEnd();
  }

  /** The arguments are the record's class, the names of its components, and a handle of each one's field. */
  private void write(String name, String shape, boolean equality, Object[] arguments) {
    MethodVisitor method = cv.visitMethod(Opcodes.ACC_PRIVATE | Opcodes.ACC_STATIC | Opcodes.ACC_SYNTHETIC, name, shape, null, null);
    List<Handle> fields = new ArrayList<>();
    for (int i = 2; i < arguments.length; i++) {
      fields.add((Handle) arguments[i]);
    }
    method.visitCode();
    if (equality) {
      writeEquals(method, fields);
    } else {
      writeHashCode(method, fields);
    }
    method.visitMaxs(0, 0);
    method.visitEnd();
  }

  private void writeHashCode(MethodVisitor method, List<Handle> fields) {
    method.visitInsn(Opcodes.ICONST_0);
    for (Handle field : fields) {
      Type type = Type.getType(field.getDesc());
      method.visitIntInsn(Opcodes.BIPUSH, 31);
      method.visitInsn(Opcodes.IMUL);
      load(method, 0, field);
      if (Boxes.isReference(type)) {
        method.visitMethodInsn(Opcodes.INVOKESTATIC, OBJECTS, "hashCode", "(Ljava/lang/Object;)I", false);
      } else {
        method.visitMethodInsn(Opcodes.INVOKESTATIC, Boxes.of(type), "hashCode", "(" + type.getDescriptor() + ")I", false);
      }
      method.visitInsn(Opcodes.IADD);
    }
    method.visitInsn(Opcodes.IRETURN);
  }

  private void writeEquals(MethodVisitor method, List<Handle> fields) {
    Label other = new Label();
    Label different = new Label();
    method.visitVarInsn(Opcodes.ALOAD, 0);
    method.visitVarInsn(Opcodes.ALOAD, 1);
    method.visitJumpInsn(Opcodes.IF_ACMPNE, other);
    method.visitInsn(Opcodes.ICONST_1);
    method.visitInsn(Opcodes.IRETURN);
    label(method, other);
    method.visitVarInsn(Opcodes.ALOAD, 1);
    method.visitTypeInsn(Opcodes.INSTANCEOF, owner);
    method.visitJumpInsn(Opcodes.IFEQ, different);
    for (Handle field : fields) {
      Type type = Type.getType(field.getDesc());
      load(method, 0, field);
      load(method, 1, field);
      if (Boxes.isReference(type)) {
        method.visitMethodInsn(Opcodes.INVOKESTATIC, OBJECTS, "equals", "(Ljava/lang/Object;Ljava/lang/Object;)Z", false);
        method.visitJumpInsn(Opcodes.IFEQ, different);
      } else {
        String both = "(" + type.getDescriptor() + type.getDescriptor() + ")I";
        method.visitMethodInsn(Opcodes.INVOKESTATIC, Boxes.of(type), "compare", both, false);
        method.visitJumpInsn(Opcodes.IFNE, different);
      }
    }
    method.visitInsn(Opcodes.ICONST_1);
    method.visitInsn(Opcodes.IRETURN);
    label(method, different);
    method.visitInsn(Opcodes.ICONST_0);
    method.visitInsn(Opcodes.IRETURN);
  }

  private static void label(MethodVisitor method, Label label) {
    method.visitLabel(label);
    method.visitFrame(Opcodes.F_SAME, 0, null, 0, null);
  }

  private void load(MethodVisitor method, int variable, Handle field) {
    method.visitVarInsn(Opcodes.ALOAD, variable);
    if (variable == 1) {
      method.visitTypeInsn(Opcodes.CHECKCAST, owner);
    }
    method.visitFieldInsn(Opcodes.GETFIELD, owner, field.getName(), field.getDesc());
  }
}
