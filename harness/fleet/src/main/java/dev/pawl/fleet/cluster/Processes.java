package dev.pawl.fleet.cluster;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.ProcessBuilder.Redirect;
import java.net.ConnectException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.flink.configuration.BlobServerOptions;
import org.apache.flink.configuration.Configuration;
import org.apache.flink.configuration.CoreOptions;
import org.apache.flink.configuration.HeartbeatManagerOptions;
import org.apache.flink.configuration.JobManagerOptions;
import org.apache.flink.configuration.MemorySize;
import org.apache.flink.configuration.TaskManagerOptions;

/**
 * A coordinator and workers as processes of this machine, by Java alone; they listen on loopback. Whoever started them
 * ends them.
 */
public final class Processes implements AutoCloseable {

  private static final String COORDINATOR = "org.apache.flink.runtime.entrypoint.StandaloneSessionClusterEntrypoint";
  private static final String WORKER = "org.apache.flink.runtime.taskexecutor.TaskManagerRunner";
  private static final int MOST_ENDED = 20;
  /** Megabytes. */
  private static final int HEAP_OF_FLINK = 192;
  private static final int HEAP_OF_COORDINATOR = 512;
  private static final Duration START = Duration.ofMinutes(3);

  private final Path folder;
  private final int port;
  private final Stores stores;
  private final String classPath;
  private final int heap;
  private final Process coordinator;
  private final Map<Integer, Process> workers = new TreeMap<>();
  private int begun;
  /** How many ended since something was done. */
  private int ended;
  private int done;

  private Processes(Path folder, int port, Stores stores, String classPath, int heap, Process coordinator) {
    this.folder = folder;
    this.port = port;
    this.stores = stores;
    this.classPath = classPath;
    this.heap = heap;
    this.coordinator = coordinator;
  }

  /** The class path of this process, as one that its children can be given. */
  public static String ownClassPath() {
    return System.getProperty("java.class.path");
  }

  /**
   * Starts them, and waits until the coordinator answers.
   *
   * @param slots of each worker
   * @param memory megabytes of each slot
   * @param page port of Flink's page; 0 for a free one
   * @param stores where traces with addresses are
   */
  public static Processes start(int workers, int slots, int memory, int page, Stores stores, String classPath)
      throws IOException {
    int port = page == 0 ? freePort() : page;
    Path folder = Files.createTempDirectory("pawl-fleet-");
    Configuration settings = new Configuration(stores.settings());
    Place.loopback(settings, port);
    settings.set(JobManagerOptions.PORT, freePort());
    settings.set(BlobServerOptions.PORT, "0");
    settings.set(CoreOptions.TMP_DIRS, folder.toString());
    memory(settings, slots, memory);
    settings.set(HeartbeatManagerOptions.HEARTBEAT_INTERVAL, Duration.ofSeconds(1));
    // A worker that ended is known by its shut door at once; one that is silent may only be on a busy machine.
    settings.set(HeartbeatManagerOptions.HEARTBEAT_TIMEOUT, Duration.ofSeconds(60));
    Files.writeString(folder.resolve("config.yaml"), settings.toMap().entrySet().stream().map(entry -> entry.getKey()
        + ": " + quoted(entry.getValue()) + "\n").sorted().collect(Collectors.joining()));
    Process coordinator = java(folder, stores, classPath, HEAP_OF_COORDINATOR, COORDINATOR, "coordinator");
    Processes all = new Processes(folder, port, stores, classPath, memory * slots + HEAP_OF_FLINK, coordinator);
    try {
      all.awaitCoordinator();
      for (int worker = 0; worker < workers; worker++) {
        all.startWorker();
      }
      return all;
    } catch (IOException | RuntimeException e) {
      all.close();
      throw e;
    }
  }

  /** A text of YAML (yaml.org/spec/1.2, section 7.3.1). */
  private static String quoted(String text) {
    return "\"" + text.replace("\\", "\\\\").replace("\"", "\\\"") + "\"";
  }

  /** All of a worker's memory is stated: Flink works it out only in the scripts of its own distribution. */
  private static void memory(Configuration settings, int slots, int memory) {
    settings.set(TaskManagerOptions.NUM_TASK_SLOTS, slots);
    settings.set(TaskManagerOptions.CPU_CORES, (double) slots);
    settings.set(TaskManagerOptions.TASK_HEAP_MEMORY, MemorySize.ofMebiBytes((long) memory * slots));
    settings.set(TaskManagerOptions.TASK_OFF_HEAP_MEMORY, MemorySize.ZERO);
    settings.set(TaskManagerOptions.FRAMEWORK_HEAP_MEMORY, MemorySize.ofMebiBytes(HEAP_OF_FLINK));
    settings.set(TaskManagerOptions.FRAMEWORK_OFF_HEAP_MEMORY, MemorySize.ofMebiBytes(64));
    settings.set(TaskManagerOptions.NETWORK_MEMORY_MIN, MemorySize.ofMebiBytes(16));
    settings.set(TaskManagerOptions.NETWORK_MEMORY_MAX, MemorySize.ofMebiBytes(16));
    settings.set(TaskManagerOptions.MANAGED_MEMORY_SIZE, MemorySize.ofMebiBytes(1));
    settings.set(TaskManagerOptions.JVM_METASPACE, MemorySize.ofMebiBytes(256));
    settings.set(TaskManagerOptions.JVM_OVERHEAD_MIN, MemorySize.ofMebiBytes(64));
    settings.set(TaskManagerOptions.JVM_OVERHEAD_MAX, MemorySize.ofMebiBytes(64));
  }

  private static Process java(Path folder, Stores stores, String classPath, int heap, String main, String name)
      throws IOException {
    List<String> command = new ArrayList<>(List.of(Path.of(System.getProperty("java.home"), "bin", "java").toString(),
        "-Xmx" + heap + "m", "-XX:+UseSerialGC", "-XX:FreqInlineSize=100", "-cp", classPath, main, "--configDir",
        folder.toString()));
    File log = folder.resolve(name + ".log").toFile();
    ProcessBuilder process = new ProcessBuilder(command).redirectErrorStream(true).redirectInput(Redirect.from(nothing(
        folder))).redirectOutput(log);
    stores.tell(process.environment());
    return process.start();
  }

  private static File nothing(Path folder) throws IOException {
    Path empty = folder.resolve("nothing");
    if (!Files.exists(empty)) {
      Files.createFile(empty);
    }
    return empty.toFile();
  }

  private void awaitCoordinator() throws IOException {
    long end = System.nanoTime() + START.toNanos();
    while (System.nanoTime() < end) {
      if (!coordinator.isAlive()) {
        throw new IOException("the coordinator ended: " + log("coordinator"));
      }
      try (Socket socket = new Socket(InetAddress.getByName(Place.LOOPBACK), port)) {
        return;
      } catch (ConnectException notYet) {
        sleep();
      }
    }
    throw new IOException("the coordinator does not answer: " + log("coordinator"));
  }

  private String log(String name) throws IOException {
    List<String> lines = Files.readAllLines(folder.resolve(name + ".log"));
    return lines.isEmpty() ? "it said nothing" : lines.get(0);
  }

  private static void sleep() {
    try {
      TimeUnit.MILLISECONDS.sleep(50);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted", e);
    }
  }

  /** Starts one more worker; returns its number. */
  public int startWorker() throws IOException {
    int number = begun++;
    workers.put(number, java(folder, stores, classPath, heap, WORKER, "worker-" + number));
    return number;
  }

  /** Ends a worker as an accident would, at once. */
  public void kill(int number) {
    workers.remove(number).destroyForcibly();
  }

  /**
   * Starts a worker for each that has ended.
   *
   * @param nowDone how many tasks are done
   * @throws IOException if so many have ended in a row, with nothing done between, that another would too; it says what
   *     the last one said
   */
  public void tend(int nowDone) throws IOException {
    ended = nowDone == done ? ended : 0;
    done = nowDone;
    for (int number : List.copyOf(workers.keySet())) {
      if (!workers.get(number).isAlive()) {
        if (++ended > MOST_ENDED) {
          throw new IOException("workers end again and again: " + log("worker-" + number));
        }
        workers.remove(number);
        startWorker();
      }
    }
  }

  /** The numbers of the workers that run. */
  public List<Integer> workers() {
    return workers.entrySet().stream().filter(worker -> worker.getValue().isAlive()).map(Map.Entry::getKey).toList();
  }

  /** The port at which Flink takes jobs and shows its page. */
  public int port() {
    return port;
  }

  private static int freePort() throws IOException {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      return socket.getLocalPort();
    }
  }

  @Override
  public void close() {
    Stream.concat(workers.values().stream(), Stream.of(coordinator)).forEach(Process::destroyForcibly);
    try {
      for (Process process : Stream.concat(workers.values().stream(), Stream.of(coordinator)).toList()) {
        process.waitFor();
      }
      try (Stream<Path> files = Files.walk(folder)) {
        for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
          Files.deleteIfExists(file);
        }
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
