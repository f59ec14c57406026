package dev.pawl.engine.divided;

import dev.pawl.engine.part.Part;
import java.util.ArrayDeque;

/**
 * Rules that are evaluated together, and the blocks that are on their way to them. What is not final is the crew's to
 * guard.
 */
final class Group {

  final int index;
  final Part part;

  /** Full blocks, the oldest first. */
  final ArrayDeque<Block> blocks = new ArrayDeque<>();

  /** Whether the group is lined up for, or in the hands of, a thread. */
  boolean taken;

  Group(int index, Part part) {
    this.index = index;
    this.part = part;
  }

  void judge(Block block) {
    block.play(index, part);
  }
}
