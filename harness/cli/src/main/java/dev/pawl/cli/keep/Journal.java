package dev.pawl.cli.keep;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.report.json.JsonResult;
import dev.pawl.report.json.ReportFormatException;
import dev.pawl.report.model.Input;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.TraceResult;
import dev.pawl.run.EarlierResults;
import dev.pawl.run.files.FileTrouble;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.OutputStream;
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

/**
 * The results of a run's traces, kept beside the folder of its report until that is whole, so that a run which was
 * killed goes on where it was. The first line says which run it is of: by which pawl, rules and options. Each other
 * line is one trace, as its SHA-256, its path and its result. What comes behind the last whole line was torn by the
 * kill, and is cut off.
 */
public final class Journal implements EarlierResults, AutoCloseable {

  static final String ENDING = ".judged";
  private static final String TITLE = "pawl-judged ";

  private final Path file;
  private final Map<String, TraceResult> before = new HashMap<>();
  private final FileChannel channel;
  private final OutputStream out;
  private int taken;
  private int kept;

  private Journal(Path file, FileChannel channel) {
    this.file = file;
    this.channel = channel;
    this.out = Channels.newOutputStream(channel);
  }

  /**
   * Opens the journal of a report that this run has claimed.
   *
   * @param place the report's folder
   * @param run what determines a trace's result, beside the trace
   * @throws CommandException if something else of its name is there
   */
  public static Journal open(Path place, String run, RuleBook book) {
    Path file = place.resolveSibling(place.getFileName() + ENDING);
    String head = TITLE + run + "\n";
    try {
      if (Files.exists(file, LinkOption.NOFOLLOW_LINKS)) {
        requireJournal(file);
      }
      Journal journal = new Journal(file, FileChannel.open(file, StandardOpenOption.CREATE, StandardOpenOption.READ,
          StandardOpenOption.WRITE));
      if (!journal.takeAll(head, book)) {
        journal.write(head);
      }
      return journal;
    } catch (IOException e) {
      throw trouble(file, e);
    }
  }

  private static CommandException trouble(Path file, IOException problem) {
    return new CommandException("the results so far cannot be kept: " + FileTrouble.message(file.toString(), problem));
  }

  private static void requireJournal(Path file) throws IOException {
    boolean isJournal = Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS);
    if (isJournal) {
      try (InputStream in = Files.newInputStream(file)) {
        String start = new String(in.readNBytes(TITLE.length()), StandardCharsets.UTF_8);
        isJournal = TITLE.startsWith(start);
      }
    }
    if (!isJournal) {
      throw new CommandException("--out: " + file
          + ": is not what pawl keeps there while it judges, and stays; move it away or name another folder");
    }
  }

  /** Takes all whole lines over and cuts off the rest; all of it where it is of another run, and then false. */
  private boolean takeAll(String head, RuleBook book) throws IOException {
    // One letter for each byte, so that lengths count bytes.
    BufferedReader lines = new BufferedReader(new InputStreamReader(Channels.newInputStream(channel),
        StandardCharsets.ISO_8859_1));
    long whole = 0;
    String line = lines.readLine();
    if (line != null && head.equals(line + "\n") && channel.size() >= head.length()) {
      whole = head.length();
      for (line = lines.readLine(); line != null; line = lines.readLine()) {
        long end = whole + line.length() + 1;
        if (end > channel.size() || !takeLine(new String(line.getBytes(StandardCharsets.ISO_8859_1),
            StandardCharsets.UTF_8), book)) {
          break;
        }
        whole = end;
      }
    }
    channel.truncate(whole);
    channel.position(whole);
    return whole > 0;
  }

  private boolean takeLine(String line, RuleBook book) {
    String[] parts = line.split("\t", 2);
    try {
      if (parts.length < 2) {
        return false;
      }
      TraceResult result = JsonResult.read(file.toString(), parts[1], book);
      before.put(key(parts[0], result.path()), result);
      kept++;
      return true;
    } catch (ReportFormatException e) {
      return false;
    }
  }

  private static String key(String digest, String path) {
    return digest + " " + path;
  }

  @Override
  public synchronized Optional<TraceResult> find(Input trace) {
    Optional<TraceResult> result = Optional.ofNullable(before.get(key(trace.sha256(), trace.path())));
    taken += result.isPresent() ? 1 : 0;
    return result;
  }

  @Override
  public synchronized void add(Input trace, TraceResult result) {
    try {
      write(trace.sha256() + "\t" + JsonResult.write(result) + "\n");
      kept++;
    } catch (IOException e) {
      throw trouble(file, e);
    }
  }

  private void write(String line) throws IOException {
    out.write(line.getBytes(StandardCharsets.UTF_8));
  }

  /** The report is written: takes the journal away if that is whole, and says what it was good for. */
  public synchronized void end(Report report, Console console) {
    if (taken > 0) {
      console.err().println("pawl: " + taken + " of " + report.traces().size()
          + " traces were judged before, by a run that did not end; their"
          + " results were taken over");
    }
    try {
      if (report.partial() && kept > 0) {
        console.err().println("pawl: what was judged is kept in " + file + "; the same command goes on from there");
      } else {
        Files.deleteIfExists(file);
      }
    } catch (IOException e) {
      throw trouble(file, e);
    }
  }

  @Override
  public void close() {
    try {
      channel.close();
    } catch (IOException e) {
      throw trouble(file, e);
    }
  }
}
