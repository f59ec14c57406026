package dev.pawl.fleet.work;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.BitSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
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
  private static final long TELL_EVERY = 500_000_000L;

  private final SplitEnumeratorContext<Task> context;
  private final Foreman foreman;
  private final Path folder;
  private final AtomicInteger restarts;
  /** Slots that have asked and got nothing yet. */
  private final Set<Integer> waiting = new LinkedHashSet<>();
  /** Slots that have a task and wait until they may begin it. */
  private final Map<Integer, Task> held = new LinkedHashMap<>();
  private final Map<Integer, Task> atWork = new HashMap<>();
  private final Endings endings = new Endings();
  /** A task that has to wait until nothing else is done. */
  private Optional<Task> next = Optional.empty();
  private final BitSet done = new BitSet();
  private int bad;
  private long rows;
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
      bad = in.readInt();
      rows = in.readLong();
      done.or(BitSet.valueOf(in.readNBytes(in.readInt())));
      return in.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public byte[] snapshotState(long checkpoint) throws IOException {
    next.ifPresent(foreman::again);
    next = Optional.empty();
    ByteArrayOutputStream state = new ByteArrayOutputStream();
    try (DataOutputStream out = new DataOutputStream(state)) {
      endings.write(out);
      out.writeInt(bad);
      out.writeLong(rows);
      byte[] bits = done.toByteArray();
      out.writeInt(bits.length);
      out.write(bits);
      out.write(foreman.state());
    }
    return state.toByteArray();
  }

  @Override
  public void notifyCheckpointComplete(long checkpoint) throws IOException {
    restarts.set(0);
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
    held.keySet().retainAll(context.registeredReaders().keySet());
    for (int slot : List.copyOf(held.keySet())) {
      if (!mayBegin(held.get(slot))) {
        return;
      }
      Task task = begun(slot, held.remove(slot));
      context.sendEventToSourceReader(slot, new Said.Begin(task));
    }
    for (int slot : List.copyOf(waiting)) {
      next = next.or(foreman::next);
      if (next.isPresent()) {
        if (!mayBegin(next.get())) {
          return;
        }
        waiting.remove(slot);
        context.assignSplit(begun(slot, next.get()), slot);
        next = Optional.empty();
      } else if (foreman.isDone()) {
        waiting.remove(slot);
        context.signalNoMoreSplits(slot);
      } else {
        return;
      }
    }
  }

  /** Not beside a task that is done alone, and one that has to be alone not beside others. */
  private boolean mayBegin(Task task) {
    return atWork.isEmpty() || !endings.isAlone(task) && atWork.values().stream().noneMatch(endings::isAlone);
  }

  private Task begun(int slot, Task task) {
    atWork.put(slot, task);
    return endings.judged(task);
  }

  @Override
  public void addSplitsBack(List<Task> tasks, int slot) {
    waiting.remove(slot);
    held.remove(slot);
    Optional.ofNullable(atWork.remove(slot)).ifPresent(task -> endings.add(task, ""));
    requireProgress(1);
    tasks.forEach(task -> foreman.again(new Task(task.number(), task.words())));
    serve();
  }

  private void requireProgress(int more) {
    if (restarts.addAndGet(more) > MOST_RESTARTS * context.currentParallelism()) {
      throw new SuppressRestartsException(new IllegalStateException("workers ended a hundred times in a row, and"
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
      Task task = new Task(has.task().number(), has.task().words());
      if (atWork.remove(slot, task)) {
        endings.add(task, has.why());
      }
      held.put(slot, task);
    } else if (event instanceof Said.Done it) {
      done(slot, it);
    }
    serve();
  }

  private void done(int slot, Said.Done it) {
    atWork.remove(slot);
    endings.forget(it.number());
    if (!done.get(it.number())) {
      done.set(it.number());
      bad += it.bad() ? 1 : 0;
      rows += it.rows();
    }
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
      new Progress(done.cardinality(), bad, rows).write(folder);
    }
  }

  @Override
  public void close() {
    foreman.close();
  }
}
