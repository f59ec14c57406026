package dev.pawl.logic.code;

import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.Operation;
import dev.pawl.grammar.logic.model.Place;
import dev.pawl.grammar.logic.model.Value;
import dev.pawl.logic.runtime.StandardLibrary;
import dev.pawl.logic.runtime.TextLibrary;
import dev.pawl.logic.runtime.TimeLibrary;
import java.lang.reflect.Method;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.objectweb.asm.Label;
import org.objectweb.asm.Opcodes;
import org.objectweb.asm.Type;

/** The writer of computations: each leaves its value on the operand stack. */
final class ValueEmitter {

  /** Where each routine is, by its name. */
  private static final Map<String, String> LIBRARIES = new HashMap<>();

  static {
    for (Class<?> library : List.of(StandardLibrary.class, TextLibrary.class, TimeLibrary.class)) {
      for (Method routine : library.getDeclaredMethods()) {
        LIBRARIES.put(routine.getName(), Type.getInternalName(library));
      }
    }
  }

  private final CodeOptions options;
  private final Numbers numbers;
  private final StepEmitter steps;

  ValueEmitter(CodeOptions options, StepEmitter steps) {
    this.options = options;
    this.numbers = new Numbers(options);
    this.steps = steps;
  }

  void emit(Emitter out, Value value) {
    if (value instanceof Value.Constant constant) {
      constant(out, constant);
    } else if (value instanceof Value.Text text) {
      out.code().visitLdcInsn(text.text());
    } else if (value instanceof Value.Load load) {
      load(out, load.place());
    } else if (value instanceof Value.Negate negate) {
      emit(out, negate.operand());
      numbers.negate(out, negate.type());
    } else if (value instanceof Value.Complement complement) {
      emit(out, complement.operand());
      out.word(complement.type() == Elementary.BOOL ? 1 : mask(complement.type()));
      out.op(Opcodes.LXOR);
    } else if (value instanceof Value.Arithmetic arithmetic) {
      emit(out, arithmetic.left());
      emit(out, arithmetic.right());
      numbers.arithmetic(out, arithmetic.operator(), arithmetic.type());
    } else if (value instanceof Value.Compare || shortCircuits(value)) {
      truth(out, value);
    } else if (value instanceof Value.Logic logic) {
      emit(out, logic.left());
      emit(out, logic.right());
      out.op(switch (logic.connective()) {
        case AND -> Opcodes.LAND;
        case OR -> Opcodes.LOR;
        case XOR -> Opcodes.LXOR;
      });
    } else if (value instanceof Value.Convert convert) {
      emit(out, convert.operand());
      numbers.convert(out, convert.from(), convert.type(), convert.truncate());
    } else {
      composite(out, value);
    }
  }

  private void composite(Emitter out, Value value) {
    if (value instanceof Value.Bounded bounded) {
      emit(out, bounded.operand());
      out.word(bounded.low());
      out.word(bounded.high());
      out.check("bounded", "(JJJ)J");
    } else if (value instanceof Value.Part part) {
      emit(out, part.operand());
      out.number(part.shift());
      out.op(Opcodes.LUSHR);
      out.word(mask(part.type()));
      out.op(Opcodes.LAND);
    } else if (value instanceof Value.Standard standard) {
      standard(out, standard);
    } else if (value instanceof Value.Call call) {
      steps.call(out, call);
      load(out, call.result());
    }
  }

  static long mask(Elementary type) {
    return type.bits() == 64 ? -1L : (1L << type.bits()) - 1;
  }

  private static void constant(Emitter out, Value.Constant constant) {
    if (Emitter.shape(constant.type()) == 'D') {
      out.real(Double.longBitsToDouble(constant.word()));
    } else {
      out.word(constant.word());
    }
  }

  void load(Emitter out, Place place) {
    if (place.type() instanceof LogicType.StringType) {
      out.texts();
      address(out, place);
      out.op(Opcodes.AALOAD);
      return;
    }
    out.words();
    address(out, place);
    out.op(Opcodes.LALOAD);
    if (Emitter.shape(place.type()) == 'D') {
      out.call("java/lang/Double", "longBitsToDouble", "(J)D");
    }
  }

  /** Leaves the address of a place on the stack, as an int. */
  void address(Emitter out, Place place) {
    int fixed = place.offset();
    if (place.anchor() instanceof Place.Fixed) {
      out.number(fixed);
    } else {
      if (place.anchor() instanceof Place.Pointer pointer) {
        load(out, pointer.slot());
        out.op(Opcodes.L2I);
      } else {
        out.instance();
      }
      if (fixed != 0) {
        out.number(fixed);
        out.op(Opcodes.IADD);
      }
    }
    for (Place.IndexStep step : place.steps()) {
      out.line(step.position().line());
      emit(out, step.index());
      out.word(step.low());
      out.word(step.high());
      out.number(step.stride());
      out.check("element", "(JJJI)I");
      out.op(Opcodes.IADD);
    }
  }

  private void standard(Emitter out, Value.Standard standard) {
    StringBuilder descriptor = new StringBuilder("(");
    for (Value operand : standard.operands()) {
      emit(out, operand);
      descriptor.append(Emitter.descriptorOf(Emitter.shape(operand.type())));
    }
    char result = Emitter.shape(standard.type());
    out.line(standard.position().line());
    String routine = routine(standard.operation());
    out.call(LIBRARIES.get(routine), routine, descriptor.append(')').append(Emitter.descriptorOf(result)).toString());
    if (standard.type() == Elementary.REAL) {
      numbers.single(out);
    } else if (standard.operation() == Operation.ABSOLUTE_INTEGER) {
      numbers.narrow(out, (Elementary) standard.type());
    }
  }

  /** The name of the routine that computes an operation: ARC_SINE is {@code arcSine}. */
  static String routine(Operation operation) {
    StringBuilder name = new StringBuilder();
    for (String word : operation.name().split("_")) {
      String lower = word.toLowerCase(Locale.ROOT);
      name.append(name.isEmpty() ? lower : Character.toUpperCase(lower.charAt(0)) + lower.substring(1));
    }
    return name.toString();
  }

  /** Leaves the truth value of a comparison or connective on the stack, by way of jumps. */
  private void truth(Emitter out, Value value) {
    Label no = new Label();
    Label end = new Label();
    jump(out, value, false, no);
    out.op(Opcodes.LCONST_1);
    out.jump(Opcodes.GOTO, end);
    out.label(no);
    out.op(Opcodes.LCONST_0);
    out.label(end);
  }

  /** Jumps where a truth value is {@code wanted}, and goes on where it is not. */
  void jump(Emitter out, Value value, boolean wanted, Label target) {
    if (value instanceof Value.Complement complement && complement.type() == Elementary.BOOL) {
      jump(out, complement.operand(), !wanted, target);
    } else if (value instanceof Value.Compare compare) {
      emit(out, compare.left());
      emit(out, compare.right());
      numbers.compare(out, compare.relation(), compare.left().type(), wanted, target);
    } else if (value instanceof Value.Logic logic && jumps(logic)) {
      boolean either = logic.connective() == Value.Connective.OR;
      if (either == wanted) {
        jump(out, logic.left(), wanted, target);
        jump(out, logic.right(), wanted, target);
      } else {
        Label past = new Label();
        jump(out, logic.left(), !wanted, past);
        jump(out, logic.right(), wanted, target);
        out.label(past);
      }
    } else {
      emit(out, value);
      out.op(Opcodes.L2I);
      out.jump(wanted ? Opcodes.IFNE : Opcodes.IFEQ, target);
    }
  }

  /** Whether the right operand may be skipped: because the option says so, or because nobody can tell. */
  private boolean jumps(Value.Logic logic) {
    boolean connective = logic.type() == Elementary.BOOL && logic.connective() != Value.Connective.XOR;
    return connective && (options.evaluation() == CodeOptions.BooleanEvaluation.SHORT_CIRCUIT || harmless(logic.right()));
  }

  /** Whether skipping an operand could be noticed, as a value that is computed without jumps is cheaper where it could not. */
  private boolean shortCircuits(Value value) {
    return value instanceof Value.Logic logic && jumps(logic) && !harmless(logic.right());
  }

  /** Whether evaluating a value can neither fail nor change anything. */
  private static boolean harmless(Value value) {
    if (value instanceof Value.Constant || value instanceof Value.Text) {
      return true;
    }
    if (value instanceof Value.Load load) {
      return load.place().steps().isEmpty();
    }
    if (value instanceof Value.Complement complement) {
      return harmless(complement.operand());
    }
    if (value instanceof Value.Part part) {
      return harmless(part.operand());
    }
    if (value instanceof Value.Compare compare) {
      return harmless(compare.left()) && harmless(compare.right());
    }
    return value instanceof Value.Logic logic && harmless(logic.left()) && harmless(logic.right());
  }

  /** Emits values one after another into locals of their own; the locals' numbers. */
  int[] intoLocals(Emitter out, List<Value> values) {
    int[] locals = new int[values.size()];
    for (int i = 0; i < locals.length; i++) {
      emit(out, values.get(i));
      char shape = Emitter.shape(values.get(i).type());
      locals[i] = out.local(shape == 'S' ? 1 : 2);
      out.load(shape == 'S' ? Opcodes.ASTORE : shape == 'D' ? Opcodes.DSTORE : Opcodes.LSTORE, locals[i]);
    }
    return locals;
  }
}
