package dev.pawl.cli.keep;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.mqtt.feed.Recording;
import dev.pawl.mqtt.feed.RowFile;
import dev.pawl.run.Unjudged;
import dev.pawl.trace.TraceFormat;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.TraceReader;
import dev.pawl.trace.TraceSummary;
import dev.pawl.trace.Traces;
import dev.pawl.trace.intake.Progress;
import dev.pawl.trace.time.TimeScale;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.IntStream;

/**
 * The file that a live feed is kept in, claimed by one pawl at a time: a new one, which is made once the feed is there,
 * or a recording that is continued.
 */
public final class KeptFeed implements AutoCloseable {

  private static final TimeScale SCALE = TimeScale.RFC_3339;

  private final Path file;
  private final RuleBook book;
  private final Console console;
  private Optional<Recording.Earlier> earlier = Optional.empty();
  private FileChannel channel;
  private KeptRows rows = KeptRows.NONE;

  private KeptFeed(Path file, RuleBook book, Console console) {
    this.file = file;
    this.book = book;
    this.console = console;
  }

  /**
   * Looks at the file, and changes nothing yet.
   *
   * @param append whether a recording that is there is continued
   */
  public static KeptFeed of(String file, boolean append, RuleBook book, Console console) {
    KeptFeed feed = new KeptFeed(Path.of(file), book, console);
    if (KeptFiles.isThere(feed.file)) {
      if (!append) {
        throw feed.isThereAlready();
      }
      feed.take();
    }
    return feed;
  }

  private CommandException isThereAlready() {
    return KeptFiles.refusal(file,
        "is there already, and nothing is written over it; --append continues a recording, or name another file");
  }

  private void take() {
    KeptFiles.requireFileItself(file);
    try {
      channel = FileChannel.open(file, StandardOpenOption.READ, StandardOpenOption.WRITE);
      KeptFiles.claim(channel, file);
      check();
    } catch (IOException e) {
      close();
      throw KeptFiles.trouble(file, e);
    } catch (CommandException e) {
      close();
      throw e;
    }
  }

  private void check() throws IOException {
    if (!KeptFiles.beginsAsKept(bytes(), SCALE)) {
      throw KeptFiles.refusal(file,
          "is no recording of pawl, whose first line is time,signal,value,quality; name another file");
    }
    rows = KeptRows.of(channel);
    if (rows.lines() > 0) {
      earlier = Optional.of(read());
    }
  }

  /** The whole rows are read as strictly as for judging. */
  private Recording.Earlier read() throws IOException {
    try (TraceReader reader = reader()) {
      TraceSummary summary = reader.readTo(new Unjudged(), Progress.NONE);
      if (summary.isRejected()) {
        throw KeptFiles.refusal(file,
            summary.problemLine() + "; it is continued only with the signals it was recorded with, and if every"
            + " row can be read ('pawl check' shows the places)");
      }
      OptionalLong end = summary.times().end();
      List<Integer> known = IntStream.range(0, book.signals().size())
          .filter(signal -> !summary.silent().contains(signal)).boxed().toList();
      return new Recording.Earlier(rows.lines(), end.orElse(Long.MIN_VALUE), known);
    }
  }

  private TraceReader reader() throws IOException {
    return Traces.open(rows.of(bytes()), file.toString(), TraceOptions.of(book).withFormat(TraceFormat.CSV));
  }

  /**
   * Tells a judge all that was kept before this feed.
   *
   * @return how many events there were
   */
  public long tell(EventSink judge) {
    try (TraceReader reader = reader()) {
      return reader.readTo(judge, Progress.NONE).counts().events();
    } catch (IOException e) {
      throw KeptFiles.trouble(file, e);
    }
  }

  /** The file from its start; closing it leaves the channel open, as its claim ends with it. */
  private InputStream bytes() throws IOException {
    channel.position(0);
    return new FilterInputStream(Channels.newInputStream(channel)) {
      @Override
      public void close() {
        // The channel is still needed.
      }
    };
  }

  /** The recording, which begins when it is told to. */
  public Recording recording() {
    return new Recording(this::open, earlier, book.signals(), SCALE);
  }

  private RowFile open() {
    try {
      if (channel == null) {
        channel = FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
        KeptFiles.claim(channel, file);
      } else {
        rows.torn().ifPresent(torn -> console.err().println("pawl: " + file + ": the last row is torn and is cut off: "
            + torn));
        channel.truncate(rows.bytes());
        channel.position(rows.bytes());
        console.err().println("pawl: " + file + " is continued after " + rows.lines()
            + " lines; from its end on each signal is unknown until"
            + " its next value");
      }
      return new RowFile(channel, rows.bytes());
    } catch (FileAlreadyExistsException e) {
      throw isThereAlready();
    } catch (IOException e) {
      throw KeptFiles.trouble(file, e);
    }
  }

  @Override
  public void close() {
    try {
      if (channel != null && channel.isOpen()) {
        channel.force(true);
        Durable.nameOf(file);
        channel.close();
      }
    } catch (IOException e) {
      throw KeptFiles.trouble(file, e);
    }
  }
}
