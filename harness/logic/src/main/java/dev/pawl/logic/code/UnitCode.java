package dev.pawl.logic.code;

import dev.pawl.grammar.logic.model.Unit;
import dev.pawl.grammar.logic.model.Variable;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.function.Consumer;
import org.objectweb.asm.ClassWriter;
import org.objectweb.asm.Opcodes;

/** The class of one unit being written. */
final class UnitCode {

  static final String PACKAGE = "dev/pawl/logic/generated/";
  static final String BODY = "run";

  private final Unit unit;
  private final boolean instance;
  private final ClassWriter writer = new ClassWriter(ClassWriter.COMPUTE_FRAMES);
  private final Deque<Pending> pending = new ArrayDeque<>();
  private int methods;

  private record Pending(String name, Consumer<Emitter> content) {}

  UnitCode(Unit unit) {
    this.unit = unit;
    this.instance = unit.kind() == Unit.Kind.FUNCTION_BLOCK;
    writer.visit(Opcodes.V17, Opcodes.ACC_PUBLIC | Opcodes.ACC_FINAL | Opcodes.ACC_SUPER, className(unit), null,
        "java/lang/Object", null);
    writer.visitSource(unit.position().file(), null);
  }

  static String className(Unit unit) {
    return PACKAGE + "Unit" + unit.index();
  }

  /** Asks for a further method of this class; it is written once the present one is finished. */
  String method(Consumer<Emitter> content) {
    String name = "part" + methods++;
    pending.add(new Pending(name, content));
    return name;
  }

  void call(Emitter out, String method) {
    out.call(className(unit), method, Emitter.descriptor(instance));
  }

  byte[] write(StepEmitter steps) {
    write(BODY, out -> {
      out.line(unit.position().line());
      out.spend(unit.body().size() + 1);
      unit.resets().forEach(variable -> reset(out, variable));
      steps.body(out, unit.body());
    });
    while (!pending.isEmpty()) {
      Pending next = pending.remove();
      write(next.name(), next.content());
    }
    writer.visitEnd();
    return writer.toByteArray();
  }

  private void write(String name, Consumer<Emitter> content) {
    Emitter out = new Emitter(writer.visitMethod(Opcodes.ACC_PUBLIC | Opcodes.ACC_STATIC, name,
        Emitter.descriptor(instance), null, null), instance);
    content.accept(out);
    out.finish();
  }

  private void reset(Emitter out, Variable variable) {
    if (!variable.type().scalar() || StepEmitter.isText(variable.type())) {
      out.memory();
      address(out, variable);
      out.number(variable.type().size());
      out.memoryCall("reset", "(II)V");
      return;
    }
    out.words();
    address(out, variable);
    out.word(variable.initial().words()[0]);
    out.op(Opcodes.LASTORE);
  }

  private void address(Emitter out, Variable variable) {
    out.number(variable.offset());
    if (instance) {
      out.instance();
      out.op(Opcodes.IADD);
    }
  }
}
