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
  private final NumberEmitter numbers;
  private final StepEmitter steps;

  ValueEmitter(CodeOptions options, StepEmitter steps) {
    this.options = options;
    this.numbers = new NumberEmitter(options);
    this.steps = steps;
  }

  void emit(Emitter out, Value value) {
    value.accept(new Writer(out));
  }

  /** Writes a value of each kind. */
  private final class Writer implements Value.Visitor<Void> {

    private final Emitter out;

    Writer(Emitter out) {
      this.out = out;
    }

    @Override
    public Void visit(Value.Constant e) {
      if (Emitter.shape(e.type()) == 'D') {
        out.real(Double.longBitsToDouble(e.word()));
      } else {
        out.word(e.word());
      }
      return null;
    }

    @Override
    public Void visit(Value.Text e) {
      out.code().visitLdcInsn(e.text());
      return null;
    }

    @Override
    public Void visit(Value.Load e) {
      load(out, e.place());
      return null;
    }

    @Override
    public Void visit(Value.Negate e) {
      operand(out, e);
      kept(out, e.type());
      return null;
    }

    @Override
    public Void visit(Value.Complement e) {
      emit(out, e.operand());
      out.word(e.type() == Elementary.BOOL ? 1 : mask(e.type()));
      out.op(Opcodes.LXOR);
      return null;
    }

    @Override
    public Void visit(Value.Arithmetic e) {
      operand(out, e);
      kept(out, e.type());
      return null;
    }

    @Override
    public Void visit(Value.Compare e) {
      truth(out, e);
      return null;
    }

    @Override
    public Void visit(Value.Logic e) {
      if (shortCircuits(e)) {
        truth(out, e);
        return null;
      }
      emit(out, e.left());
      emit(out, e.right());
      out.op(switch (e.connective()) {
        case AND, AND_THEN -> Opcodes.LAND;
        case OR, OR_ELSE -> Opcodes.LOR;
        case XOR -> Opcodes.LXOR;
      });
      return null;
    }

    @Override
    public Void visit(Value.Convert e) {
      if (inDint(e.from()) && e.type().isNumber()) {
        operand(out, e.operand());
        numbers.convert(out, Elementary.DINT, e.type(), e.truncate());
      } else {
        emit(out, e.operand());
        numbers.convert(out, e.from(), e.type(), e.truncate());
      }
      return null;
    }

    @Override
    public Void visit(Value.Bounded e) {
      emit(out, e.operand());
      out.word(e.low());
      out.word(e.high());
      out.check("bounded", "(JJJ)J");
      return null;
    }

    @Override
    public Void visit(Value.Part e) {
      emit(out, e.operand());
      out.number(e.shift());
      out.op(Opcodes.LUSHR);
      out.word(mask(e.type()));
      out.op(Opcodes.LAND);
      return null;
    }

    @Override
    public Void visit(Value.Standard e) {
      standard(out, e);
      return null;
    }

    @Override
    public Void visit(Value.Call e) {
      steps.call(out, e);
      load(out, e.result());
      return null;
    }
  }

  /** Writes what another operation goes on with: small integers in the type in which they are computed. */
  private void operand(Emitter out, Value value) {
    if (value instanceof Value.Arithmetic sum) {
      operand(out, sum.left());
      operand(out, sum.right());
      numbers.arithmetic(out, sum.operator(), computed(sum.type()));
    } else if (value instanceof Value.Negate negate) {
      operand(out, negate.operand());
      numbers.negate(out, computed(negate.type()));
    } else if (value instanceof Value.Convert convert && inDint(convert.from()) && inDint(convert.type())
        && convert.from().bits() < convert.type().bits() && (convert.from().isUnsigned() || !convert.type()
            .isUnsigned())) {
      operand(out, convert.operand());
    } else {
      emit(out, value);
    }
  }

  /** Brings a result into its own type, where it was computed in another. */
  private void kept(Emitter out, Elementary type) {
    if (inDint(type)) {
      numbers.narrow(out, type);
    }
  }

  private Elementary computed(Elementary type) {
    return inDint(type) ? Elementary.DINT : type;
  }

  private boolean inDint(Elementary type) {
    return options.arithmetic() == CodeOptions.SmallArithmetic.DINT && type.isInteger()
        && type.bits() < Elementary.DINT.bits();
  }

  static long mask(Elementary type) {
    return type.bits() == 64 ? -1L : (1L << type.bits()) - 1;
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
    boolean counted = place.anchor().match(start -> false, instance -> {
      out.instance();
      return true;
    }, pointer -> {
      load(out, pointer.slot());
      out.op(Opcodes.L2I);
      return true;
    });
    if (!counted || fixed != 0) {
      out.number(fixed);
    }
    if (counted && fixed != 0) {
      out.op(Opcodes.IADD);
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
      operand(out, compare.left());
      operand(out, compare.right());
      numbers.compare(out, compare.relation(), compare.left().type(), wanted, target);
    } else if (value instanceof Value.Logic logic && jumps(logic)) {
      boolean either = logic.connective().either();
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
    return connective && (logic.connective().skips()
        || options.evaluation() == CodeOptions.BooleanEvaluation.SHORT_CIRCUIT || harmless(logic.right()));
  }

  /**
   * Whether skipping an operand could be noticed, as a value that is computed without jumps is cheaper where it could
   * not.
   */
  private boolean shortCircuits(Value.Logic logic) {
    return jumps(logic) && !harmless(logic.right());
  }

  /** Whether evaluating a value can neither fail nor change anything. */
  private static boolean harmless(Value value) {
    return value.accept(HARMLESS);
  }

  private static final Value.Question<Boolean> HARMLESS = new Value.Question<>() {
    @Override public Boolean otherwise(Value e) { return false; }
    @Override public Boolean visit(Value.Constant e) { return true; }
    @Override public Boolean visit(Value.Text e) { return true; }
    @Override public Boolean visit(Value.Load e) { return e.place().steps().isEmpty(); }
    @Override public Boolean visit(Value.Complement e) { return harmless(e.operand()); }
    @Override public Boolean visit(Value.Part e) { return harmless(e.operand()); }
    @Override public Boolean visit(Value.Compare e) { return harmless(e.left()) && harmless(e.right()); }
    @Override public Boolean visit(Value.Logic e) { return harmless(e.left()) && harmless(e.right()); }
  };

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
