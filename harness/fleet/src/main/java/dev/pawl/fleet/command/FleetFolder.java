package dev.pawl.fleet.command;

import dev.pawl.cli.CommandException;
import dev.pawl.fleet.work.Job;
import dev.pawl.fleet.work.Lines;
import dev.pawl.run.files.FileTrouble;
import java.io.IOException;
import java.io.Writer;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileTime;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;

/**
 * The folder of {@code --out}. While the fleet works it has a folder {@code work} with what tasks came to and with
 * checkpoints, out of which the same command goes on after it was ended.
 */
final class FleetFolder implements AutoCloseable {

  private static final String WORK = "work";
  private static final String PLAN = "plan";

  private final Path place;
  private final FileChannel claim;

  private FleetFolder(Path place, FileChannel claim) {
    this.place = place;
    this.claim = claim;
  }

  /**
   * Claims a folder.
   *
   * @param names what the fleet leaves in it
   * @throws CommandException if something else is there, or another fleet works in it
   */
  static FleetFolder claim(String folder, Set<String> names) {
    Path place = Path.of(folder).toAbsolutePath().normalize();
    try {
      Files.createDirectories(place);
      try (Stream<Path> inside = Files.list(place)) {
        List<String> foreign = inside.map(file -> file.getFileName().toString()).filter(name -> !names.contains(name)
            && !name.equals(WORK)).sorted().toList();
        if (!foreign.isEmpty()) {
          throw new CommandException("--out: " + place + ": holds " + foreign.get(0) + ", which no fleet left there,"
              + " and stays; name another folder");
        }
      }
      Files.createDirectories(place.resolve(WORK));
      FileChannel claim = FileChannel.open(place.resolve(WORK).resolve("claim"), StandardOpenOption.CREATE,
          StandardOpenOption.WRITE);
      if (!isClaimed(claim)) {
        claim.close();
        throw new CommandException("--out: " + place + ": another pawl fleet works there");
      }
      return new FleetFolder(place, claim);
    } catch (IOException e) {
      throw trouble(place, e);
    }
  }

  private static boolean isClaimed(FileChannel channel) throws IOException {
    try {
      return channel.tryLock() != null;
    } catch (OverlappingFileLockException e) {
      return false;
    }
  }

  static CommandException trouble(Path place, IOException problem) {
    return new CommandException("the fleet cannot write: " + FileTrouble.message(place.toString(), problem));
  }

  Path place() {
    return place;
  }

  Path work() {
    return place.resolve(WORK);
  }

  /**
   * What is kept of an earlier run by the same plan, in one file; nothing where there was none.
   *
   * @param unchanged whether what a task rests on is as it was at a time
   */
  Lines kept(String plan, Unchanged unchanged) throws IOException {
    Path stated = work().resolve(PLAN);
    Path lines = Path.of(Job.lines(work()).getPath());
    Path kept = work().resolve("kept");
    Files.deleteIfExists(kept);
    if (Files.exists(stated) && Files.readString(stated).equals(plan)) {
      FileTime begun = Files.getLastModifiedTime(stated);
      try (Writer out = Files.newBufferedWriter(kept)) {
        Lines.in(Job.lines(work())).copy(number -> unchanged.since(number, begun), out);
      }
    }
    delete(lines);
    delete(work().resolve("checkpoints"));
    Files.createDirectories(lines);
    if (Files.exists(kept)) {
      Files.move(kept, lines.resolve("kept"));
    } else {
      Files.writeString(stated, plan);
    }
    return Lines.in(Job.lines(work()));
  }

  /** Whether what a task rests on was not written to since. */
  interface Unchanged {
    boolean since(int number, FileTime time);
  }

  /** All is written: what was kept is not needed any more. */
  void end() throws IOException {
    claim.close();
    delete(work());
  }

  /** A job that was just ended may still take away files of its own. */
  private static void delete(Path file) throws IOException {
    if (Files.isDirectory(file, LinkOption.NOFOLLOW_LINKS)) {
      for (Path inside : inside(file)) {
        delete(inside);
      }
    }
    Files.deleteIfExists(file);
  }

  private static List<Path> inside(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.toList();
    } catch (NoSuchFileException gone) {
      return List.of();
    }
  }

  @Override
  public void close() {
    try {
      claim.close();
    } catch (IOException e) {
      throw trouble(place, e);
    }
  }
}
