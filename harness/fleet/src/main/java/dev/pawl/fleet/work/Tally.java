package dev.pawl.fleet.work;

import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.util.BitSet;

/** How far a job is; a task that is done again after a failure counts once. */
final class Tally {

  private final BitSet done = new BitSet();
  private int bad;
  private long rows;

  void add(Said.Done task) {
    if (!done.get(task.number())) {
      done.set(task.number());
      bad += task.bad() ? 1 : 0;
      rows += task.rows();
    }
  }

  Progress progress() {
    return new Progress(done.cardinality(), bad, rows);
  }

  void read(DataInputStream in) throws IOException {
    bad = in.readInt();
    rows = in.readLong();
    done.or(BitSet.valueOf(in.readNBytes(in.readInt())));
  }

  void write(DataOutputStream out) throws IOException {
    out.writeInt(bad);
    out.writeLong(rows);
    byte[] bits = done.toByteArray();
    out.writeInt(bits.length);
    out.write(bits);
  }
}
