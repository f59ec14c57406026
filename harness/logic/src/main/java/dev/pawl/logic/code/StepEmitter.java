package dev.pawl.logic.code;

import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.Place;
import dev.pawl.grammar.logic.model.Step;
import dev.pawl.grammar.logic.model.Unit;
import dev.pawl.grammar.logic.model.Value;
import java.util.List;
import org.objectweb.asm.Label;
import org.objectweb.asm.Opcodes;

/** The writer of statements. Long lists of statements are moved into methods of their own. */
final class StepEmitter {

  /** Outcome of a method: it ran to its end, or a RETURN, EXIT or CONTINUE leads further out. */
  private static final int DONE = 0;
  private static final int RETURN = 1;
  private static final int EXIT = 2;
  private static final int CONTINUE = 3;

  /** Estimated bytes of a method; the just-in-time compiler refuses methods of more than 8000. */
  private static final int METHOD = 5000;

  /** Estimated bytes from which on the parts of a heavy statement are moved out. */
  private static final int PART = 400;

  private final UnitCode unit;
  private final ValueEmitter values;
  private final StoreEmitter stores;
  private final BlockCalls blocks;
  private final LineEmitter lines;
  private final CodeSizes sizes = new CodeSizes();
  private final LoopEmitter loops;

  StepEmitter(UnitCode unit, Unit source, CodeOptions options, RecordedSlots recorded, int file, BlockCalls blocks,
      LineEmitter lines) {
    this.unit = unit;
    this.values = new ValueEmitter(options, this);
    this.stores = new StoreEmitter(values, recorded, source, file, lines);
    this.blocks = blocks;
    this.lines = lines;
    this.loops = new LoopEmitter(this, stores, values, lines);
  }

  /** Where EXIT and CONTINUE lead inside a method; null outside of a loop of that method. */
  record Loop(Label exit, Label next) {
    static final Loop NONE = new Loop(null, null);
  }

  /** Writes a whole body, its return included. */
  void body(Emitter out, List<Step> steps) {
    list(out, steps, Loop.NONE, METHOD);
    out.number(DONE);
    out.op(Opcodes.IRETURN);
  }

  /** Writes statements in place, or as calls of further methods where they weigh more than allowed. */
  void list(Emitter out, List<Step> steps, Loop loop, int allowed) {
    if (sizes.of(steps) <= allowed) {
      steps.forEach(step -> step(out, step, loop, METHOD));
      return;
    }
    int start = 0;
    int weight = 0;
    for (int i = 0; i < steps.size(); i++) {
      int next = sizes.of(steps.get(i));
      if (i > start && weight + next > METHOD) {
        moved(out, steps.subList(start, i), loop);
        start = i;
        weight = 0;
      }
      weight += next;
    }
    moved(out, steps.subList(start, steps.size()), loop);
  }

  private void moved(Emitter out, List<Step> steps, Loop loop) {
    String method = unit.method(inner -> {
      boolean heavy = sizes.of(steps) > METHOD;
      steps.forEach(step -> step(inner, step, Loop.NONE, heavy ? PART : METHOD));
      inner.number(DONE);
      inner.op(Opcodes.IRETURN);
    });
    out.ownParameters();
    unit.call(out, method);
    dispatch(out, loop);
  }

  /** Goes where a method's outcome leads. */
  private static void dispatch(Emitter out, Loop loop) {
    int outcome = out.local(1);
    out.load(Opcodes.ISTORE, outcome);
    Label done = new Label();
    out.load(Opcodes.ILOAD, outcome);
    out.jump(Opcodes.IFEQ, done);
    if (loop.exit() != null) {
      out.load(Opcodes.ILOAD, outcome);
      out.number(EXIT);
      out.jump(Opcodes.IF_ICMPEQ, loop.exit());
      out.load(Opcodes.ILOAD, outcome);
      out.number(CONTINUE);
      out.jump(Opcodes.IF_ICMPEQ, loop.next());
    }
    out.load(Opcodes.ILOAD, outcome);
    out.op(Opcodes.IRETURN);
    out.label(done);
  }

  private void step(Emitter out, Step step, Loop around, int allowed) {
    out.line(step.position().line());
    lines.run(out, step.position().line());
    step.accept(new Writer(out, around, allowed));
  }

  /** Writes a step of each kind. */
  private final class Writer implements Step.Visitor<Void> {

    private final Emitter out;
    private final Loop around;
    private final int allowed;

    Writer(Emitter out, Loop around, int allowed) {
      this.out = out;
      this.around = around;
      this.allowed = allowed;
    }

    @Override
    public Void visit(Step.Assign e) {
      stores.assign(out, e);
      return null;
    }

    @Override
    public Void visit(Step.Copy e) {
      stores.copy(out, e);
      return null;
    }

    @Override
    public Void visit(Step.AssignPart e) {
      stores.part(out, e);
      return null;
    }

    @Override
    public Void visit(Step.Bind e) {
      stores.bind(out, e);
      return null;
    }

    @Override
    public Void visit(Step.Run e) {
      blocks.run(out, values, e);
      return null;
    }

    @Override
    public Void visit(Step.Evaluate e) {
      call(out, e.call());
      return null;
    }

    @Override
    public Void visit(Step.If e) {
      branching(out, e, around, allowed);
      return null;
    }

    @Override
    public Void visit(Step.Case e) {
      choice(out, e, around, allowed);
      return null;
    }

    @Override
    public Void visit(Step.For e) {
      loops.counted(out, e, inner(e, allowed));
      return null;
    }

    @Override
    public Void visit(Step.While e) {
      loops.whileLoop(out, e, inner(e, allowed));
      return null;
    }

    @Override
    public Void visit(Step.Repeat e) {
      loops.repeatLoop(out, e, inner(e, allowed));
      return null;
    }

    @Override
    public Void visit(Step.Exit e) {
      leave(around.exit(), EXIT);
      return null;
    }

    @Override
    public Void visit(Step.Continue e) {
      leave(around.next(), CONTINUE);
      return null;
    }

    @Override
    public Void visit(Step.Return e) {
      leave(null, RETURN);
      return null;
    }

    /** Goes to a label of this method, or has the outcome lead further out. */
    private void leave(Label target, int outcome) {
      if (target != null) {
        out.jump(Opcodes.GOTO, target);
      } else {
        out.number(outcome);
        out.op(Opcodes.IRETURN);
      }
    }
  }

  /**
   * Calls a function; its result stays in its slot. All values are computed before the first is stored: they may call
   * it too.
   */
  void call(Emitter out, Value.Call call) {
    List<Value> inputs = call.inputs().stream().map(Value.InputValue::value).toList();
    int[] locals = values.intoLocals(out, inputs);
    for (int i = 0; i < locals.length; i++) {
      Place parameter = call.inputs().get(i).parameter();
      char shape = Emitter.shape(parameter.type());
      stores.place(out, parameter, shape);
      out.load(shape == 'S' ? Opcodes.ALOAD : shape == 'D' ? Opcodes.DLOAD : Opcodes.LLOAD, locals[i]);
      StoreEmitter.store(out, shape);
    }
    call.passes().forEach(step -> step(out, step, Loop.NONE, METHOD));
    out.line(call.position().line());
    blocks.function(out, call.function());
    call.after().forEach(step -> step(out, step, Loop.NONE, METHOD));
  }

  private void branching(Emitter out, Step.If branching, Loop loop, int allowed) {
    Label end = new Label();
    int inner = inner(branching, allowed);
    for (Step.Branch branch : branching.branches()) {
      Label next = new Label();
      out.line(branch.position().line());
      lines.decision(out, values, branch.condition(), branch.position().line(), next);
      list(out, branch.body(), loop, inner);
      out.jump(Opcodes.GOTO, end);
      out.label(next);
    }
    list(out, branching.otherwise(), loop, inner);
    out.label(end);
  }

  private int inner(Step step, int allowed) {
    return sizes.of(step) > allowed || allowed == PART ? PART : allowed;
  }

  private void choice(Emitter out, Step.Case choice, Loop loop, int allowed) {
    Label end = new Label();
    int inner = inner(choice, allowed);
    int selector = out.local(2);
    values.emit(out, choice.selector());
    lines.give(out, 'J', choice.position().line());
    out.load(Opcodes.LSTORE, selector);
    Label[] starts = new Label[choice.choices().size()];
    for (int i = 0; i < starts.length; i++) {
      starts[i] = new Label();
      for (Step.Label label : choice.choices().get(i).labels()) {
        selects(out, selector, label, starts[i]);
      }
    }
    list(out, choice.otherwise(), loop, inner);
    out.jump(Opcodes.GOTO, end);
    for (int i = 0; i < starts.length; i++) {
      out.label(starts[i]);
      list(out, choice.choices().get(i).body(), loop, inner);
      out.jump(Opcodes.GOTO, end);
    }
    out.label(end);
  }

  private static void selects(Emitter out, int selector, Step.Label label, Label start) {
    Label below = new Label();
    out.load(Opcodes.LLOAD, selector);
    out.word(label.low());
    out.op(Opcodes.LCMP);
    if (label.low() == label.high()) {
      out.jump(Opcodes.IFEQ, start);
      return;
    }
    out.jump(Opcodes.IFLT, below);
    out.load(Opcodes.LLOAD, selector);
    out.word(label.high());
    out.op(Opcodes.LCMP);
    out.jump(Opcodes.IFLE, start);
    out.label(below);
  }

  /** Whether values of a type are strings. */
  static boolean isText(LogicType type) {
    return type instanceof LogicType.StringType;
  }
}
