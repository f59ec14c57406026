package dev.pawl.cli.archive;

import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import org.objectweb.asm.ClassReader;
import org.objectweb.asm.ClassVisitor;
import org.objectweb.asm.ClassWriter;
import org.objectweb.asm.Handle;
import org.objectweb.asm.MethodVisitor;
import org.objectweb.asm.Opcodes;
import org.objectweb.asm.Type;

/**
 * Writes the lambda expressions of classes out as classes of their own that do the same. As they are compiled, Java makes each up when it is first come past. The
 * archive holds what is made up, but linking it to its place takes up to a tenth of a millisecond still, and a start comes past some two hundred.
 */
final class LambdaClasses {

  private static final String MAKER = "java/lang/invoke/LambdaMetafactory";

  private final Map<String, byte[]> made = new HashMap<>();
  /** By the class at the head of a nest: further members. */
  private final Map<String, Set<String>> nests = new HashMap<>();

  /** A class without lambda expressions but such as cannot be written out; the same array if there is nothing to write out. */
  byte[] writtenOut(byte[] bytes) {
    ClassReader reader = new ClassReader(bytes);
    ClassWriter writer = new ClassWriter(reader, 0);
    Rewriting rewriting = new Rewriting(writer);
    reader.accept(rewriting, 0);
    return rewriting.count == 0 ? bytes : writer.toByteArray();
  }

  /** The class files that have been made, by internal name. */
  Map<String, byte[]> made() {
    return made;
  }

  /** A class that states its new members, if it is at the head of a nest that has any. To be called when all are made. */
  byte[] asHead(byte[] bytes) {
    ClassReader reader = new ClassReader(bytes);
    Set<String> members = nests.get(reader.getClassName());
    if (members == null) {
      return bytes;
    }
    ClassWriter writer = new ClassWriter(reader, 0);
    reader.accept(new ClassVisitor(Opcodes.ASM9, writer) {
      @Override
      public void visitEnd() {
        members.stream().sorted().forEach(this::visitNestMember);
        super.visitEnd();
      }
    }, 0);
    return writer.toByteArray();
  }

  /** One class on its way. */
  private final class Rewriting extends ClassVisitor {
    private String name;
    private String nest;
    private int count;

    Rewriting(ClassVisitor next) {
      super(Opcodes.ASM9, next);
    }

    @Override
    public void visit(int version, int access, String itself, String signature, String parent, String[] interfaces) {
      name = itself;
      nest = itself;
      super.visit(version, access, itself, signature, parent, interfaces);
    }

    @Override
    public void visitNestHost(String host) {
      nest = host;
      super.visitNestHost(host);
    }

    @Override
    public MethodVisitor visitMethod(int access, String method, String descriptor, String signature, String[] exceptions) {
      return new MethodVisitor(Opcodes.ASM9, super.visitMethod(access, method, descriptor, signature, exceptions)) {
        @Override
        public void visitInvokeDynamicInsn(String called, String factory, Handle bootstrap, Object... arguments) {
          if (!bootstrap.getOwner().equals(MAKER) || !bootstrap.getName().equals("metafactory") || !writesOut(this, called, factory, arguments)) {
            super.visitInvokeDynamicInsn(called, factory, bootstrap, arguments);
          }
        }
      };
    }

    private boolean writesOut(MethodVisitor user, String method, String factory, Object... arguments) {
      LambdaClass lambda = new LambdaClass(name + "$Fn" + count, method, Type.getMethodType(factory), (Type) arguments[0],
          (Type) arguments[2], (Handle) arguments[1]);
      if (!lambda.isPlain()) {
        return false;
      }
      count++;
      made.put(lambda.name(), lambda.written(nest));
      nests.computeIfAbsent(nest, head -> new HashSet<>()).add(lambda.name());
      lambda.writeUse(user);
      return true;
    }
  }
}
