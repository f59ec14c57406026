package dev.pawl.logic.code;

import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.Elementary.Kind;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.Value;
import org.objectweb.asm.Label;
import org.objectweb.asm.Opcodes;

/** The writer of operations on numbers, each in the range and by the overflow policy of its type. */
final class NumberEmitter {

  private final boolean trap;
  private final boolean moduloOfZeroIsZero;
  private final boolean limitsReals;
  private final boolean fillsWithZeros;

  NumberEmitter(CodeOptions options) {
    this.trap = options.overflow() == CodeOptions.Overflow.TRAP;
    this.moduloOfZeroIsZero = options.moduloByZero() == CodeOptions.ModuloByZero.ZERO;
    this.limitsReals = options.unfitReal() == CodeOptions.UnfitReal.LIMIT;
    this.fillsWithZeros = options.widerBits() == CodeOptions.WiderBits.ZERO;
  }

  void arithmetic(Emitter out, Value.Operator operator, Elementary type) {
    if (type.isReal()) {
      out.op(switch (operator) {
        case ADD -> Opcodes.DADD;
        case SUBTRACT -> Opcodes.DSUB;
        case MULTIPLY -> Opcodes.DMUL;
        case DIVIDE -> Opcodes.DDIV;
        case MODULO -> Opcodes.DREM;
      });
      if (type == Elementary.REAL) {
        single(out);
      }
      return;
    }
    boolean unsigned = type == Elementary.ULINT;
    switch (operator) {
      case ADD -> wide(out, type, Opcodes.LADD, "add");
      case SUBTRACT -> wide(out, type, Opcodes.LSUB, "subtract");
      case MULTIPLY -> wide(out, type, Opcodes.LMUL, "multiply");
      case DIVIDE -> divide(out, type, unsigned);
      case MODULO -> modulo(out, unsigned);
    }
    narrow(out, type);
  }

  private void wide(Emitter out, Elementary type, int opcode, String checked) {
    if (type.bits() == 64 && trap) {
      out.check(type == Elementary.ULINT ? checked + "Unsigned" : checked, "(JJ)J");
    } else {
      out.op(opcode);
    }
  }

  private void divide(Emitter out, Elementary type, boolean unsigned) {
    if (type.bits() == 64 && trap && !unsigned) {
      out.check("divide", "(JJ)J");
      return;
    }
    out.check("divisor", "(J)J");
    if (unsigned) {
      out.call("java/lang/Long", "divideUnsigned", "(JJ)J");
    } else {
      out.op(Opcodes.LDIV);
    }
  }

  private void modulo(Emitter out, boolean unsigned) {
    if (moduloOfZeroIsZero) {
      out.check(unsigned ? "moduloUnsigned" : "modulo", "(JJ)J");
      return;
    }
    out.check("divisor", "(J)J");
    if (unsigned) {
      out.call("java/lang/Long", "remainderUnsigned", "(JJ)J");
    } else {
      out.op(Opcodes.LREM);
    }
  }

  void negate(Emitter out, Elementary type) {
    if (type.isReal()) {
      out.op(Opcodes.DNEG);
      return;
    }
    if (type.bits() == 64 && trap) {
      out.word(-1);
      out.check("multiply", "(JJ)J");
    } else {
      out.op(Opcodes.LNEG);
    }
    narrow(out, type);
  }

  /** Rounds to single precision. */
  void single(Emitter out) {
    out.op(Opcodes.D2F);
    out.op(Opcodes.F2D);
  }

  /** Brings a word computed in 64 bits into the range of a type that has fewer. */
  void narrow(Emitter out, Elementary type) {
    if (type.bits() == 64 || !type.isInteger() && type.kind() != Kind.BITS && type.kind() != Kind.CHARACTER) {
      return;
    }
    if (trap && type.isInteger()) {
      out.word(type.least().longValue());
      out.word(type.greatest().longValue());
      out.check("range", "(JJJ)J");
    } else if (type.kind() == Kind.SIGNED) {
      out.op(Opcodes.L2I);
      if (type.bits() < 32) {
        out.op(type.bits() == 8 ? Opcodes.I2B : Opcodes.I2S);
      }
      out.op(Opcodes.I2L);
    } else {
      out.word(ValueEmitter.mask(type));
      out.op(Opcodes.LAND);
    }
  }

  void convert(Emitter out, Elementary from, Elementary to, boolean truncate) {
    if (from == to || from.kind() == to.kind() && from.bits() <= to.bits() && !from.isReal()) {
      return;
    }
    if (from.isReal()) {
      fromReal(out, to, truncate);
    } else if (to.isReal()) {
      if (from.isUnsigned() && from.bits() == 64) {
        out.check("unsignedToReal", "(J)D");
      } else {
        out.op(Opcodes.L2D);
      }
      if (to == Elementary.REAL) {
        single(out);
      }
    } else if (to == Elementary.BOOL) {
      out.word(0);
      out.op(Opcodes.LCMP);
      truth(out);
    } else if (to.isInteger() || to.isUnsigned() || to.kind() == Kind.CHARACTER) {
      whole(out, from, to);
    }
  }

  /** From the -1, 0 or 1 of a comparison with zero to a truth value: whatever is not zero is TRUE. */
  private static void truth(Emitter out) {
    Label zero = new Label();
    Label end = new Label();
    out.jump(Opcodes.IFEQ, zero);
    out.op(Opcodes.LCONST_1);
    out.jump(Opcodes.GOTO, end);
    out.label(zero);
    out.op(Opcodes.LCONST_0);
    out.label(end);
  }

  private void fromReal(Emitter out, Elementary to, boolean truncate) {
    if (to.isReal()) {
      if (to == Elementary.REAL) {
        single(out);
      }
    } else if (to == Elementary.BOOL) {
      out.real(0);
      out.op(Opcodes.DCMPL);
      truth(out);
    } else {
      out.number(truncate ? 1 : 0);
      if (to == Elementary.ULINT) {
        out.check(limitsReals ? "limitedUnsigned" : "wholeUnsigned", "(DZ)J");
      } else {
        Elementary range = to.isInteger() ? to : Elementary.LINT;
        out.word(range.least().longValueExact());
        out.word(range.greatest().longValueExact());
        out.check(limitsReals ? "limited" : "whole", "(DZJJ)J");
      }
    }
  }

  /**
   * Among whole numbers and bit strings: a change of signedness at 64 bits can fail, bit strings transfer their bits.
   */
  private void whole(Emitter out, Elementary from, Elementary to) {
    if (fillsWithZeros && from.kind() == Kind.SIGNED && to.kind() == Kind.BITS && to.bits() > from.bits()) {
      out.word(ValueEmitter.mask(from));
      out.op(Opcodes.LAND);
      return;
    }
    boolean bits = from.kind() == Kind.BITS || to.kind() == Kind.BITS || from.kind() == Kind.BOOLEAN;
    if (bits && to.kind() == Kind.SIGNED && to.bits() < 64) {
      out.op(Opcodes.L2I);
      if (to.bits() < 32) {
        out.op(to.bits() == 8 ? Opcodes.I2B : Opcodes.I2S);
      }
      out.op(Opcodes.I2L);
      return;
    }
    boolean signChanges = trap && !bits && from.bits() == 64 && from.isUnsigned() != to.isUnsigned()
        || trap && !bits && to == Elementary.ULINT && !from.isUnsigned() || trap && !bits && from == Elementary.ULINT;
    if (signChanges && to != from) {
      out.check("sameSign", "(J)J");
    }
    if (bits && to.isInteger() && to.bits() < 64) {
      out.word(ValueEmitter.mask(to));
      out.op(Opcodes.LAND);
    } else {
      narrow(out, to);
    }
  }

  /**
   * Jumps where the relation of the two topmost values of the stack is {@code wanted}. Nothing relates to a NaN but by
   * {@code <>}.
   */
  void compare(Emitter out, Value.Relation relation, LogicType type, boolean wanted, Label target) {
    Elementary stored = type.stored().orElse(Elementary.LINT);
    boolean less = relation == Value.Relation.LESS || relation == Value.Relation.AT_MOST;
    if (stored.isReal()) {
      out.op(less ? Opcodes.DCMPG : Opcodes.DCMPL);
    } else if (stored.isUnsigned() && stored.bits() == 64) {
      out.call("java/lang/Long", "compareUnsigned", "(JJ)I");
    } else {
      out.op(Opcodes.LCMP);
    }
    out.jump(switch (relation) {
      case LESS -> wanted ? Opcodes.IFLT : Opcodes.IFGE;
      case AT_MOST -> wanted ? Opcodes.IFLE : Opcodes.IFGT;
      case EQUAL -> wanted ? Opcodes.IFEQ : Opcodes.IFNE;
      case NOT_EQUAL -> wanted ? Opcodes.IFNE : Opcodes.IFEQ;
      case AT_LEAST -> wanted ? Opcodes.IFGE : Opcodes.IFLT;
      case GREATER -> wanted ? Opcodes.IFGT : Opcodes.IFLE;
    }, target);
  }
}
