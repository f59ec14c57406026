package dev.pawl.trace;

import dev.pawl.trace.bytes.Decompression;
import dev.pawl.trace.bytes.Feed;
import dev.pawl.trace.intake.Settings;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * The way in to recorded traces.
 *
 * <pre>
 * try (TraceReader reader = Traces.open(path, TraceOptions.of(book))) {
 *   TraceSummary summary = reader.readTo(engine, Progress.NONE);
 * }
 * </pre>
 */
public final class Traces {

  private Traces() {}

  /**
   * Opens a trace file.
   *
   * @throws IOException if it cannot be read
   */
  public static TraceReader open(Path path, TraceOptions options) throws IOException {
    return open(Files.newInputStream(path), path.toString(), options);
  }

  /**
   * Opens a trace that comes as a stream, which the reader closes.
   *
   * @param name what problems call the trace
   */
  public static TraceReader open(InputStream stream, String name, TraceOptions options) throws IOException {
    try {
      Feed feed = Decompression.open(stream, options.bindings().columns().letters());
      Content content = Content.of(feed.peek(Content.SNIFFED), feed.damage(), feed.remedy());
      TraceFormat format = options.format().orElse(content.format());
      Settings settings = new Settings(options.bindings().columns(), options.bindings().time().or(options.timeScale()));
      return new FileTraceReader(feed, name, options, format, format.decoder(settings), content);
    } catch (IOException | RuntimeException e) {
      stream.close();
      throw e;
    }
  }
}
