package dev.pawl.run;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.plant.loop.PowerCuts;
import dev.pawl.report.model.DepartureResult;
import dev.pawl.report.model.ProgramPlace;
import dev.pawl.report.model.TracePlace;
import java.io.IOException;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;

/** A run of a source around another one, which is asked for all that the outer one does not answer for itself. */
public abstract class RunOfAnother implements EventSource.Run {

  protected final EventSource.Run run;

  protected RunOfAnother(EventSource.Run run) {
    this.run = run;
  }

  @Override
  public EventSink heardBy(EventSink judge) {
    return run.heardBy(judge);
  }

  @Override
  public final void cuts(PowerCuts taker) {
    run.cuts(taker);
  }

  @Override
  public final boolean calendar() {
    return run.calendar();
  }

  @Override
  public final Optional<ZoneId> zone() {
    return run.zone();
  }

  @Override
  public final TracePlace place(String trace, long line) {
    return run.place(trace, line);
  }

  @Override
  public Optional<ProgramPlace> writer(int signal, long line) {
    return run.writer(signal, line);
  }

  @Override
  public List<DepartureResult> departures(Rule rule) {
    return run.departures(rule);
  }

  @Override
  public List<String> unrecorded(Rule rule) {
    return run.unrecorded(rule);
  }

  @Override
  public final void close() throws IOException {
    run.close();
  }
}
