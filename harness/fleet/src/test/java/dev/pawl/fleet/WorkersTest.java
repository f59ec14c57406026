package dev.pawl.fleet;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.fleet.archive.Archive;
import dev.pawl.fleet.cluster.Place;
import dev.pawl.fleet.cluster.Processes;
import dev.pawl.fleet.manifest.ManifestReader;
import dev.pawl.fleet.work.Lines;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.flink.api.common.JobStatus;
import org.apache.flink.core.execution.JobClient;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Worker processes on loopback, some of which are killed at their work. */
class WorkersTest {

  /** Seconds: for a machine on which many other things are done. */
  private static final int PATIENCE = 900;

  @TempDir
  private Path folder;
  private SmallArchive archive;

  @BeforeEach
  void write() throws Exception {
    archive = SmallArchive.in(folder);
  }

  /** The command itself, whose workers are two processes beside it. */
  @Test
  void twoWorkersSayWhatACheckSays() throws Exception {
    assertThat(archive.fleet("out", "--workers", "2", "--slots", "2").err()).isEmpty();
    archive.hasReportsOfChecksIn("out");
  }

  /** One of two is killed as soon as the job runs, long before it can be done, and another takes its place. */
  @Test
  void aWorkerThatIsKilledCostsNothing() throws Exception {
    archive.enlarge(60, 100_000);
    killed(1, 11, (port, job) -> job.getJobStatus().get() == JobStatus.RUNNING);
  }

  /** With -Dpawl.rows=N sessions have so many rows, for a machine that is done too soon; -Dpawl.kills=N kills fewer. */
  @Test
  @Tag("soak")
  void twentyWorkersKilledAtRandomCostNothing() throws Exception {
    archive.enlarge(800, Integer.getInteger("pawl.rows", 500_000));
    killed(Integer.getInteger("pawl.kills", 20), Long.getLong("pawl.seed", 20), (port, job) -> rows(port, job) > 0);
  }

  /** Whether a job is at work. */
  private interface AtWork {
    boolean is(int port, JobClient job) throws Exception;
  }

  private void killed(int times, long seed, AtWork atWork) throws Exception {
    Random random = new Random(seed);
    Archive sessions = Archive.of(ManifestReader.read(archive.manifest()), Optional.empty(), SmallArchive.AS_IT_IS, 20);
    Path work = folder.resolve("work");
    try (Processes processes = Processes.start(2, 1, 256, 0, SmallArchive.NO_STORES, Processes.ownClassPath())) {
      Place place = new Place.Cluster(Place.LOOPBACK, processes.port(), 2, List.of());
      JobClient job = sessions.begin(place, work, Archive.lines(work), Duration.ofMillis(500));
      CompletableFuture<?> end = job.getJobExecutionResult();
      requireLoopback();
      Awaitility.await().atMost(PATIENCE, TimeUnit.SECONDS).until(() -> end.isDone() || atWork.is(processes.port(), job));
      assertThat(end).as("seen at work before the end").isNotDone();
      int killed = 0;
      while (killed < times && !end.isDone()) {
        if (times > 1) {
          awaitMore(work, end);
          TimeUnit.MILLISECONDS.sleep(random.nextInt(700));
        }
        List<Integer> alive = processes.workers();
        if (!end.isDone()) {
          processes.kill(alive.get(random.nextInt(alive.size())));
          processes.startWorker();
          killed++;
        }
      }
      assertThat(killed).as("kills before the end").isEqualTo(times);
      end.get(PATIENCE, TimeUnit.SECONDS);
    }
    Lines lines = Archive.lines(work);
    assertThat(lines.doubled()).isZero();
    assertThat(sessions.isWhole(lines)).isTrue();
    Path together = folder.resolve("together");
    Lines undisturbed = undisturbed(sessions, together);
    for (int number = 0; number < undisturbed.size(); number++) {
      assertThat(lines.words(number)).isEqualTo(undisturbed.words(number));
    }
  }

  /** Rows that were judged, as Flink's metrics have it over all slots. */
  private static double rows(int port, JobClient job) throws Exception {
    String jobs = "http://localhost:" + port + "/jobs/" + job.getJobID();
    Matcher tasks = Pattern.compile("\"vertices\":\\[\\{\"id\":\"(\\w+)\"").matcher(get(jobs));
    assertThat(tasks.find()).isTrue();
    String metrics = jobs + "/vertices/" + tasks.group(1) + "/subtasks/metrics";
    Matcher name = Pattern.compile("\"([^\"]*tasks[.]pawl[.]rows)\"").matcher(get(metrics));
    if (!name.find()) {
      return 0;
    }
    Matcher sum = Pattern.compile("\"sum\":([0-9.E]+)").matcher(get(metrics + "?get=" + name.group(1) + "&agg=sum"));
    return sum.find() ? Double.parseDouble(sum.group(1)) : 0;
  }

  private static String get(String address) throws Exception {
    return HttpClient.newHttpClient().send(HttpRequest.newBuilder(URI.create(address)).build(),
        HttpResponse.BodyHandlers.ofString()).body();
  }

  /** Whatever the processes listen at is an address of this machine alone, where the system shows it. */
  private static void requireLoopback() throws IOException {
    if (!Files.exists(Path.of("/proc/net/tcp6"))) {
      return;
    }
    Set<String> sockets = new HashSet<>();
    for (ProcessHandle process : ProcessHandle.current().descendants().toList()) {
      try (Stream<Path> open = Files.list(Path.of("/proc/" + process.pid() + "/fd"))) {
        for (Path each : open.toList()) {
          try {
            sockets.add(Files.readSymbolicLink(each).toString().replaceAll("socket:\\[(\\d+)]", "$1"));
          } catch (NoSuchFileException closedMeanwhile) {
            continue;
          }
        }
      }
    }
    List<String> listening = new ArrayList<>();
    for (String table : List.of("tcp", "tcp6")) {
      for (String line : Files.readAllLines(Path.of("/proc/net/" + table))) {
        String[] columns = line.strip().split("\\s+");
        if (columns[3].equals("0A") && sockets.contains(columns[9])) {
          listening.add(columns[1].replaceAll(":.*", ""));
        }
      }
    }
    assertThat(listening).hasSizeGreaterThan(3).allMatch(address -> address.endsWith("0100007F")
        || address.equals("00000000000000000000000001000000"));
  }

  private Lines undisturbed(Archive sessions, Path place) throws Exception {
    sessions.begin(new Place.Here(2, 0), place, Archive.lines(place), Duration.ofMillis(200)).getJobExecutionResult()
        .get(PATIENCE, TimeUnit.SECONDS);
    return Archive.lines(place);
  }

  /** Waits until more is done than was when it was asked. */
  private static void awaitMore(Path work, CompletableFuture<?> end) throws Exception {
    int before = Archive.lines(work).size();
    Awaitility.await().atMost(PATIENCE, TimeUnit.SECONDS).until(() -> end.isDone() || Archive.lines(work).size() > before);
  }
}
