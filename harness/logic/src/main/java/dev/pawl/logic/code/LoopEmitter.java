package dev.pawl.logic.code;

import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.Place;
import dev.pawl.grammar.logic.model.Step;
import dev.pawl.grammar.logic.model.Value;
import java.util.List;
import org.objectweb.asm.Label;
import org.objectweb.asm.Opcodes;

/** The writer of loops. Each pass through one is paid for out of the watchdog's budget. */
final class LoopEmitter {

  private final StepEmitter steps;
  private final StoreEmitter stores;
  private final ValueEmitter values;
  private final LineEmitter lines;

  LoopEmitter(StepEmitter steps, StoreEmitter stores, ValueEmitter values, LineEmitter lines) {
    this.lines = lines;
    this.steps = steps;
    this.stores = stores;
    this.values = values;
  }

  private void spend(Emitter out, List<Step> body) {
    out.spend(body.size() + 1);
  }

  /**
   * After the last pass the variable has the first value past the end. Where its type has no such value, it keeps the
   * last one, so that a loop to the greatest value of its type ends.
   */
  void counted(Emitter out, Step.For loop, int allowed) {
    int[] bounds = values.intoLocals(out, List.of(loop.to(), loop.by()));
    if (!(loop.by() instanceof Value.Constant)) {
      out.load(Opcodes.LLOAD, bounds[1]);
      out.check("step", "(J)J");
      out.op(Opcodes.POP2);
    }
    lines.give(out, bounds, loop.position().line());
    store(out, loop.variable(), () -> {
      values.emit(out, loop.from());
      lines.give(out, 'J', loop.position().line());
    }, loop.position().line());
    Label top = new Label();
    Label next = new Label();
    Label end = new Label();
    beyond(out, loop, bounds, () -> values.load(out, loop.variable()), end);
    out.label(top);
    spend(out, loop.body());
    steps.list(out, loop.body(), new StepEmitter.Loop(end, next), allowed);
    out.label(next);
    int following = out.local(2);
    values.load(out, loop.variable());
    out.load(Opcodes.LLOAD, bounds[1]);
    out.op(Opcodes.LADD);
    out.load(Opcodes.LSTORE, following);
    beyondType(out, loop, bounds[1], following, end);
    store(out, loop.variable(), () -> out.load(Opcodes.LLOAD, following), loop.position().line());
    beyond(out, loop, bounds, () -> out.load(Opcodes.LLOAD, following), end);
    out.jump(Opcodes.GOTO, top);
    out.label(end);
  }

  private void store(Emitter out, Place variable, Runnable value, int line) {
    int address = stores.place(out, variable, 'J');
    value.run();
    out.op(Opcodes.LASTORE);
    stores.record(out, variable, address, 1, line);
  }

  /** Jumps where the next value does not fit the loop variable's type. */
  private static void beyondType(Emitter out, Step.For loop, int by, int following, Label end) {
    Elementary type = loop.variable().type().stored().orElseThrow();
    if (type.bits() < Long.SIZE) {
      out.load(Opcodes.LLOAD, following);
      out.word(type.greatest().longValueExact());
      out.op(Opcodes.LCMP);
      out.jump(Opcodes.IFGT, end);
      out.load(Opcodes.LLOAD, following);
      out.word(type.least().longValueExact());
      out.op(Opcodes.LCMP);
      out.jump(Opcodes.IFLT, end);
      return;
    }
    out.load(Opcodes.LLOAD, following);
    out.load(Opcodes.LLOAD, by);
    out.check("wrapped", "(JJ)Z");
    out.jump(Opcodes.IFNE, end);
  }

  /** Jumps where a value of the loop variable lies past the end of the loop. */
  private static void beyond(Emitter out, Step.For loop, int[] bounds, Runnable value, Label end) {
    if (loop.by() instanceof Value.Constant constant) {
      value.run();
      out.load(Opcodes.LLOAD, bounds[0]);
      out.op(Opcodes.LCMP);
      out.jump(constant.word() > 0 ? Opcodes.IFGT : Opcodes.IFLT, end);
      return;
    }
    Label down = new Label();
    Label inside = new Label();
    out.load(Opcodes.LLOAD, bounds[1]);
    out.word(0);
    out.op(Opcodes.LCMP);
    out.jump(Opcodes.IFLT, down);
    value.run();
    out.load(Opcodes.LLOAD, bounds[0]);
    out.op(Opcodes.LCMP);
    out.jump(Opcodes.IFGT, end);
    out.jump(Opcodes.GOTO, inside);
    out.label(down);
    value.run();
    out.load(Opcodes.LLOAD, bounds[0]);
    out.op(Opcodes.LCMP);
    out.jump(Opcodes.IFLT, end);
    out.label(inside);
  }

  void whileLoop(Emitter out, Step.While loop, int allowed) {
    Label top = new Label();
    Label end = new Label();
    out.label(top);
    lines.decision(out, values, loop.condition(), loop.position().line(), end);
    spend(out, loop.body());
    steps.list(out, loop.body(), new StepEmitter.Loop(end, top), allowed);
    out.jump(Opcodes.GOTO, top);
    out.label(end);
  }

  void repeatLoop(Emitter out, Step.Repeat loop, int allowed) {
    Label top = new Label();
    Label next = new Label();
    Label end = new Label();
    out.label(top);
    spend(out, loop.body());
    steps.list(out, loop.body(), new StepEmitter.Loop(end, next), allowed);
    out.label(next);
    lines.decision(out, values, loop.until(), loop.position().line(), top);
    out.label(end);
  }
}
