package dev.pawl.cli.keep;

import dev.pawl.cli.CommandException;
import dev.pawl.run.files.FileTrouble;
import dev.pawl.run.stress.RunLog;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;

/**
 * The runs of a campaign, kept in its folder, so that one which was killed goes on where it was. The first line says
 * which
 * campaign it is of; each other line is a run. What comes behind the last whole line was torn by the kill, and is cut
 * off.
 */
public final class RunJournal<T> implements RunLog<T>, AutoCloseable {

  public static final String NAME = "campaign.runs";
  private static final String TITLE = "pawl-stress ";

  private final Path file;
  private final Function<T, String> written;
  private final Function<String, Optional<T>> read;
  private final FileChannel channel;
  private final OutputStream out;
  private final BufferedReader earlier;
  /** Runs of an earlier time that were not asked for yet. */
  private long left;
  private int taken;
  private int pendingRun = -1;
  private T pending;

  private RunJournal(Path file, FileChannel channel, BufferedReader earlier, long left, Function<T, String> written,
      Function<String, Optional<T>> read) {
    this.file = file;
    this.written = written;
    this.read = read;
    this.channel = channel;
    this.out = Channels.newOutputStream(channel);
    this.earlier = earlier;
    this.left = left;
  }

  /**
   * Opens the journal in a folder, which is made where it is not there.
   *
   * @param campaign what determines all its runs
   * @param written a run as a line
   * @param read a run out of its line; empty where it is none
   * @throws CommandException if something else is there, or another campaign, or another pawl is at work in it
   */
  public static <T> RunJournal<T> open(Path folder, String campaign, Function<T, String> written,
      Function<String, Optional<T>> read) {
    Path file = folder.resolve(NAME);
    String head = TITLE + campaign + "\n";
    try {
      requireOwn(folder, file, head);
      Files.createDirectories(folder);
      FileChannel channel = FileChannel.open(file, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
      if (!KeptFiles.isClaimed(channel)) {
        channel.close();
        throw refusal(folder, "another pawl is at work in it");
      }
      long whole = whole(file, head);
      channel.truncate(whole);
      channel.position(whole);
      if (whole == 0) {
        channel.write(StandardCharsets.UTF_8.encode(head));
      }
      long lines;
      try (Stream<String> all = Files.lines(file)) {
        lines = all.count();
      }
      BufferedReader earlier = Files.newBufferedReader(file);
      earlier.readLine();
      return new RunJournal<>(file, channel, earlier, lines - 1, written, read);
    } catch (IOException e) {
      throw trouble(file, e);
    }
  }

  private static CommandException refusal(Path folder, String why) {
    return new CommandException("--out: " + folder + ": " + why);
  }

  private static CommandException trouble(Path file, IOException problem) {
    return new CommandException("the runs cannot be kept: " + FileTrouble.message(file.toString(), problem));
  }

  private static void requireOwn(Path folder, Path file, String head) throws IOException {
    if (!Files.exists(folder, LinkOption.NOFOLLOW_LINKS)) {
      return;
    }
    if (!Files.isDirectory(folder)) {
      throw refusal(folder, "is not a folder");
    }
    if (!Files.exists(file)) {
      try (Stream<Path> files = Files.list(folder)) {
        if (files.findAny().isPresent()) {
          throw refusal(folder, "holds something, but no campaign of pawl, and stays; name another folder");
        }
      }
      return;
    }
    try (BufferedReader lines = Files.newBufferedReader(file)) {
      char[] start = new char[head.length()];
      int length = Math.max(0, lines.read(start));
      String there = new String(start, 0, length);
      if (!head.startsWith(there)) {
        throw refusal(folder, "holds another campaign: of other rules, logic, ride, scenario, options or another pawl;"
            + " name another folder");
      }
    }
  }

  /** How many bytes of the file are whole lines; 0 where not even the first is. */
  private static long whole(Path file, String head) throws IOException {
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
      ByteBuffer one = ByteBuffer.allocate(1 << 12);
      long end = channel.size();
      while (end > 0) {
        long from = Math.max(0, end - one.capacity());
        one.clear().limit((int) (end - from));
        channel.read(one, from);
        for (int i = one.position() - 1; i >= 0; i--) {
          if (one.get(i) == '\n') {
            long whole = from + i + 1;
            return whole >= head.length() ? whole : 0;
          }
        }
        end = from;
      }
      return 0;
    }
  }

  @Override
  public synchronized Map<Integer, T> before(int number) {
    Map<Integer, T> runs = new HashMap<>();
    try {
      while (pending != null || next()) {
        if (pendingRun >= number) {
          break;
        }
        runs.put(pendingRun, pending);
        pending = null;
        taken++;
      }
    } catch (IOException e) {
      throw trouble(file, e);
    }
    return runs;
  }

  private boolean next() throws IOException {
    if (left == 0) {
      return false;
    }
    left--;
    String line = earlier.readLine();
    String[] parts = line.split("\t", 2);
    Optional<T> result = parts.length == 2 && parts[0].matches("\\d{1,9}") ? read.apply(parts[1])
        : Optional.empty();
    if (result.isEmpty()) {
      throw new CommandException("--out: " + file + ": a line of it is no run; name another folder");
    }
    pendingRun = Integer.parseInt(parts[0]);
    pending = result.get();
    return true;
  }

  @Override
  public synchronized void add(int run, T result) {
    try {
      out.write((run + "\t" + written.apply(result) + "\n").getBytes(StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw trouble(file, e);
    }
  }

  /** How many runs were taken over from an earlier time. */
  public synchronized int taken() {
    return taken;
  }

  @Override
  public void close() {
    try {
      earlier.close();
      channel.close();
    } catch (IOException e) {
      throw trouble(file, e);
    }
  }
}
