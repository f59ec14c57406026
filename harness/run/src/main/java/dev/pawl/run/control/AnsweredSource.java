package dev.pawl.run.control;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.report.model.DepartureResult;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.TimeBase;
import dev.pawl.run.EventSource;
import dev.pawl.run.RunOfAnother;
import dev.pawl.run.SourceOfAnother;
import dev.pawl.trace.feedback.Feedback;
import dev.pawl.trace.intake.Progress;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/**
 * The recording of what a bench answered to a trace, beside what the trace says of its outputs.
 *
 * @param source inputs of the trace and outputs of the bench
 * @param recorded outputs of the trace
 * @param feedback which signals follow which outputs
 */
record AnsweredSource(EventSource source, RecordedOutputs recorded, Feedback feedback) implements SourceOfAnother {

  @Override
  public EventSource forAnotherLook() {
    return new AnsweredSource(source.forAnotherLook(), recorded, feedback);
  }

  /** The outputs are compared, whoever else takes them. */
  @Override
  public EventSource.Run begin(boolean[] needed) throws IOException {
    boolean[] taken = needed.clone();
    feedback.moving().forEach(output -> taken[output] = true);
    return new Run(source.begin(taken));
  }

  /** One run. */
  private final class Run extends RunOfAnother implements EventSink {

    private ComparedLoop compared;
    private int row;

    private Run(EventSource.Run run) {
      super(run);
    }

    @Override
    public Summary runTo(EventSink sink, Progress progress) throws IOException {
      compared = new ComparedLoop(feedback, sink);
      Summary summary = run.runTo(this, progress);
      summary.extent().end().ifPresent(end -> {
        tell(end);
        compared.loop().finish(end);
      });
      List<Reading.Counter> counters = new ArrayList<>(summary.control().counters());
      counters.addAll(compared.counters(calendar() ? TimeBase.EPOCH : TimeBase.START));
      Reading met = summary.control();
      return new Summary(summary.extent(), summary.silent(), summary.reading(),
          new Reading(counters, met.problems(), met.problemCount(), met.failure()));
    }

    @Override
    public void event(long time, int signal, long value, long line) {
      tell(time);
      compared.loop().event(time, signal, value, line);
    }

    @Override
    public void advanceTo(long time) {
      tell(time);
      compared.loop().advanceTo(time);
    }

    /** Tells what the trace says of outputs up to a time. */
    private void tell(long time) {
      List<RecordedOutputs.Row> rows = recorded.rows();
      for (; row < rows.size() && rows.get(row).time() <= time; row++) {
        compared.loop().recorded(rows.get(row).time(), rows.get(row).signal(), rows.get(row).value());
      }
    }

    @Override
    public List<DepartureResult> departures(Rule rule) {
      return compared.departures(rule);
    }

    @Override
    public List<String> unrecorded(Rule rule) {
      return compared.unrecorded(rule);
    }
  }
}
