package dev.pawl.fleet.work;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.apache.flink.api.connector.source.SourceEvent;
import org.apache.flink.api.connector.source.SplitEnumerator;
import org.apache.flink.api.connector.source.SplitEnumeratorContext;

/** Gives each slot a task when it asks for one; so a slow one is not given more than it can do. */
final class TaskEnumerator implements SplitEnumerator<Task, byte[]> {

  private final SplitEnumeratorContext<Task> context;
  private final Foreman foreman;
  /** Slots that have asked and got nothing yet. */
  private final Set<Integer> waiting = new LinkedHashSet<>();

  TaskEnumerator(SplitEnumeratorContext<Task> context, Foreman.Plan plan, Optional<byte[]> state) {
    this.context = context;
    this.foreman = plan.begin(state, () -> context.runInCoordinatorThread(this::serve));
  }

  @Override
  public void start() {
    // Slots ask by themselves.
  }

  @Override
  public void handleSplitRequest(int slot, String host) {
    waiting.add(slot);
    serve();
  }

  private void serve() {
    waiting.retainAll(context.registeredReaders().keySet());
    for (int slot : List.copyOf(waiting)) {
      Optional<Task> task = foreman.next();
      if (task.isPresent()) {
        waiting.remove(slot);
        context.assignSplit(task.get(), slot);
      } else if (foreman.isDone()) {
        waiting.remove(slot);
        context.signalNoMoreSplits(slot);
      } else {
        return;
      }
    }
  }

  @Override
  public void addSplitsBack(List<Task> tasks, int slot) {
    waiting.remove(slot);
    tasks.forEach(foreman::again);
    serve();
  }

  @Override
  public void addReader(int slot) {
    // It asks when it is ready.
  }

  @Override
  public void handleSourceEvent(int slot, SourceEvent event) {
    TaskReader.Heard heard = (TaskReader.Heard) event;
    foreman.heard(heard.number(), heard.words());
    serve();
  }

  @Override
  public byte[] snapshotState(long checkpoint) {
    return foreman.state();
  }

  @Override
  public void close() {
    foreman.close();
  }
}
