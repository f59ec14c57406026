package dev.pawl.fleet.cluster;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.apache.flink.api.common.ExecutionConfig;
import org.apache.flink.configuration.CheckpointingOptions;
import org.apache.flink.configuration.Configuration;
import org.apache.flink.configuration.ExternalizedCheckpointRetention;
import org.apache.flink.configuration.JobManagerOptions;
import org.apache.flink.configuration.MemorySize;
import org.apache.flink.configuration.PipelineOptions;
import org.apache.flink.configuration.RestOptions;
import org.apache.flink.configuration.RestartStrategyOptions;
import org.apache.flink.configuration.TaskManagerOptions;
import org.apache.flink.streaming.api.environment.StreamExecutionEnvironment;

/** Where a fleet works. */
public sealed interface Place {

  /** What listens at all listens here, unless a cluster that is there was set up otherwise. */
  String LOOPBACK = "localhost";

  /**
   * An environment of Flink to make a job in.
   *
   * @param checkpoints a folder for them
   * @param every from one to the next
   */
  StreamExecutionEnvironment environment(Path checkpoints, Duration every);

  /** This process, with Flink's page at a port; 0 for a free one. */
  record Here(int slots, int port) implements Place {

    @Override
    public StreamExecutionEnvironment environment(Path checkpoints, Duration every) {
      Configuration settings = settings(checkpoints, every);
      loopback(settings, port);
      settings.set(TaskManagerOptions.NUM_TASK_SLOTS, slots);
      // Tasks take memory of Java as they need it; Flink's own for sorting and the like is not used.
      settings.set(TaskManagerOptions.MANAGED_MEMORY_SIZE, MemorySize.ofMebiBytes(1));
      StreamExecutionEnvironment environment = StreamExecutionEnvironment.createLocalEnvironment(slots, settings);
      environment.setParallelism(slots);
      return environment;
    }
  }

  /** A cluster whose coordinator answers at a host and port. The jars are handed to it. */
  record Cluster(String host, int port, int slots, List<Path> jars) implements Place {

    public Cluster {
      jars = List.copyOf(jars);
    }

    @Override
    public StreamExecutionEnvironment environment(Path checkpoints, Duration every) {
      StreamExecutionEnvironment environment = StreamExecutionEnvironment.createRemoteEnvironment(host, port,
          settings(checkpoints, every), jars.stream().map(Path::toString).toArray(String[]::new));
      environment.setParallelism(slots);
      return environment;
    }
  }

  /** The cluster to which Flink's own command submits this program, or that has it alone. */
  record Submitted(Optional<Integer> slots) implements Place {

    @Override
    public StreamExecutionEnvironment environment(Path checkpoints, Duration every) {
      StreamExecutionEnvironment environment = StreamExecutionEnvironment.getExecutionEnvironment(settings(checkpoints,
          every));
      slots.ifPresent(environment::setParallelism);
      return environment;
    }
  }

  /** All that Flink opens is on loopback. */
  static void loopback(Configuration settings, int port) {
    settings.set(JobManagerOptions.ADDRESS, LOOPBACK);
    settings.set(JobManagerOptions.BIND_HOST, LOOPBACK);
    settings.set(RestOptions.ADDRESS, LOOPBACK);
    settings.set(RestOptions.BIND_ADDRESS, LOOPBACK);
    settings.set(RestOptions.PORT, port);
    settings.set(RestOptions.BIND_PORT, String.valueOf(port));
    settings.set(TaskManagerOptions.HOST, LOOPBACK);
    settings.set(TaskManagerOptions.BIND_HOST, LOOPBACK);
  }

  private static Configuration settings(Path checkpoints, Duration every) {
    Configuration settings = new Configuration();
    settings.set(CheckpointingOptions.CHECKPOINTING_INTERVAL, every);
    settings.set(CheckpointingOptions.CHECKPOINT_STORAGE, "filesystem");
    settings.set(CheckpointingOptions.CHECKPOINTS_DIRECTORY, checkpoints.toUri().toString());
    settings.set(CheckpointingOptions.EXTERNALIZED_CHECKPOINT_RETENTION,
        ExternalizedCheckpointRetention.DELETE_ON_CANCELLATION);
    settings.set(RestartStrategyOptions.RESTART_STRATEGY, "fixed-delay");
    // What goes wrong again and again is ended by whoever hands out the tasks: it knows whether anything is done.
    settings.set(RestartStrategyOptions.RESTART_STRATEGY_FIXED_DELAY_ATTEMPTS, Integer.MAX_VALUE);
    settings.set(RestartStrategyOptions.RESTART_STRATEGY_FIXED_DELAY_DELAY, Duration.ofMillis(200));
    settings.set(PipelineOptions.CLOSURE_CLEANER_LEVEL, ExecutionConfig.ClosureCleanerLevel.NONE);
    settings.set(PipelineOptions.GENERIC_TYPES, false);
    return settings;
  }
}
