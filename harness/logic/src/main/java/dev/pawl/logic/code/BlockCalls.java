package dev.pawl.logic.code;

import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.StandardBlock;
import dev.pawl.grammar.logic.model.Step;
import dev.pawl.grammar.logic.model.Unit;
import dev.pawl.logic.runtime.StandardBlocks;
import java.util.List;
import org.objectweb.asm.Opcodes;
import org.objectweb.asm.Type;

/** The writer of calls from unit to unit. */
final class BlockCalls {

  private static final String BLOCKS = Type.getInternalName(StandardBlocks.class);

  private final List<Unit> units;

  BlockCalls(List<Unit> units) {
    this.units = units;
  }

  void function(Emitter out, int index) {
    out.memory();
    out.words();
    out.call(UnitCode.className(units.get(index)), UnitCode.BODY, Emitter.descriptor(false));
    out.op(Opcodes.POP);
  }

  void run(Emitter out, ValueEmitter values, Step.Run run) {
    if (run.block().standard().isPresent()) {
      standard(out, values, run, run.block().standard().get());
      return;
    }
    Unit unit = units.stream().filter(candidate -> candidate.block().filter(block -> block == run.block()).isPresent())
        .findFirst().orElseThrow();
    out.memory();
    out.words();
    values.address(out, run.instance());
    out.line(run.position().line());
    out.call(UnitCode.className(unit), UnitCode.BODY, Emitter.descriptor(true));
    out.op(Opcodes.POP);
  }

  private static void standard(Emitter out, ValueEmitter values, Step.Run run, StandardBlock block) {
    boolean clock = List.of("TON", "TOF", "TP", "F_TRIG").contains(block.family());
    if (clock) {
      out.memory();
    }
    out.words();
    values.address(out, run.instance());
    Elementary counted = block.counted();
    switch (block.family()) {
      case "SR" -> out.call(BLOCKS, "sr", "([JI)V");
      case "RS" -> out.call(BLOCKS, "rs", "([JI)V");
      case "R_TRIG" -> out.call(BLOCKS, "risingEdge", "([JI)V");
      case "F_TRIG" -> out.call(BLOCKS, "fallingEdge", "(L" + Emitter.MEMORY + ";[JI)V");
      case "TON" -> out.call(BLOCKS, "onDelay", "(L" + Emitter.MEMORY + ";[JI)V");
      case "TOF" -> out.call(BLOCKS, "offDelay", "(L" + Emitter.MEMORY + ";[JI)V");
      case "TP" -> out.call(BLOCKS, "pulse", "(L" + Emitter.MEMORY + ";[JI)V");
      case "CTU" -> {
        out.word(counted.greatest().longValue());
        out.number(counted.isUnsigned() ? 1 : 0);
        out.call(BLOCKS, "countUp", "([JIJZ)V");
      }
      case "CTD" -> {
        out.word(counted.least().longValue());
        out.call(BLOCKS, "countDown", "([JIJ)V");
      }
      case "CTUD" -> {
        out.word(counted.least().longValue());
        out.word(counted.greatest().longValue());
        out.number(counted.isUnsigned() ? 1 : 0);
        out.call(BLOCKS, "countBoth", "([JIJJZ)V");
      }
      default -> throw new IllegalStateException(block.name());
    }
  }
}
