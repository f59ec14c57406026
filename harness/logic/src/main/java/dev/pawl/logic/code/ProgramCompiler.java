package dev.pawl.logic.code;

import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.grammar.logic.model.Unit;
import java.lang.reflect.InvocationTargetException;
import java.util.BitSet;
import java.util.HashMap;
import java.util.Map;
import java.util.stream.Stream;
import org.objectweb.asm.ClassTooLargeException;
import org.objectweb.asm.ClassWriter;
import org.objectweb.asm.Label;
import org.objectweb.asm.MethodTooLargeException;
import org.objectweb.asm.MethodVisitor;
import org.objectweb.asm.Opcodes;
import org.objectweb.asm.Type;

/** The compiler from checked programs to code of the JVM. */
public final class ProgramCompiler {

  private static final String ENTRY = UnitCode.PACKAGE + "Entry";

  private ProgramCompiler() {}

  /** A program that no class file has room for. */
  public static final class TooLarge extends Exception {

    private static final long serialVersionUID = 1L;

    TooLarge(String message) {
      super(message);
    }
  }

  /**
   * Compiles a program.
   *
   * @param recorded slots whose last writer is to be noted
   * @param watched lines of which it is noted whether they run and what they come to: by file, the number of each
   * @throws TooLarge if a single statement or unit is too large for the JVM; the message says which
   */
  public static ScanCode compile(CheckedProgram program, CodeOptions options, BitSet recorded,
      Map<String, Map<Integer, Integer>> watched) throws TooLarge {
    Map<String, byte[]> classes = new HashMap<>();
    BlockCalls blocks = new BlockCalls(program.units());
    RecordedSlots slots = new RecordedSlots(program, recorded);
    for (Unit unit : program.units()) {
      UnitCode code = new UnitCode(unit);
      int file = program.files().indexOf(unit.position().file());
      try {
        LineEmitter lines = new LineEmitter(watched.getOrDefault(unit.position().file(), Map.of()));
        classes.put(UnitCode.className(unit),
            code.write(new StepEmitter(code, unit, options, slots, file, blocks, lines)));
      } catch (MethodTooLargeException tooLarge) {
        throw new TooLarge(unit.position() + ": a single statement of " + unit.name() + " is too large; split it");
      } catch (ClassTooLargeException tooLarge) {
        throw new TooLarge(unit.position() + ": " + unit.name()
            + " is too large; move parts of it into function blocks");
      }
    }
    classes.put(ENTRY, entry(program));
    return load(classes);
  }

  private static byte[] entry(CheckedProgram program) {
    ClassWriter writer = new ClassWriter(ClassWriter.COMPUTE_FRAMES);
    writer.visit(Opcodes.V17, Opcodes.ACC_PUBLIC | Opcodes.ACC_FINAL | Opcodes.ACC_SUPER, ENTRY, null,
        "java/lang/Object", new String[] {Type.getInternalName(ScanCode.class)});
    MethodVisitor constructor = writer.visitMethod(Opcodes.ACC_PUBLIC, "<init>", "()V", null, null);
    constructor.visitCode();
    constructor.visitVarInsn(Opcodes.ALOAD, 0);
    constructor.visitMethodInsn(Opcodes.INVOKESPECIAL, "java/lang/Object", "<init>", "()V", false);
    constructor.visitInsn(Opcodes.RETURN);
    constructor.visitMaxs(0, 0);
    constructor.visitEnd();
    MethodVisitor run = writer.visitMethod(Opcodes.ACC_PUBLIC, "run", "(L" + Emitter.MEMORY + ";I)V", null, null);
    run.visitCode();
    Label[] tasks = Stream.generate(Label::new).limit(program.tasks().size()).toArray(Label[]::new);
    Label end = new Label();
    run.visitVarInsn(Opcodes.ILOAD, 2);
    run.visitTableSwitchInsn(0, tasks.length - 1, end, tasks);
    for (int i = 0; i < tasks.length; i++) {
      run.visitLabel(tasks[i]);
      for (int unit : program.tasks().get(i).programs()) {
        run.visitVarInsn(Opcodes.ALOAD, 1);
        run.visitVarInsn(Opcodes.ALOAD, 1);
        run.visitFieldInsn(Opcodes.GETFIELD, Emitter.MEMORY, "words", Emitter.WORDS);
        run.visitMethodInsn(Opcodes.INVOKESTATIC, UnitCode.className(program.units().get(unit)), UnitCode.BODY,
            Emitter.descriptor(false), false);
        run.visitInsn(Opcodes.POP);
      }
      run.visitInsn(Opcodes.RETURN);
    }
    run.visitLabel(end);
    run.visitInsn(Opcodes.RETURN);
    run.visitMaxs(0, 0);
    run.visitEnd();
    writer.visitEnd();
    return writer.toByteArray();
  }

  private static ScanCode load(Map<String, byte[]> classes) {
    try {
      Class<?> entry = new UnitLoader(classes).loadClass(ENTRY.replace('/', '.'));
      return (ScanCode) entry.getConstructor().newInstance();
    } catch (ClassNotFoundException | NoSuchMethodException | InstantiationException | IllegalAccessException
        | InvocationTargetException impossible) {
      throw new IllegalStateException(impossible);
    }
  }

  /** A loader of the classes of one program, so that they can be unloaded together. */
  private static final class UnitLoader extends ClassLoader {

    private final Map<String, byte[]> classes;

    UnitLoader(Map<String, byte[]> classes) {
      super(ProgramCompiler.class.getClassLoader());
      this.classes = classes;
    }

    @Override
    protected Class<?> findClass(String name) throws ClassNotFoundException {
      byte[] code = classes.get(name.replace('.', '/'));
      if (code == null) {
        throw new ClassNotFoundException(name);
      }
      return defineClass(name, code, 0, code.length);
    }
  }
}
