package dev.pawl.cli.archive;

import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import org.objectweb.asm.ClassReader;
import org.objectweb.asm.ClassVisitor;
import org.objectweb.asm.Handle;
import org.objectweb.asm.MethodVisitor;
import org.objectweb.asm.Opcodes;

/** Classes of this package as they were compiled, and what Java makes up at run time for them. */
final class Compiled {

  private Compiled() {}

  /** A class by its name without the package. */
  static byte[] named(String name) throws IOException {
    try (InputStream in = Compiled.class.getResourceAsStream(name + ".class")) {
      return in.readAllBytes();
    }
  }

  /** What is made up for a class, one entry for each place: the method that it is in, and the name of what is made up. */
  static List<String> madeUp(byte[] type) {
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
