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
 * @param givenUp why it is not tried any more, and its result is that; empty where it is to be done
 */
public record Task(int number, String words, String givenUp) implements SourceSplit, Serializable {

  public Task(int number, String words) {
    this(number, words, "");
  }

  /** The same of all, since a slot has one at a time: Flink keeps something of each that it saw, to the end. */
  @Override
  public String splitId() {
    return "task";
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
      byte[] why = task.givenUp().getBytes(StandardCharsets.UTF_8);
      return ByteBuffer.allocate(2 * Integer.BYTES + words.length + why.length).putInt(task.number()).putInt(
          words.length).put(words).put(why).array();
    }

    @Override
    public Task deserialize(int version, byte[] bytes) throws IOException {
      ByteBuffer buffer = ByteBuffer.wrap(bytes);
      int number = buffer.getInt();
      int length = buffer.getInt();
      int words = buffer.position();
      return new Task(number, new String(bytes, words, length, StandardCharsets.UTF_8), new String(bytes, words
          + length, bytes.length - words - length, StandardCharsets.UTF_8));
    }
  }
}
