package dev.pawl.fleet.work;

import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.stream.Stream;
import org.apache.flink.api.connector.source.ReaderOutput;
import org.apache.flink.api.connector.source.SourceEvent;
import org.apache.flink.api.connector.source.SourceReader;
import org.apache.flink.api.connector.source.SourceReaderContext;
import org.apache.flink.core.io.InputStatus;
import org.apache.flink.metrics.Counter;
import org.apache.flink.metrics.MetricGroup;
import org.apache.flink.runtime.execution.SuppressRestartsException;

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
  private final ExecutorService thread;
  private Optional<Work.Worker> worker = Optional.empty();
  /** A task that was not come to the end of, until the coordinator has taken it back. */
  private Optional<Task> held = Optional.empty();
  private Optional<Task> next = Optional.empty();
  private Optional<Running> running = Optional.empty();
  private boolean started;
  private boolean noMore;
  private CompletableFuture<Void> available = new CompletableFuture<>();

  /** A task that is being done. */
  private record Running(Task task, CompletableFuture<Work.Done> result) {}

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
    started = true;
    held.ifPresentOrElse(task -> context.sendSourceEventToCoordinator(new Said.Held(task, "")),
        context::sendSplitRequest);
  }

  /** The coordinator gives one at a time; before the start it is the one that was there when a worker ended. */
  @Override
  public void addSplits(List<Task> tasks) {
    if (tasks.size() != 1) {
      throw new IllegalStateException(tasks.size() + " tasks for one slot");
    }
    if (started) {
      next = Optional.of(tasks.get(0));
      available.complete(null);
    } else {
      held = Optional.of(tasks.get(0));
    }
  }

  @Override
  public void handleSourceEvents(SourceEvent event) {
    held = Optional.empty();
    context.sendSplitRequest();
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
    next.ifPresent(this::begin);
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
        result.complete(task.givenUp().isEmpty() ? worker().done(task) : work.givenUp(task));
      } catch (Throwable problem) {
        // What is left of it may be of no use any more.
        worker = Optional.empty();
        result.completeExceptionally(problem);
      }
    });
    next = Optional.empty();
    running = Optional.of(new Running(task, result));
  }

  /** On the thread of the tasks, which alone has it. */
  private Work.Worker worker() {
    worker = worker.or(() -> Optional.of(work.open()));
    return worker.get();
  }

  private void finish(Running own, ReaderOutput<String> output) throws Exception {
    running = Optional.empty();
    Work.Done result;
    try {
      result = own.result().get();
    } catch (ExecutionException e) {
      if (e.getCause() instanceof SuppressRestartsException end) {
        throw end;
      }
      held = Optional.of(own.task());
      context.sendSourceEventToCoordinator(new Said.Held(own.task(), e.getCause().toString()));
      return;
    }
    output.collect(Lines.line(own.task().number(), result));
    // Else Flink keeps metrics of each task to the end.
    output.releaseOutputForSplit(own.task().splitId());
    done.inc();
    rows.inc(result.rows());
    bad.inc(result.bad() ? 1 : 0);
    context.sendSourceEventToCoordinator(new Said.Done(own.task().number(), result.rows(), result.bad(), heard
        ? result.words() : ""));
    context.sendSplitRequest();
  }

  @Override
  public List<Task> snapshotState(long checkpoint) {
    return Stream.of(running.map(Running::task), held, next).flatMap(Optional::stream).toList();
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
