package dev.pawl.engine.proof;

import dev.pawl.engine.EventSink;

/**
 * A long generated trace: four switches a, b, c and d, a speed v and a mode m of three members, all known from the
 * start. Instants are 5 to 40 ms apart and bear one to three events, so that a deadline that is a multiple of 5 ms is
 * often met to the nanosecond.
 */
final class LongTrace {
  static final int SPEED = 4;
  static final int MODE = 5;
  private static final int SIGNALS = 6;
  private static final long MILLISECOND = 1_000_000;

  final long[] time;
  final int[] signal;
  final double[] value;

  LongTrace(int events, long seed) {
    time = new long[events];
    signal = new int[events];
    value = new double[events];
    double[] state = new double[SIGNALS];
    Draw draw = new Draw(seed);
    long now = 0;
    for (int i = 0; i < events; i++) {
      boolean first = i < SIGNALS;
      now += first || draw.percent(50) ? 0 : 5 * MILLISECOND * draw.between(1, 8);
      time[i] = now;
      signal[i] = first ? i : draw.weighted(5, 20, 6, 6, 58, 5);
      state[signal[i]] = first ? 0 : next(draw, signal[i], state[signal[i]]);
      value[i] = state[signal[i]];
    }
  }

  private static double next(Draw draw, int signal, double before) {
    return switch (signal) {
      case SPEED -> Math.max(0, Math.min(8, before + 0.125 * draw.between(-4, 4)));
      case MODE -> draw.weighted(80, 15, 5);
      default -> draw.percent(90) ? 1 - before : before;
    };
  }

  int size() {
    return time.length;
  }

  long end() {
    return time[time.length - 1];
  }

  void feed(EventSink sink) {
    for (int i = 0; i < time.length; i++) {
      long raw = signal[i] == SPEED ? Double.doubleToRawLongBits(value[i]) : (long) value[i];
      sink.event(time[i], signal[i], raw, i + 1);
    }
  }
}
