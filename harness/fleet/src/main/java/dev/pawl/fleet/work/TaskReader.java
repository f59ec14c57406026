package dev.pawl.fleet.work;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.apache.flink.api.connector.source.ReaderOutput;
import org.apache.flink.api.connector.source.SourceEvent;
import org.apache.flink.api.connector.source.SourceReader;
import org.apache.flink.api.connector.source.SourceReaderContext;
import org.apache.flink.core.io.InputStatus;
import org.apache.flink.metrics.Counter;
import org.apache.flink.metrics.MetricGroup;

/**
 * Does the tasks of one slot, one at a time, on a thread of its own, so that Flink's goes on meanwhile and a checkpoint
 * waits for no task. All methods are called on Flink's thread.
 */
final class TaskReader implements SourceReader<String, Task> {

  /** The names under which Flink's metrics have the counts. */
  static final String GROUP = "pawl";
  static final String DONE = "tasksDone";
  static final String BAD = "tasksBad";
  static final String ROWS = "rows";

  private final SourceReaderContext context;
  private final Work work;
  private final boolean heard;
  private final Counter done;
  private final Counter bad;
  private final Counter rows;
  private final Deque<Task> waiting = new ArrayDeque<>();
  private final ExecutorService thread;
  private Optional<Work.Worker> worker = Optional.empty();
  private Optional<Running> running = Optional.empty();
  private boolean noMore;
  private CompletableFuture<Void> available = new CompletableFuture<>();

  /** A task that is being done. */
  private record Running(Task task, CompletableFuture<Work.Done> result) {}

  /** What a task came to, told to the foreman. */
  record Heard(int number, String words) implements SourceEvent {}

  TaskReader(SourceReaderContext context, Work work, boolean heard) {
    this.context = context;
    this.work = work;
    this.heard = heard;
    MetricGroup counts = context.metricGroup().addGroup(GROUP);
    done = counts.counter(DONE);
    bad = counts.counter(BAD);
    rows = counts.counter(ROWS);
    ClassLoader loader = context.getUserCodeClassLoader().asClassLoader();
    thread = Executors.newSingleThreadExecutor(task -> {
      Thread own = new Thread(task, "pawl-task");
      own.setDaemon(true);
      own.setContextClassLoader(loader);
      return own;
    });
  }

  @Override
  public void start() {
    if (waiting.isEmpty()) {
      context.sendSplitRequest();
    }
  }

  @Override
  public void addSplits(List<Task> tasks) {
    waiting.addAll(tasks);
    available.complete(null);
  }

  @Override
  public void notifyNoMoreSplits() {
    noMore = true;
    available.complete(null);
  }

  @Override
  public InputStatus pollNext(ReaderOutput<String> output) throws Exception {
    if (running.isPresent() && running.get().result().isDone()) {
      finish(running.get(), output);
    }
    if (running.isEmpty() && !waiting.isEmpty()) {
      begin(waiting.poll());
    }
    if (running.isEmpty() && noMore) {
      return InputStatus.END_OF_INPUT;
    }
    available = running.isPresent() ? running.get().result().handle((result, problem) -> null)
        : new CompletableFuture<>();
    return InputStatus.NOTHING_AVAILABLE;
  }

  private void begin(Task task) {
    CompletableFuture<Work.Done> result = new CompletableFuture<>();
    thread.execute(() -> {
      try {
        result.complete(worker().done(task));
      } catch (Throwable problem) {
        result.completeExceptionally(problem);
      }
    });
    running = Optional.of(new Running(task, result));
  }

  /** On the thread of the tasks, which alone has it. */
  private Work.Worker worker() {
    worker = worker.or(() -> Optional.of(work.open()));
    return worker.get();
  }

  private void finish(Running own, ReaderOutput<String> output) throws Exception {
    Work.Done result;
    try {
      result = own.result().get();
    } catch (ExecutionException e) {
      throw new IllegalStateException("task " + own.task().number() + " ended badly", e.getCause());
    }
    output.collect(Lines.line(own.task().number(), result));
    running = Optional.empty();
    done.inc();
    rows.inc(result.rows());
    bad.inc(result.bad() ? 1 : 0);
    if (heard) {
      context.sendSourceEventToCoordinator(new Heard(own.task().number(), result.words()));
    }
    if (waiting.isEmpty() && !noMore) {
      context.sendSplitRequest();
    }
  }

  @Override
  public List<Task> snapshotState(long checkpoint) {
    List<Task> tasks = new ArrayList<>();
    running.ifPresent(own -> tasks.add(own.task()));
    tasks.addAll(waiting);
    return tasks;
  }

  @Override
  public CompletableFuture<Void> isAvailable() {
    return available;
  }

  @Override
  public void close() {
    thread.shutdownNow();
  }
}
