package dev.pawl.cli.archive;

import java.util.ArrayList;
import java.util.List;
import org.objectweb.asm.ClassReader;
import org.objectweb.asm.ClassVisitor;
import org.objectweb.asm.Handle;
import org.objectweb.asm.MethodVisitor;
import org.objectweb.asm.Opcodes;

/** What Java makes up at run time for a class. */
final class MadeUp {

  private MadeUp() {}

  /** One entry for each place: the method that it is in, and the name of what is made up. */
  static List<String> by(byte[] type) {
    List<String> found = new ArrayList<>();
    new ClassReader(type).accept(new ClassVisitor(Opcodes.ASM9) {
      @Override
      public MethodVisitor visitMethod(int access, String method, String descriptor, String signature, String[] exceptions) {
        return new MethodVisitor(Opcodes.ASM9) {
          @Override
          public void visitInvokeDynamicInsn(String name, String shape, Handle bootstrap, Object... arguments) {
            found.add(method + " " + name);
          }
        };
      }
    }, 0);
    return found;
  }
}
