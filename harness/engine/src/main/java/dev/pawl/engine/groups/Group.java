package dev.pawl.engine.groups;

import dev.pawl.engine.evaluation.Evaluation;
import java.util.ArrayDeque;

/**
 * Rules that are evaluated together, and the blocks that are on their way to them. What is not final is the crew's to
 * guard.
 */
final class Group {

  final int index;
  final Evaluation part;

  /** Full blocks, the oldest first. */
  final ArrayDeque<Block> blocks = new ArrayDeque<>();

  /** Whether the group is lined up for, or in the hands of, a thread. */
  boolean taken;

  Group(int index, Evaluation part) {
    this.index = index;
    this.part = part;
  }

  void judge(Block block) {
    block.play(index, part);
  }
}
