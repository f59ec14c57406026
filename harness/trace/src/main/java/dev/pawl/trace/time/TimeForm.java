package dev.pawl.trace.time;

import java.time.ZoneId;
import java.util.Optional;

/**
 * What is stated of the times of a trace outside of it.
 *
 * @param scale their unit, where stated
 * @param epoch whether a number counts from 1970 (UTC) rather than from a start of the trace's own
 * @param written how they are written, where they are no numbers and not as RFC 3339 has it
 * @param zone whose clocks show them, where they state no offset
 * @param repeated what is meant by a local time that comes twice
 */
public record TimeForm(Optional<TimeScale> scale, boolean epoch, Optional<WrittenTime> written, Optional<ZoneId> zone,
    Repeated repeated) {

  /** Nothing is stated. */
  public static final TimeForm UNSTATED = of(Optional.empty());

  /** A unit alone, if that. */
  public static TimeForm of(Optional<TimeScale> scale) {
    return new TimeForm(scale, false, Optional.empty(), Optional.empty(), Repeated.UNSTATED);
  }

  /** The same with a unit that goes before what is stated here. */
  public TimeForm or(Optional<TimeScale> stated) {
    if (stated.isEmpty()) {
      return this;
    }
    return stated.get() == TimeScale.RFC_3339
        ? new TimeForm(stated, false, Optional.empty(), zone, repeated)
        : new TimeForm(stated, epoch, Optional.empty(), Optional.empty(), Repeated.UNSTATED);
  }

  /** The unit, whether stated outright or by what is stated about dates. */
  public Optional<TimeScale> unit() {
    return scale.isEmpty() && (written.isPresent() || zone.isPresent()) ? Optional.of(TimeScale.RFC_3339) : scale;
  }

  /** What a message calls the form. */
  public String label() {
    return written.map(form -> "written " + form.pattern()).orElseGet(() -> unit().map(TimeScale::label)
        .orElse("rfc3339"));
  }
}
