package dev.pawl.logic;

import dev.pawl.logic.code.CodeOptions;
import dev.pawl.logic.runtime.BlockOptions;

/**
 * What the standard or its implementations leave open.
 *
 * @param code arithmetic and evaluation
 * @param blocks standard function blocks
 * @param watchdog statements that the passes of loops and the calls of one scan may run before it counts as endless
 */
public record LogicOptions(CodeOptions code, BlockOptions blocks, long watchdog) {

  public static final LogicOptions DEFAULT = new LogicOptions(CodeOptions.DEFAULT, BlockOptions.DEFAULT, 10_000_000);
}
