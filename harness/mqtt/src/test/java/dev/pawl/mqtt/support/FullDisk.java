package dev.pawl.mqtt.support;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.concurrent.locks.LockSupport;

/** A file on a medium that is full after some bytes, or slow. */
public final class FullDisk implements SeekableByteChannel {

  private final SeekableByteChannel file;
  private final long room;
  private final long delay;

  private FullDisk(Path path, long room, long delay) throws IOException {
    this.file = Files.newByteChannel(path, StandardOpenOption.CREATE, StandardOpenOption.TRUNCATE_EXISTING,
        StandardOpenOption.WRITE);
    this.room = room;
    this.delay = delay;
  }

  /** Full after so many bytes: the last write is cut short, as a file system does. */
  public static FullDisk after(Path path, long bytes) throws IOException {
    return new FullDisk(path, bytes, 0);
  }

  /** Every write takes 20 ms. */
  public static FullDisk slow(Path path) throws IOException {
    return new FullDisk(path, Long.MAX_VALUE, 20_000_000);
  }

  @Override
  public int write(ByteBuffer source) throws IOException {
    LockSupport.parkNanos(delay);
    long left = room - file.position();
    if (left <= 0) {
      throw new IOException("No space left on device");
    }
    ByteBuffer part = source.slice();
    part.limit((int) Math.min(part.limit(), left));
    int written = file.write(part);
    source.position(source.position() + written);
    return written;
  }

  @Override
  public SeekableByteChannel truncate(long size) throws IOException {
    file.truncate(size);
    return this;
  }

  @Override
  public int read(ByteBuffer target) throws IOException {
    return file.read(target);
  }

  @Override
  public long position() throws IOException {
    return file.position();
  }

  @Override
  public SeekableByteChannel position(long newPosition) throws IOException {
    file.position(newPosition);
    return this;
  }

  @Override
  public long size() throws IOException {
    return file.size();
  }

  @Override
  public boolean isOpen() {
    return file.isOpen();
  }

  @Override
  public void close() throws IOException {
    file.close();
  }
}
