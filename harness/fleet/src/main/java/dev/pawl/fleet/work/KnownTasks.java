package dev.pawl.fleet.work;

import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Optional;

/** Hands out the tasks of a file, of which it keeps their numbers and places. */
final class KnownTasks implements Foreman {

  private static final int FIRST_SIZE = 1024;

  private final RandomAccessFile file;
  private int[] numbers = new int[FIRST_SIZE];
  private long[] places = new long[FIRST_SIZE];
  private int size;
  private final BitSet left = new BitSet();

  KnownTasks(Path tasks, Optional<byte[]> state) throws IOException {
    readPlaces(tasks);
    file = new RandomAccessFile(tasks.toFile(), "r");
    state.ifPresentOrElse(bits -> left.or(BitSet.valueOf(bits)), () -> left.set(0, size));
  }

  /** Writes such a file: of each task its number, and its words with their length before them. */
  static void write(Path file, Iterable<Task> tasks) throws IOException {
    try (DataOutputStream out = new DataOutputStream(new BufferedOutputStream(Files.newOutputStream(file)))) {
      for (Task task : tasks) {
        byte[] words = task.words().getBytes(StandardCharsets.UTF_8);
        out.writeInt(task.number());
        out.writeInt(words.length);
        out.write(words);
      }
    }
  }

  private void readPlaces(Path tasks) throws IOException {
    try (DataInputStream in = new DataInputStream(new BufferedInputStream(Files.newInputStream(tasks)))) {
      for (long at = 0; at < Files.size(tasks); size++) {
        if (size == numbers.length) {
          numbers = Arrays.copyOf(numbers, 2 * size);
          places = Arrays.copyOf(places, 2 * size);
        }
        numbers[size] = in.readInt();
        places[size] = at;
        int length = in.readInt();
        in.skipNBytes(length);
        at += 2 * Integer.BYTES + length;
      }
    } catch (EOFException e) {
      throw new IOException(tasks + " was cut off", e);
    }
  }

  @Override
  public Optional<Task> next() {
    int next = left.nextSetBit(0);
    if (next < 0) {
      return Optional.empty();
    }
    left.clear(next);
    try {
      file.seek(places[next]);
      int number = file.readInt();
      byte[] words = new byte[file.readInt()];
      file.readFully(words);
      return Optional.of(new Task(number, new String(words, StandardCharsets.UTF_8)));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public boolean isDone() {
    return left.isEmpty();
  }

  @Override
  public void again(Task task) {
    left.set(Arrays.binarySearch(numbers, 0, size, task.number()));
  }

  @Override
  public byte[] state() {
    return left.toByteArray();
  }

  @Override
  public void close() {
    try {
      file.close();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
