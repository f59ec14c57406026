package dev.pawl.run.control;

import dev.pawl.report.model.TraceResult;
import dev.pawl.run.EventSource;
import dev.pawl.run.source.RideSource;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/**
 * The recording of a ride that has moved as a bench commanded, with what truly happened in it.
 *
 * @param recording inputs of the ride and outputs of the bench
 */
record MovedSource(EventSource recording, RideSource ride) implements EventSource {

  @Override
  public String name() {
    return ride.name();
  }

  @Override
  public Optional<Path> file() {
    return recording.file();
  }

  @Override
  public List<Path> files() {
    return ride.files();
  }

  @Override
  public boolean reacts() {
    return true;
  }

  @Override
  public EventSource forAnotherLook() {
    return new MovedSource(recording.forAnotherLook(), ride);
  }

  @Override
  public Run begin(boolean[] needed) throws IOException {
    return recording.begin(needed);
  }

  @Override
  public TraceResult examined(TraceResult result) {
    return ride.examined(result);
  }
}
