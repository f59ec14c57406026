package dev.pawl.fleet.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.option.FleetOptions;
import dev.pawl.fleet.cluster.Place;
import dev.pawl.fleet.cluster.Processes;
import dev.pawl.fleet.cluster.Stores;
import dev.pawl.fleet.work.Progress;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.stream.Stream;
import org.apache.flink.api.common.JobExecutionResult;
import org.apache.flink.core.execution.JobClient;

/** Where the fleet that the user asked for works, from its start to its end. */
final class Workplace implements AutoCloseable {

  private static final int LOOK_EVERY = 200;
  private static final int PATIENCE = 30;

  private final Place place;
  private final Optional<Processes> started;
  private final Console console;

  private Workplace(Place place, Optional<Processes> started, Console console) {
    this.place = place;
    this.started = started;
    this.console = console;
  }

  /** Begins a job of Flink. */
  interface Beginning {
    JobClient at(Place place) throws Exception;
  }

  /** Where a program is at work that was submitted to a cluster. */
  static Workplace submitted(FleetOptions options, Console console) {
    options.requireNoPlace("the work is done by the cluster to which it was submitted");
    return new Workplace(new Place.Submitted(options.slots()), Optional.empty(), console);
  }

  static Workplace of(FleetOptions options, Stores stores, Console console) throws IOException {
    int slots = options.slots().orElse(Runtime.getRuntime().availableProcessors());
    if (options.cluster().isPresent()) {
      String[] address = options.cluster().get().split(":");
      return new Workplace(new Place.Cluster(address[0], Integer.parseInt(address[1]), slots, jars(console.home())),
          Optional.empty(), console);
    }
    if (options.workers() > 0) {
      int each = (slots + options.workers() - 1) / options.workers();
      Processes processes = Processes.start(options.workers(), each, options.memory(), options.page(),
          stores, Processes.ownClassPath());
      return new Workplace(new Place.Cluster(Place.LOOPBACK, processes.port(), slots, List.of()), Optional.of(
          processes), console);
    }
    return new Workplace(new Place.Here(slots, options.page()), Optional.empty(), console);
  }

  /** What a cluster that knows Flink alone has to be handed. */
  private static List<Path> jars(Path home) throws IOException {
    try (Stream<Path> own = Files.list(home.resolve("lib"));
        Stream<Path> fleet = Files.list(home.resolve("lib/fleet"))) {
      return Stream.concat(own.filter(file -> file.toString().endsWith(".jar") && !name(file).startsWith("slf4j-")),
          fleet.filter(file -> name(file).matches("(pawl-fleet|fastcsv)-.*[.]jar"))).sorted().toList();
    }
  }

  private static String name(Path file) {
    return file.getFileName().toString();
  }

  /**
   * Does the work.
   *
   * @param folder in which it does it
   * @throws CommandException if it does not come to its end
   */
  void await(Path folder, FleetProgress progress, Beginning beginning) {
    JobClient job;
    try {
      job = beginning.at(place);
    } catch (Exception e) {
      throw new CommandException("the fleet does not begin: " + reason(e));
    }
    try {
      CompletableFuture<JobExecutionResult> end = job.getJobExecutionResult();
      while (!isOver(end)) {
        if (console.interruption().isRequested()) {
          job.cancel().get(PATIENCE, TimeUnit.SECONDS);
          end.handle((result, problem) -> null).get(PATIENCE, TimeUnit.SECONDS);
          throw ended("it was interrupted");
        }
        Progress now = Progress.in(folder);
        progress.show(now);
        if (started.isPresent()) {
          started.get().tend(now.done());
        }
      }
      end.get();
    } catch (ExecutionException | CancellationException | TimeoutException | IOException e) {
      throw ended(reason(e));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw ended("it was interrupted");
    } finally {
      progress.wipe();
    }
  }

  private static boolean isOver(CompletableFuture<JobExecutionResult> end)
      throws InterruptedException {
    try {
      end.get(LOOK_EVERY, TimeUnit.MILLISECONDS);
      return true;
    } catch (TimeoutException e) {
      return false;
    } catch (ExecutionException e) {
      return true;
    }
  }

  private static CommandException ended(String why) {
    return new CommandException("the fleet did not come to its end: " + why
        + "; what was done is kept, and the same command goes on from there");
  }

  /** What is at the bottom of a trouble: Flink wraps it many times. */
  private static String reason(Throwable problem) {
    Throwable root = problem;
    while (root.getCause() != null && root.getCause() != root) {
      root = root.getCause();
    }
    return root.getMessage() == null ? root.toString() : root.getMessage();
  }

  @Override
  public void close() {
    started.ifPresent(Processes::close);
  }
}
