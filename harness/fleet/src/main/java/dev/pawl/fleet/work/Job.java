package dev.pawl.fleet.work;

import dev.pawl.fleet.cluster.Place;
import java.nio.file.Path;
import java.time.Duration;
import org.apache.flink.api.common.eventtime.WatermarkStrategy;
import org.apache.flink.api.common.serialization.SimpleStringEncoder;
import org.apache.flink.api.common.typeinfo.Types;
import org.apache.flink.connector.file.sink.FileSink;
import org.apache.flink.core.execution.JobClient;
import org.apache.flink.streaming.api.environment.StreamExecutionEnvironment;
import org.apache.flink.streaming.api.functions.sink.filesystem.bucketassigners.BasePathBucketAssigner;
import org.apache.flink.streaming.api.functions.sink.filesystem.rollingpolicies.OnCheckpointRollingPolicy;

/**
 * Tasks as a job of Flink: a source that does them and a sink that writes what they come to, chained in each slot.
 *
 * @param name as Flink's page calls it
 * @param plan who hands the tasks out
 * @param work how they are done
 */
public record Job(String name, Foreman.Plan plan, Work work) {

  /** By which Flink's page and metrics call the tasks. */
  public static final String TASKS = "tasks";

  /**
   * Begins it.
   *
   * @param folder for its lines and its checkpoints
   * @param every from one checkpoint to the next
   */
  public JobClient begin(Place place, Path folder, Duration every) throws Exception {
    Progress.clear(folder);
    StreamExecutionEnvironment environment = place.environment(folder.resolve("checkpoints"), every);
    FileSink<String> lines = FileSink.forRowFormat(lines(folder), new SimpleStringEncoder<String>("UTF-8"))
        .withBucketAssigner(new BasePathBucketAssigner<>()).withRollingPolicy(OnCheckpointRollingPolicy.build())
        .build();
    environment.fromSource(new TaskSource(plan, work, folder), WatermarkStrategy.noWatermarks(), TASKS, Types.STRING)
        .uid(TASKS).sinkTo(lines).uid("lines").name("lines");
    return environment.executeAsync(name);
  }

  /** Where its lines stand in a folder. */
  public static org.apache.flink.core.fs.Path lines(Path folder) {
    return new org.apache.flink.core.fs.Path(folder.resolve("lines").toUri());
  }
}
