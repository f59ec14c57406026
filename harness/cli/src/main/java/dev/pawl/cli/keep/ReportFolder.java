package dev.pawl.cli.keep;

import dev.pawl.cli.CommandException;
import dev.pawl.report.ReportFormat;
import dev.pawl.report.model.Report;
import dev.pawl.run.files.FileTrouble;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * The folder of a report while it comes about. Its files go into a folder beside, with {@code .unfinished} behind its
 * name; the manifest is the last of them to be filled; then the whole folder comes to its place. So a report is there
 * whole or not at all, and the one before stays until then. The empty manifest is locked meanwhile, which keeps a
 * second run out.
 */
public final class ReportFolder implements AutoCloseable {

  private final Path place;
  private final Path unfinished;
  private final Path replaced;
  private FileChannel manifest;

  private ReportFolder(Path place) {
    this.place = place;
    this.unfinished = beside(".unfinished");
    this.replaced = beside(".replaced");
  }

  private Path beside(String ending) {
    return place.resolveSibling(place.getFileName() + ending);
  }

  /**
   * Claims a folder for a report; says at once if it cannot be.
   *
   * @throws CommandException if something else than a report is there, or another run has claimed it
   */
  public static ReportFolder claim(String folder) {
    try {
      Path place = Path.of(folder);
      place = Files.exists(place) ? place.toRealPath() : place.toAbsolutePath().normalize();
      if (place.getFileName() == null || Path.of("").toRealPath().startsWith(place)) {
        throw refusal(place, "is where this run works, so it cannot be replaced as a whole; name a folder in it");
      }
      ReportFolder claimed = new ReportFolder(place);
      claimed.begin();
      return claimed;
    } catch (IOException e) {
      throw trouble(Path.of(folder), e);
    }
  }

  /** Where the report comes to stand. */
  public Path place() {
    return place;
  }

  private static CommandException refusal(Path folder, String why) {
    return new CommandException("--out: " + folder + ": " + why);
  }

  private static CommandException trouble(Path folder, IOException problem) {
    return new CommandException("the report cannot be written: " + FileTrouble.message(folder.toString(), problem));
  }

  private void begin() throws IOException {
    requireReplaceable(place);
    Files.createDirectories(place.getParent());
    if (Files.exists(unfinished, LinkOption.NOFOLLOW_LINKS)) {
      requireOnlyReportFiles(unfinished);
    } else {
      Files.createDirectory(unfinished);
    }
    manifest = FileChannel.open(unfinished.resolve(Manifest.NAME), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
    if (!KeptFiles.isClaimed(manifest)) {
      manifest.close();
      throw refusal(place, "another pawl is writing this report");
    }
    manifest.truncate(0);
    for (String name : names()) {
      Files.deleteIfExists(unfinished.resolve(name));
    }
    tidy();
  }

  /** A run that was killed between its two last steps leaves the report before under another name: it comes back. */
  private void tidy() throws IOException {
    if (Files.exists(replaced, LinkOption.NOFOLLOW_LINKS)) {
      requireOnlyReportFiles(replaced);
      if (Files.exists(place)) {
        delete(replaced);
      } else {
        Files.move(replaced, place);
      }
    }
  }

  /** Nothing, an empty folder, or a report as pawl wrote it. */
  private static void requireReplaceable(Path folder) throws IOException {
    if (!Files.exists(folder, LinkOption.NOFOLLOW_LINKS)) {
      return;
    }
    if (!Files.isDirectory(folder)) {
      throw refusal(folder, "is not a folder");
    }
    if (names(folder).isEmpty()) {
      return;
    }
    requireOnlyReportFiles(folder);
    Optional<String> flaw = Manifest.flaw(folder);
    if (flaw.isPresent()) {
      throw refusal(folder, "is not replaced, because " + flaw.get() + "; move it away or name another folder");
    }
  }

  private static void requireOnlyReportFiles(Path folder) throws IOException {
    List<String> foreign = Files.isDirectory(folder, LinkOption.NOFOLLOW_LINKS)
        ? names(folder).stream().filter(name -> !names().contains(name)
            && !name.equals(Manifest.NAME)).toList()
        : List.of(folder.getFileName().toString());
    if (!foreign.isEmpty()) {
      throw refusal(folder,
          "holds " + foreign.get(0) + ", which is no file of a report, and stays; name another folder");
    }
  }

  private static List<String> names(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(file -> file.getFileName().toString()).sorted().toList();
    }
  }

  /** The files of a report but for the manifest. */
  private static List<String> names() {
    return Stream.concat(Manifest.fileNames().stream(), Stream.of(RunRecord.NAME)).toList();
  }

  private static void delete(Path folder) throws IOException {
    for (String name : names()) {
      Files.deleteIfExists(folder.resolve(name));
    }
    Files.deleteIfExists(folder.resolve(Manifest.NAME));
    Files.delete(folder);
  }

  /**
   * Writes the report, with what it rests on, and puts it in its place.
   *
   * @param asked what was asked for
   */
  public void write(Report report, Asked asked) {
    try {
      for (ReportFormat format : ReportFormat.values()) {
        write(format.fileName(), out -> format.write(report, out));
      }
      write(InputList.NAME, out -> out.write(InputList.of(report, asked)));
      String stated = Manifest.of(unfinished, report, asked);
      write(RunRecord.NAME, out -> out.write(RunRecord.of(stated, place, asked)));
      ByteBuffer lines = ByteBuffer.wrap(stated.getBytes(StandardCharsets.UTF_8));
      while (lines.hasRemaining()) {
        manifest.write(lines);
      }
      manifest.force(true);
      Durable.nameOf(unfinished.resolve(Manifest.NAME));
      putInPlace();
    } catch (IOException e) {
      throw trouble(place, e);
    }
  }

  private interface Form {
    void write(Writer out) throws IOException;
  }

  private void write(String name, Form form) throws IOException {
    Path place = unfinished.resolve(name);
    // The writer leaves its stream open where the last bytes do not go in.
    try (OutputStream file = Files.newOutputStream(place, StandardOpenOption.CREATE_NEW);
        Writer out = new BufferedWriter(new OutputStreamWriter(file, StandardCharsets.UTF_8))) {
      form.write(out);
    }
    Durable.file(place);
  }

  private void putInPlace() throws IOException {
    requireReplaceable(place);
    boolean isThere = Files.exists(place);
    if (isThere && names(place).isEmpty()) {
      Files.delete(place);
    } else if (isThere) {
      Files.move(place, replaced);
    }
    try {
      Files.move(unfinished, place);
    } catch (IOException e) {
      if (Files.exists(replaced) && !Files.exists(place)) {
        Files.move(replaced, place);
      }
      throw e;
    }
    Durable.nameOf(place);
    manifest.close();
    if (Files.exists(replaced)) {
      delete(replaced);
    }
  }

  /** Takes away what has not come to its place. */
  @Override
  public void close() {
    try {
      if (manifest.isOpen()) {
        if (Files.exists(unfinished)) {
          delete(unfinished);
        }
        manifest.close();
      }
    } catch (IOException e) {
      throw trouble(unfinished, e);
    }
  }
}
