package dev.pawl.fleet.work;

import dev.pawl.run.RunException;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.atomic.AtomicInteger;
import org.apache.flink.api.connector.source.SourceEvent;
import org.apache.flink.api.connector.source.SplitEnumerator;
import org.apache.flink.api.connector.source.SplitEnumeratorContext;
import org.apache.flink.runtime.execution.SuppressRestartsException;

/** Gives each slot a task when it asks for one; so a slow one is not given more than it can do. */
final class TaskEnumerator implements SplitEnumerator<Task, byte[]> {

  /** So often in a row slots may be begun anew, each, without a checkpoint between: then something else is wrong. */
  private static final int MOST_RESTARTS = 100;
  private static final Task.Serializer TASKS = new Task.Serializer();
  private static final long TELL_EVERY = 500_000_000L;

  private final SplitEnumeratorContext<Task> context;
  private final Foreman foreman;
  private final Path folder;
  private final AtomicInteger restarts;
  /** Slots that have asked and got nothing yet. */
  private final Set<Integer> waiting = new LinkedHashSet<>();
  private final Map<Integer, Task> atWork = new HashMap<>();
  private final Endings endings = new Endings();
  /**
   * Tasks whose workers ended: all others come before them. So whatever ends workers again and again takes others down
   * as late as can be, and whoever ends workers at random seldom meets the same task twice.
   */
  private final Deque<Task> later = new ArrayDeque<>();
  private final Owners owners = new Owners();
  private final Tally tally = new Tally();
  private long told = System.nanoTime() - TELL_EVERY;

  /**
   * An enumerator.
   *
   * @param folder of the job, where it says how far it is
   * @param restarts how often slots were begun anew since something was done, of this enumerator and those before it
   */
  TaskEnumerator(SplitEnumeratorContext<Task> context, Foreman.Plan plan, Optional<byte[]> state, Path folder,
      AtomicInteger restarts) {
    this.context = context;
    this.folder = folder;
    this.restarts = restarts;
    this.foreman = plan.begin(state.map(this::read), () -> context.runInCoordinatorThread(this::serve));
  }

  private byte[] read(byte[] state) {
    try (DataInputStream in = new DataInputStream(new ByteArrayInputStream(state))) {
      endings.read(in);
      for (int left = in.readInt(); left > 0; left--) {
        later.add(TASKS.deserialize(TASKS.getVersion(), in.readNBytes(in.readInt())));
      }
      owners.read(in);
      tally.read(in);
      return in.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public byte[] snapshotState(long checkpoint) throws IOException {
    owners.begun(checkpoint);
    ByteArrayOutputStream state = new ByteArrayOutputStream();
    try (DataOutputStream out = new DataOutputStream(state)) {
      endings.write(out);
      out.writeInt(later.size());
      for (Task task : later) {
        byte[] bytes = TASKS.serialize(task);
        out.writeInt(bytes.length);
        out.write(bytes);
      }
      owners.write(out);
      tally.write(out);
      out.write(foreman.state());
    }
    return state.toByteArray();
  }

  @Override
  public void notifyCheckpointComplete(long checkpoint) throws IOException {
    restarts.set(0);
    owners.kept(checkpoint);
    tell();
  }

  @Override
  public void start() {
    // Slots ask by themselves.
    requireProgress(context.currentParallelism());
  }

  @Override
  public void handleSplitRequest(int slot, String host) {
    waiting.add(slot);
    serve();
  }

  private void serve() {
    waiting.retainAll(context.registeredReaders().keySet());
    for (int slot : List.copyOf(waiting)) {
      Optional<Task> task = next();
      if (task.isPresent()) {
        waiting.remove(slot);
        atWork.put(slot, task.get());
        owners.give(task.get().number(), slot);
        context.assignSplit(endings.judged(task.get()), slot);
      } else if (later.isEmpty() && foreman.isDone()) {
        waiting.remove(slot);
        context.signalNoMoreSplits(slot);
      } else {
        return;
      }
    }
  }

  /** None beside a task that is done alone, and one that has to be alone not beside others. */
  private Optional<Task> next() {
    if (atWork.values().stream().anyMatch(endings::isAlone)) {
      return Optional.empty();
    }
    Optional<Task> next = foreman.next();
    boolean wait = next.isPresent() || later.isEmpty() || endings.isAlone(later.peek()) && !atWork.isEmpty();
    return wait ? next : Optional.of(later.poll());
  }

  @Override
  public void addSplitsBack(List<Task> tasks, int slot) {
    waiting.remove(slot);
    Optional.ofNullable(atWork.remove(slot)).ifPresent(task -> endings.add(task, ""));
    requireProgress(1);
    tasks.forEach(task -> takeBack(slot, task));
    serve();
  }

  /** Takes a task back from a slot, unless that was done before. */
  private void takeBack(int slot, Task task) {
    if (!owners.takeBack(task.number(), slot)) {
      return;
    }
    Task asItWas = new Task(task.number(), task.words());
    if (endings.isKnown(asItWas)) {
      later.add(asItWas);
    } else {
      foreman.again(asItWas);
    }
  }

  private void requireProgress(int more) {
    if (restarts.addAndGet(more) > MOST_RESTARTS * context.currentParallelism()) {
      throw new SuppressRestartsException(new RunException("workers ended a hundred times in a row, and"
          + " nothing was done between"));
    }
  }

  @Override
  public void addReader(int slot) {
    // It asks when it is ready.
  }

  @Override
  public void handleSourceEvent(int slot, SourceEvent event) {
    if (event instanceof Said.Held has) {
      Optional.ofNullable(atWork.remove(slot)).ifPresent(task -> endings.add(task, has.why()));
      takeBack(slot, has.task());
      if (context.registeredReaders().containsKey(slot)) {
        context.sendEventToSourceReader(slot, new Said.Drop());
      }
    } else if (event instanceof Said.Done it) {
      done(slot, it);
    }
    serve();
  }

  private void done(int slot, Said.Done it) {
    atWork.remove(slot);
    endings.forget(it.number());
    owners.done(it.number());
    tally.add(it);
    foreman.heard(it.number(), it.words());
    try {
      tell();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void tell() throws IOException {
    if (System.nanoTime() - told >= TELL_EVERY) {
      told = System.nanoTime();
      tally.progress().write(folder);
    }
  }

  @Override
  public void close() {
    foreman.close();
  }
}
