package dev.pawl.trace;

import dev.pawl.engine.EventSink;
import dev.pawl.trace.ahead.AheadSink;
import dev.pawl.trace.bytes.Feed;
import dev.pawl.trace.intake.Channels;
import dev.pawl.trace.intake.Decoder;
import dev.pawl.trace.intake.Intake;
import dev.pawl.trace.intake.ProblemKind;
import dev.pawl.trace.intake.Problems;
import dev.pawl.trace.intake.Progress;
import dev.pawl.trace.intake.UnreadableTrace;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/** A trace in one of the formats, over a feed of its bytes. */
final class FileTraceReader implements TraceReader {

  private final Feed feed;
  private final String name;
  private final TraceOptions options;
  private final TraceFormat format;
  private final Decoder decoder;
  private final Content content;

  FileTraceReader(Feed feed, String name, TraceOptions options, TraceFormat format, Decoder decoder, Content content) {
    this.feed = feed;
    this.name = name;
    this.options = options;
    this.format = format;
    this.decoder = decoder;
    this.content = content;
  }

  @Override
  public boolean calendar() {
    return decoder.calendar();
  }

  @Override
  public TraceSummary readTo(EventSink sink, Progress progress) throws IOException {
    return options.ahead() ? AheadSink.decouple(sink, hidden -> read(hidden, progress)) : read(sink, progress);
  }

  private TraceSummary read(EventSink sink, Progress progress) throws IOException {
    Problems problems = new Problems(name, options.listed());
    Channels channels = new Channels(options.book(), options.bindings(), options.needed(),
        format == TraceFormat.CSV ? options.bindings().columns().point() : '.');
    Intake intake = new Intake(channels, problems, sink,
        format == TraceFormat.VCD ? 0 : options.bindings().session().reorder());
    boolean readable = true;
    boolean whole = false;
    try {
      if (content.obstacle().isPresent()) {
        Content.Obstacle obstacle = content.obstacle().get();
        throw problems.fatal(ProblemKind.UNREADABLE, 1, 1, obstacle.message(), obstacle.hint());
      }
      feed.skip(content.skipped());
      whole = decoder.decode(feed, intake, progress);
    } catch (UnreadableTrace e) {
      readable = false;
    }
    intake.finish();
    boolean nothingLeft = problems.total() > 0 && intake.last().isEmpty();
    boolean rejected = !readable || nothingLeft || problems.total() > 0 && !options.lenient();
    TraceSummary.Outcome outcome = rejected ? TraceSummary.Outcome.REJECTED
        : whole ? TraceSummary.Outcome.COMPLETE : TraceSummary.Outcome.INTERRUPTED;
    return new TraceSummary(
        new TraceSummary.Counts(decoder.lines(), feed.position(), intake.events(), intake.sent()),
        new TraceSummary.Times(decoder.calendar(), intake.first(), intake.last(), intake.statedEnd(),
            decoder.finerTimes()),
        silent(intake), problems.counts(), problems.diagnostics(), outcome);
  }

  private static List<Integer> silent(Intake intake) {
    List<Integer> signals = new ArrayList<>();
    for (int channel = 0; channel < intake.channels().bound(); channel++) {
      if (!intake.seen(channel)) {
        signals.add(channel);
      }
    }
    return signals;
  }

  @Override
  public void close() throws IOException {
    feed.close();
  }
}
