package dev.pawl.bench.peers;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;

/** One row of a trace, as the bean that an event engine wants. */
public final class SignalEvent {

  private final long time;
  private final String signal;
  private final double value;

  /**
   * An event.
   *
   * @param time milliseconds
   */
  public SignalEvent(long time, String signal, double value) {
    this.time = time;
    this.signal = signal;
    this.value = value;
  }

  /** Reads the first rows of a trace. */
  static SignalEvent[] read(Path trace, int rows) throws IOException {
    SignalEvent[] events = new SignalEvent[rows];
    Map<String, String> names = new HashMap<>();
    try (BufferedReader in = Files.newBufferedReader(trace)) {
      in.readLine();
      for (int row = 0; row < rows; row++) {
        String line = in.readLine();
        int first = line.indexOf(',');
        int second = line.indexOf(',', first + 1);
        String name = names.computeIfAbsent(line.substring(first + 1, second), same -> same);
        events[row] = new SignalEvent(Long.parseLong(line, 0, first, 10), name,
            Double.parseDouble(line.substring(second + 1)));
      }
    }
    return events;
  }

  public long getTime() {
    return time;
  }

  public String getSignal() {
    return signal;
  }

  public double getValue() {
    return value;
  }
}
