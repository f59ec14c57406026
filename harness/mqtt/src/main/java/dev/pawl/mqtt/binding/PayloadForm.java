package dev.pawl.mqtt.binding;

import com.fasterxml.jackson.core.JsonPointer;
import dev.pawl.trace.time.TimeScale;
import java.util.Optional;
import java.util.function.Function;

/** How a message carries a signal's value. */
public sealed interface PayloadForm {

  /** The answer for the one it is. */
  <R> R match(Function<Plain, R> plain, Function<Json, R> json, Function<Sparkplug, R> sparkplug);

  /** The whole payload is the value as text. */
  record Plain() implements PayloadForm {
    @Override
    public <R> R match(Function<Plain, R> plain, Function<Json, R> json, Function<Sparkplug, R> sparkplug) {
      return plain.apply(this);
    }
  }

  /**
   * The payload is a JSON text (RFC 8259) in which the value stands at a pointer (RFC 6901).
   *
   * @param value where the value is
   * @param time where a time is, and how it is written
   */
  record Json(JsonPointer value, Optional<StatedTime> time) implements PayloadForm {
    @Override
    public <R> R match(Function<Plain, R> plain, Function<Json, R> json, Function<Sparkplug, R> sparkplug) {
      return json.apply(this);
    }
  }

  /**
   * Where and how a JSON payload states a time.
   *
   * @param clock whose time it is
   * @param pointer where
   * @param scale how it is written; numbers of the sender's clock count from 1970
   */
  record StatedTime(Clock clock, JsonPointer pointer, TimeScale scale) {}

  /** Whose time a payload states. */
  enum Clock {
    /** The sender's own: when it took the value. */
    SENDER,
    /**
     * That of the trace which is played step by step: the instant to which the value belongs. Left out where there is
     * none.
     */
    TRACE
  }

  /**
   * The value is a metric of a Sparkplug B edge node or device.
   *
   * @param source which node or device
   * @param metric the metric's name
   */
  record Sparkplug(SparkplugSource source, String metric) implements PayloadForm {
    @Override
    public <R> R match(Function<Plain, R> plain, Function<Json, R> json, Function<Sparkplug, R> sparkplug) {
      return sparkplug.apply(this);
    }
  }
}
