package dev.pawl.fleet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.pawl.fleet.cluster.Place;
import dev.pawl.fleet.cluster.Processes;
import dev.pawl.fleet.work.Foreman;
import dev.pawl.fleet.work.Job;
import dev.pawl.fleet.work.Lines;
import dev.pawl.fleet.work.Progress;
import dev.pawl.fleet.work.Task;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.apache.flink.core.execution.JobClient;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A task that takes its worker down each time is a result, and those beside it are done. */
class EndingWorkersTest {

  /** Seconds: for a machine on which many other things are done. */
  private static final int PATIENCE = 900;

  @TempDir
  private Path folder;

  /** Two slots share the process that one of the tasks ends, so that others are ended with them. */
  @Test
  void aTaskThatEndsItsProcess() throws Exception {
    try (Processes processes = Processes.start(1, 2, 64, 0, SmallArchive.NO_STORES, Processes.ownClassPath())) {
      Place place = new Place.Cluster(Place.LOOPBACK, processes.port(), 2, List.of());
      CompletableFuture<?> end = begin(place, words(8, Dangerous.DEADLY, 1), false).getJobExecutionResult();
      Awaitility.await().atMost(PATIENCE, TimeUnit.SECONDS).until(() -> {
        processes.tend(Progress.in(folder).done());
        return end.isDone();
      });
      end.get();
    }
    requireAll(8, "its worker ended three times while it worked on this", 1);
  }

  @Test
  void aTaskThatNeedsTooMuchMemory() throws Exception {
    begin(new Place.Here(2, 0), words(8, Dangerous.LARGE, 3), false).getJobExecutionResult().get(PATIENCE,
        TimeUnit.SECONDS);
    requireAll(8, "its worker ended three times while it worked on this (java.lang.OutOfMemoryError: no room)", 3);
  }

  @Test
  void aTaskThatHasMemoryEnoughTheSecondTime() throws Exception {
    begin(new Place.Here(2, 0), words(4, Dangerous.LARGE_AT_FIRST, 2), false).getJobExecutionResult().get(PATIENCE,
        TimeUnit.SECONDS);
    requireAll(4, "");
  }

  /** Work that cannot do without a task says so, and is not begun again and again. */
  @Test
  void workThatNeedsEachTask() {
    assertThatThrownBy(() -> begin(new Place.Here(2, 0), words(4, Dangerous.LARGE, 1), true).getJobExecutionResult()
        .get(PATIENCE, TimeUnit.SECONDS)).rootCause().hasMessageContaining("task 1: its worker ended three times");
  }

  private JobClient begin(Place place, List<String> words, boolean needsAll) throws Exception {
    List<Task> tasks = IntStream.range(0, words.size()).mapToObj(number -> new Task(number, words.get(number)))
        .toList();
    return new Job("dangerous", Foreman.over(folder, tasks), new Dangerous(folder.resolve("memory").toString(),
        needsAll)).begin(place, folder, Duration.ofMillis(300));
  }

  private static List<String> words(int count, String bad, int... which) {
    return IntStream.range(0, count).mapToObj(number -> IntStream.of(which).anyMatch(it -> it == number) ? bad
        : Dangerous.FINE).toList();
  }

  private void requireAll(int count, String why, int... bad) throws Exception {
    Lines lines = Lines.in(Job.lines(folder));
    assertThat(lines.size()).isEqualTo(count);
    assertThat(lines.doubled()).isZero();
    for (int number = 0; number < count; number++) {
      int own = number;
      boolean isBad = IntStream.of(bad).anyMatch(it -> it == own);
      assertThat(lines.words(number)).isEqualTo(isBad ? why : "done");
      assertThat(lines.isDone(number)).isEqualTo(!isBad);
    }
    assertThat(Progress.in(folder).done()).isLessThanOrEqualTo(count);
  }
}
