package dev.pawl.fleet.work;

import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.util.HashMap;
import java.util.Map;

/**
 * Which tasks were being done when their workers ended, and how often. A task that takes its worker down must not keep
 * the others from being done; one that only was beside it must not be given up for that.
 */
final class Endings {

  /** A task whose worker ended so often is given up; the last time nothing else is done beside it. */
  static final int MOST = 3;
  private static final int LONGEST = 300;

  private final Map<Integer, Ending> endings = new HashMap<>();

  private record Ending(int times, String why) {}

  /** The worker of a task ended, or the task did badly. */
  void add(Task task, String thrown) {
    String why = thrown.length() > LONGEST ? thrown.substring(0, LONGEST) + "..." : thrown;
    endings.merge(task.number(), new Ending(1, why), (old, one) -> new Ending(old.times() + 1, why));
  }

  private int times(Task task) {
    return endings.getOrDefault(task.number(), new Ending(0, "")).times();
  }

  /** Whether that happened to a task. */
  boolean isKnown(Task task) {
    return times(task) > 0;
  }

  /** Whether nothing else may be done while a task is. */
  boolean isAlone(Task task) {
    return times(task) == MOST - 1;
  }

  /** The task as it is to be handed out. */
  Task judged(Task task) {
    return times(task) < MOST ? task : new Task(task.number(), task.words(), why(endings.get(task.number()).why()));
  }

  private static String why(String thrown) {
    return "its worker ended three times while it worked on this" + (thrown.isEmpty() ? "" : " (" + thrown + ")");
  }

  void forget(int number) {
    endings.remove(number);
  }

  void write(DataOutputStream out) throws IOException {
    out.writeInt(endings.size());
    for (Map.Entry<Integer, Ending> each : endings.entrySet()) {
      out.writeInt(each.getKey());
      out.writeInt(each.getValue().times());
      out.writeUTF(each.getValue().why());
    }
  }

  void read(DataInputStream in) throws IOException {
    for (int left = in.readInt(); left > 0; left--) {
      endings.put(in.readInt(), new Ending(in.readInt(), in.readUTF()));
    }
  }
}
