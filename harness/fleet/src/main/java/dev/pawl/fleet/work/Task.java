package dev.pawl.fleet.work;

import java.io.IOException;
import java.io.Serializable;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import org.apache.flink.api.connector.source.SourceSplit;
import org.apache.flink.core.io.SimpleVersionedSerializer;

/**
 * Something to be done by one slot.
 *
 * @param number by which what it comes to finds its place
 * @param words what is to be done, for the {@link Work} to read
 */
public record Task(int number, String words) implements SourceSplit, Serializable {

  @Override
  public String splitId() {
    return String.valueOf(number);
  }

  /** A task as bytes. */
  static final class Serializer implements SimpleVersionedSerializer<Task> {

    @Override
    public int getVersion() {
      return 1;
    }

    @Override
    public byte[] serialize(Task task) {
      byte[] words = task.words().getBytes(StandardCharsets.UTF_8);
      return ByteBuffer.allocate(Integer.BYTES + words.length).putInt(task.number()).put(words).array();
    }

    @Override
    public Task deserialize(int version, byte[] bytes) throws IOException {
      ByteBuffer buffer = ByteBuffer.wrap(bytes);
      int number = buffer.getInt();
      return new Task(number, StandardCharsets.UTF_8.decode(buffer).toString());
    }
  }
}
