package dev.pawl.logic;

import dev.pawl.grammar.logic.model.BlockType;
import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.grammar.logic.model.Code;
import dev.pawl.grammar.logic.model.Place;
import dev.pawl.grammar.logic.model.Step;
import dev.pawl.grammar.logic.model.Task;
import dev.pawl.grammar.logic.model.Unit;
import dev.pawl.grammar.logic.model.Value;
import java.util.BitSet;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * Which tasks of a program may read or write which slots. An array that is indexed by a variable counts whole, and what
 * is passed by VAR_IN_OUT as both read and written.
 */
final class TaskAccess {

  private final CheckedProgram program;
  private final Map<BlockType, Unit> blocks = new IdentityHashMap<>();
  private final BitSet[] read;
  private final BitSet[] written;

  TaskAccess(CheckedProgram program) {
    this.program = program;
    program.units().forEach(unit -> unit.block().ifPresent(block -> blocks.put(block, unit)));
    List<Task> tasks = program.tasks();
    this.read = new BitSet[tasks.size()];
    this.written = new BitSet[tasks.size()];
    for (int i = 0; i < read.length; i++) {
      read[i] = new BitSet();
      written[i] = new BitSet();
      Walk walk = new Walk(read[i], written[i], new HashSet<>());
      tasks.get(i).programs().forEach(unit -> walk.run(program.units().get(unit), Room.NONE));
      tasks.get(i).single().ifPresent(read[i]::set);
    }
  }

  /** The tasks that may read a slot, or are started by it, by index. */
  int[] readers(int slot) {
    return IntStream.range(0, read.length).filter(task -> read[task].get(slot)).toArray();
  }

  /** The tasks that may write a slot, by index. */
  int[] writers(int slot) {
    return IntStream.range(0, written.length).filter(task -> written[task].get(slot)).toArray();
  }

  /**
   * Where the function block instance that runs may begin.
   *
   * @param from the first slot; -1 where that is not known, since the instance was passed by VAR_IN_OUT
   * @param span how many slots later it may begin too
   */
  private record Room(int from, int span) {
    static final Room NONE = new Room(-1, 0);
  }

  private record Run(int unit, Room room) {}

  /** All that one task runs. */
  private final class Walk implements Step.Visitor<Void> {

    private final BitSet reads;
    private final BitSet writes;
    private final Set<Run> seen;
    private Room room = Room.NONE;

    Walk(BitSet reads, BitSet writes, Set<Run> seen) {
      this.reads = reads;
      this.writes = writes;
      this.seen = seen;
    }

    void run(Unit unit, Room where) {
      if (seen.add(new Run(unit.index(), where))) {
        Room before = room;
        room = where;
        unit.body().forEach(this::step);
        room = before;
      }
    }

    private void step(Step step) {
      step.accept(this);
      step.parts().forEach(this::part);
    }

    private void part(Code part) {
      if (part instanceof Step step) {
        step(step);
        return;
      }
      if (part instanceof Value.Load load) {
        touch(load.place(), reads);
      } else if (part instanceof Value.Call call) {
        call.inputs().forEach(input -> touch(input.parameter(), writes));
        touch(call.result(), reads);
        run(program.units().get(call.function()), Room.NONE);
      }
      part.parts().forEach(this::part);
    }

    private Room room(Place place) {
      int span = place.steps().stream().mapToInt(index -> (int) (index.high() - index.low()) * index.stride()).sum();
      return place.anchor().match(fixed -> new Room(place.offset(), span), instance -> room.from() < 0 ? Room.NONE
          : new Room(room.from() + place.offset(), room.span() + span), pointer -> Room.NONE);
    }

    private Void touch(Place place, BitSet slots) {
      Room where = room(place);
      if (where.from() >= 0) {
        slots.set(where.from(), where.from() + where.span() + Math.max(1, place.type().size()));
      }
      return null;
    }

    private Void both(Place place) {
      touch(place, reads);
      return touch(place, writes);
    }

    @Override public Void visit(Step.Assign e) { return touch(e.target(), writes); }
    @Override public Void visit(Step.AssignPart e) { return both(e.target()); }
    @Override public Void visit(Step.Bind e) { return both(e.target()); }
    @Override public Void visit(Step.For e) { return both(e.variable()); }
    @Override public Void visit(Step.Evaluate e) { return null; }
    @Override public Void visit(Step.If e) { return null; }
    @Override public Void visit(Step.Case e) { return null; }
    @Override public Void visit(Step.While e) { return null; }
    @Override public Void visit(Step.Repeat e) { return null; }
    @Override public Void visit(Step.Exit e) { return null; }
    @Override public Void visit(Step.Continue e) { return null; }
    @Override public Void visit(Step.Return e) { return null; }

    @Override
    public Void visit(Step.Copy e) {
      touch(e.source(), reads);
      return touch(e.target(), writes);
    }

    @Override
    public Void visit(Step.Run e) {
      Unit unit = blocks.get(e.block());
      if (unit == null) {
        return both(e.instance());
      }
      run(unit, room(e.instance()));
      return null;
    }
  }
}
