package dev.pawl.fleet.work;

import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import org.apache.flink.api.connector.source.Boundedness;
import org.apache.flink.api.connector.source.Source;
import org.apache.flink.api.connector.source.SourceReader;
import org.apache.flink.api.connector.source.SourceReaderContext;
import org.apache.flink.api.connector.source.SplitEnumerator;
import org.apache.flink.api.connector.source.SplitEnumeratorContext;
import org.apache.flink.core.io.SimpleVersionedSerializer;

/** Tasks, done where they are read. Each gives one line: its number, a tab, and what it came to. */
public final class TaskSource implements Source<String, Task, byte[]> {

  private static final long serialVersionUID = 1L;

  private final Foreman.Plan plan;
  private final Work work;
  private final String folder;
  /** Of all enumerators of one job, each of which takes the place of the one before. */
  private final AtomicInteger restarts = new AtomicInteger();

  /**
   * A source.
   *
   * @param plan who hands them out
   * @param work how they are done
   * @param folder of the job
   */
  TaskSource(Foreman.Plan plan, Work work, Path folder) {
    this.plan = plan;
    this.work = work;
    this.folder = folder.toString();
  }

  @Override
  public Boundedness getBoundedness() {
    return Boundedness.BOUNDED;
  }

  @Override
  public SourceReader<String, Task> createReader(SourceReaderContext context) {
    return new TaskReader(context, work, plan.hears());
  }

  @Override
  public SplitEnumerator<Task, byte[]> createEnumerator(SplitEnumeratorContext<Task> context) {
    return new TaskEnumerator(context, plan, Optional.empty(), Path.of(folder), restarts);
  }

  @Override
  public SplitEnumerator<Task, byte[]> restoreEnumerator(SplitEnumeratorContext<Task> context, byte[] state) {
    return new TaskEnumerator(context, plan, Optional.of(state), Path.of(folder), restarts);
  }

  @Override
  public SimpleVersionedSerializer<Task> getSplitSerializer() {
    return new Task.Serializer();
  }

  @Override
  public SimpleVersionedSerializer<byte[]> getEnumeratorCheckpointSerializer() {
    return new SimpleVersionedSerializer<>() {
      @Override
      public int getVersion() {
        return 1;
      }

      @Override
      public byte[] serialize(byte[] state) {
        return state;
      }

      @Override
      public byte[] deserialize(int version, byte[] state) {
        return state;
      }
    };
  }
}
