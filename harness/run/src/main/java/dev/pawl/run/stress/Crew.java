package dev.pawl.run.stress;

import dev.pawl.run.RunException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.IntFunction;

/** Threads that work on numbered things, whose results come in the order of the numbers. */
final class Crew implements AutoCloseable {

  private final ExecutorService workers;

  Crew(int jobs) {
    workers = Executors.newFixedThreadPool(jobs);
  }

  /** Works on the numbers of a stretch; what was kept of an earlier time is taken over, and the rest is kept. */
  <T> List<Future<T>> work(int from, int to, RunLog<T> log, IntFunction<Callable<T>> work) {
    Map<Integer, T> kept = log.before(to);
    List<Future<T>> waiting = new ArrayList<>();
    for (int number = from; number < to; number++) {
      int own = number;
      Callable<T> one = work.apply(number);
      waiting.add(kept.containsKey(number) ? CompletableFuture.completedFuture(kept.get(number)) : submit(() -> {
        T result = one.call();
        log.add(own, result);
        return result;
      }));
    }
    return waiting;
  }

  <T> Future<T> submit(Callable<T> work) {
    return workers.submit(work);
  }

  /** Waits for a result; what went wrong there goes wrong here. */
  static <T> T get(Future<T> future) {
    try {
      return future.get();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new RunException("interrupted");
    } catch (ExecutionException e) {
      if (e.getCause() instanceof RuntimeException problem) {
        throw problem;
      }
      throw new IllegalStateException(e.getCause());
    }
  }

  @Override
  public void close() {
    workers.shutdownNow();
  }
}
