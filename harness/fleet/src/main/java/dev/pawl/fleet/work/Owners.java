package dev.pawl.fleet.work;

import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.util.HashMap;
import java.util.Map;

/**
 * Which slot has a task, until a checkpoint has what it came to: a slot that goes on from an earlier checkpoint may
 * have one that was taken back from it since.
 */
final class Owners {

  private final Map<Integer, Integer> slots = new HashMap<>();
  /** Tasks that were done and still have an owner, with the checkpoint before. */
  private final Map<Integer, Long> done = new HashMap<>();
  private long lastCheckpoint;

  void give(int task, int slot) {
    slots.put(task, slot);
  }

  /** Takes a task back; whether the slot still had it. */
  boolean takeBack(int task, int slot) {
    boolean had = slots.remove(task, slot);
    if (had) {
      done.remove(task);
    }
    return had;
  }

  void done(int task) {
    done.put(task, lastCheckpoint);
  }

  void begun(long checkpoint) {
    lastCheckpoint = checkpoint;
  }

  /** What was done before a checkpoint is kept by it. */
  void kept(long checkpoint) {
    done.entrySet().removeIf(task -> {
      boolean kept = task.getValue() < checkpoint;
      if (kept) {
        slots.remove(task.getKey());
      }
      return kept;
    });
  }

  void read(DataInputStream in) throws IOException {
    for (int left = in.readInt(); left > 0; left--) {
      slots.put(in.readInt(), in.readInt());
    }
  }

  void write(DataOutputStream out) throws IOException {
    out.writeInt(slots.size());
    for (Map.Entry<Integer, Integer> owner : slots.entrySet()) {
      out.writeInt(owner.getKey());
      out.writeInt(owner.getValue());
    }
  }
}
