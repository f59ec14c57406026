package dev.pawl.bench.peer;

import java.io.IOException;
import java.io.InputStream;
import java.io.PrintStream;
import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * The bound to measure by: one program for one file format, one set of signals and two rules, and nothing else. It
 * parses time, signal and value of every row, eight bytes at a time, and checks nothing.
 *
 * <p>Argument: the trace. Prints the counts of both rules.
 */
public final class HandScanner {

  private static final VarHandle WORD = MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.LITTLE_ENDIAN);
  private static final int BLOCK = 1 << 18;
  private static final int PAD = 64;
  private static final long ONES = 0x0101010101010101L;
  private static final long HIGHS = 0x8080808080808080L;
  private static final long COMMAS = ',' * ONES;
  private static final long ZEROS = '0' * ONES;
  private static final int TABLE_BITS = 8;

  private static final String[] SIGNALS = {"estop_chain", "lift_run", "gate_release", "zone_1_flag", "zone_2_flag",
      "zone_3_flag", "zone_4_flag", "zone_5_flag", "zone_6_flag", "zone_7_flag", "zone_8_flag", "brake_1_close",
      "brake_2_close", "brake_3_close", "brake_4_close", "reset_button", "station_ready", "plc_heartbeat", "lift_speed",
      "chain_current"};
  private static final int ESTOP_CHAIN = 0;
  private static final int LIFT_RUN = 1;
  private static final int GATE_RELEASE = 2;
  private static final int ZONE_1_FLAG = 3;
  private static final int ZONE_2_FLAG = 4;
  private static final long LONGEST_RESPONSE = 500;

  private final byte[] table = new byte[1 << TABLE_BITS];
  private final double[] last = new double[SIGNALS.length];
  private long factor;
  private boolean occupied;
  private boolean pending;
  private long stopped;
  private long rows;
  private long stops;
  private long late;
  private long dispatches;
  private long wrong;

  private HandScanner() {
    java.util.Arrays.fill(last, Double.NaN);
    long candidate = 0x9E3779B97F4A7C15L;
    while (!fill(candidate)) {
      candidate += 0x632BE59BD9B4E01AL;
    }
    factor = candidate;
  }

  public static void main(String[] arguments) throws IOException {
    HandScanner scanner = new HandScanner();
    try (InputStream in = Files.newInputStream(Path.of(arguments[0]))) {
      scanner.scan(in);
    }
    PrintStream out = System.out;
    out.printf("rows %d, stops %d, late %d, dispatches %d, wrong %d%n", scanner.rows, scanner.stops, scanner.late,
        scanner.dispatches, scanner.wrong);
  }

  /** Tries to give every signal a place of its own. */
  private boolean fill(long candidate) {
    java.util.Arrays.fill(table, (byte) -1);
    for (int signal = 0; signal < SIGNALS.length; signal++) {
      byte[] text = new byte[PAD];
      byte[] name = SIGNALS[signal].getBytes(java.nio.charset.StandardCharsets.US_ASCII);
      System.arraycopy(name, 0, text, 0, name.length);
      text[name.length] = ',';
      int slot = slot(text, 0, name.length, candidate);
      if (table[slot] >= 0) {
        return false;
      }
      table[slot] = (byte) signal;
    }
    return true;
  }

  private static int slot(byte[] bytes, int from, int length, long by) {
    return (int) (((long) WORD.get(bytes, from) ^ Long.rotateLeft((long) WORD.get(bytes, from + length - 7), 31)) * by
        >>> 64 - TABLE_BITS);
  }

  private void scan(InputStream in) throws IOException {
    byte[] bytes = new byte[BLOCK + PAD];
    int filled = in.read(bytes, 0, BLOCK);
    int at = 0;
    while (bytes[at++] != '\n') {
      // The header.
    }
    while (filled > 0) {
      int end = filled;
      while (end > 0 && bytes[end - 1] != '\n') {
        end--;
      }
      block(bytes, at, end);
      System.arraycopy(bytes, end, bytes, 0, filled - end);
      filled -= end;
      at = 0;
      int count = in.read(bytes, filled, BLOCK - filled);
      if (count < 0) {
        break;
      }
      filled += count;
    }
    if (pending) {
      late++;
    }
  }

  private void block(byte[] bytes, int start, int end) {
    int at = start;
    while (at < end) {
      long time = 0;
      long word = (long) WORD.get(bytes, at);
      long comma = commas(word);
      if (comma == 0) {
        time = number(word, 8);
        at += 8;
        word = (long) WORD.get(bytes, at);
        comma = commas(word);
      }
      int digits = Long.numberOfTrailingZeros(comma) >>> 3;
      time = time * POWERS[digits] + number(word, digits);
      at += digits + 1;
      int name = at;
      comma = commas((long) WORD.get(bytes, at));
      while (comma == 0) {
        at += 8;
        comma = commas((long) WORD.get(bytes, at));
      }
      at += Long.numberOfTrailingZeros(comma) >>> 3;
      int signal = table[slot(bytes, name, at - name, factor)];
      at++;
      double value = bytes[at++] - '0';
      if (bytes[at] != '\n') {
        while (bytes[at] != '.' && bytes[at] != '\n') {
          value = value * 10 + (bytes[at++] - '0');
        }
        int scale = 0;
        if (bytes[at] == '.') {
          at++;
          while (bytes[at] != '\n') {
            value = value * 10 + (bytes[at++] - '0');
            scale++;
          }
        }
        value /= POWERS[scale];
      }
      at++;
      rows++;
      judge(time, signal, value);
    }
  }

  private void judge(long time, int signal, double value) {
    double before = last[signal];
    last[signal] = value;
    if (signal > ZONE_2_FLAG || before == value) {
      return;
    }
    switch (signal) {
      case ESTOP_CHAIN -> {
        if (value == 0 && before == 1) {
          stops++;
          pending = last[LIFT_RUN] != 0;
          stopped = time;
        }
      }
      case LIFT_RUN -> {
        if (value == 0 && pending) {
          pending = false;
          late += time - stopped > LONGEST_RESPONSE ? 1 : 0;
        }
      }
      case GATE_RELEASE -> {
        if (value == 1 && before == 0) {
          dispatches++;
          wrong += occupied ? 1 : 0;
        }
      }
      case ZONE_1_FLAG -> occupied |= value == 1 && before == 0;
      case ZONE_2_FLAG -> occupied &= value != 1 || before != 0;
      default -> { }
    }
  }

  private static final long[] POWERS = {1, 10, 100, 1_000, 10_000, 100_000, 1_000_000, 10_000_000, 100_000_000};

  private static long commas(long word) {
    long zeroes = word ^ COMMAS;
    return (zeroes - ONES) & ~zeroes & HIGHS;
  }

  /** The number that the first {@code digits} bytes of the word spell. */
  private static long number(long word, int digits) {
    int half = 32 - (digits << 2);
    long left = (word ^ ZEROS) << half << half;
    long pairs = left * 10 + (left >>> 8);
    return ((pairs & 0x000000FF000000FFL) * 0x000F424000000064L
        + ((pairs >>> 16) & 0x000000FF000000FFL) * 0x0000271000000001L) >>> 32;
  }
}
