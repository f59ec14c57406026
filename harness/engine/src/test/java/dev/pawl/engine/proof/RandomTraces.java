package dev.pawl.engine.proof;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.Sampling;
import dev.pawl.engine.reference.Trace;
import dev.pawl.engine.reference.TraceEvent;
import dev.pawl.grammar.rules.model.ValueType;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import java.util.function.IntSupplier;

/**
 * Draws short traces over {@link TestSignals}, with unknown values, several events at one time, and times that meet
 * deadlines.
 */
final class RandomTraces {

  private RandomTraces() {}

  static Trace trace(Draw draw) {
    return trace(draw, draw.oneIn(500));
  }

  /**
   * A trace in which mostly the switches change, all of them known at first and some of them lost and found again
   * later.
   */
  static Trace ofSwitches(Draw draw) {
    return trace(draw, draw.between(12, 40), 100, draw.of(List.of(0, 3, 12)), 85);
  }

  /**
   * A trace in which one number changes all the time, another one and the switches now and then; some are lost and
   * found again.
   */
  static Trace ofNumbers(Draw draw) {
    List<Integer> signals = List.of(TestSignals.NUMBERS[0], TestSignals.NUMBERS[0], TestSignals.NUMBERS[0],
        TestSignals.NUMBERS[1], 0, 1, 2, 3);
    return trace(draw, draw.between(20, 60), 100, draw.of(List.of(0, 3, 12)), () -> draw.of(signals));
  }

  /** A trace of some hundred events, where many obligations can wait at once. */
  static Trace longer(Draw draw) {
    return trace(draw, true);
  }

  private static Trace trace(Draw draw, boolean longer) {
    int known = draw.of(List.of(0, 60, 100, 100, 100, 100));
    int unknown = draw.of(List.of(0, 0, 0, 0, 4, 12));
    int count = longer ? draw.between(60, 150) : draw.between(0, 24);
    return trace(draw, count, known, unknown, draw.percent(50) ? 80 : 0);
  }

  private static Trace trace(Draw draw, int count, int known, int unknown, int switchesOnly) {
    return trace(draw, count, known, unknown,
        () -> draw.percent(switchesOnly) ? draw.between(0, 3) : draw.between(0, TestSignals.ALL.size() - 1));
  }

  private static Trace trace(Draw draw, int count, int known, int unknown, IntSupplier signals) {
    long time = draw.percent(60) ? 0 : draw.of(-7, 5, 1_000_000_007L, 1_700_000_000_123_456_789L);
    List<TraceEvent> events = new ArrayList<>();
    for (int signal = 0; signal < TestSignals.ALL.size(); signal++) {
      if (draw.percent(known)) {
        events.add(new TraceEvent(time, signal, value(draw, signal, unknown)));
      }
    }
    for (int event = 0; event < Math.max(count, events.isEmpty() ? 1 : 0); event++) {
      time += draw.percent(40) ? 0 : draw.percent(95) ? draw.between(1, 4) : draw.between(5, 12);
      int signal = signals.getAsInt();
      events.add(new TraceEvent(time, signal, value(draw, signal, unknown)));
    }
    return new Trace(events, draw.percent(50) ? OptionalLong.empty() : OptionalLong.of(time + draw.between(0, 8)),
        sampling(draw));
  }

  /** Mostly none; it changes what is told of a trace, not the trace. */
  private static Sampling sampling(Draw draw) {
    Sampling sampling = draw.percent(65) ? Sampling.NONE
        : Sampling.of(TestSignals.ALL.stream().mapToLong(signal -> draw.percent(50) ? 0 : draw.between(1, 3))
            .toArray());
    return draw.percent(50) ? sampling : sampling.withFirstValues(draw.between(0, 3));
  }

  private static long value(Draw draw, int signal, int unknown) {
    if (draw.percent(unknown)) {
      return EventSink.UNKNOWN;
    }
    ValueType type = TestSignals.ALL.get(signal).type();
    if (type instanceof ValueType.Bool) {
      return draw.between(0, 1);
    }
    if (type instanceof ValueType.Enumeration) {
      return draw.between(0, TestSignals.MEMBERS - 1);
    }
    return Double.doubleToRawLongBits(switch (signal) {
      case TestSignals.SPEED -> draw.of(0, 1e9, 1.5e9, 2e9, 3e9);
      case TestSignals.DURATION -> draw.of(0, 1, 2, 2.5, 4) / 1e9;
      default -> draw.of(-2, -1, 0, 0.5, 1, 2, 3);
    });
  }
}
