package dev.pawl.bench.trace;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.SplittableRandom;

/**
 * A long made-up trace of 20 signals in CSV long form, with a known number of late lift stops and of dispatches into an
 * occupied zone.
 *
 * <p>It is made of cycles of 30 s. In each, the gate releases one train, which passes eight flags; every fiftieth has
 * an e-stop. In between, drive feedback and other signals that the two rules do not need change as a logger would see
 * them, two rows to an instant on average.
 *
 * @param rows number of rows
 * @param cycles number of dispatches
 * @param seed start of the random numbers; the same seed gives the same bytes
 */
public record CampaignTrace(long rows, int cycles, long seed) {

  /** The trace of issue-sized measurements: 20 million rows, about 550 MB. */
  public static final CampaignTrace FULL = new CampaignTrace(20_000_000, 200_000, 20261125);

  /** The two rules that the trace's {@link Truth} speaks of. */
  public static final String RULES = """
      ride "Campaign"
      input  estop_chain   : bool
      output lift_run      : bool
      output gate_release  : bool
      input  zone_1_flag   : bool
      input  zone_2_flag   : bool
      input  zone_3_flag   : bool
      input  zone_4_flag   : bool
      input  zone_5_flag   : bool
      input  zone_6_flag   : bool
      input  zone_7_flag   : bool
      input  zone_8_flag   : bool
      output brake_1_close : bool
      output brake_2_close : bool
      output brake_3_close : bool
      output brake_4_close : bool
      input  reset_button  : bool
      input  station_ready : bool
      input  plc_heartbeat : bool
      input  lift_speed    : m/s
      input  chain_current : A

      zone block enter rises(zone_1_flag) leave rises(zone_2_flag) holds 1 starts with 0

      rule STOP-01 "An e-stop stops the lift"
        basis practice
        severity critical
        when falls(estop_chain)
        must not lift_run within 500 ms

      rule ZONE-01 "No dispatch into an occupied zone"
        basis practice
        severity critical
        when rises(gate_release)
        must not occupied(block)
      """;

  /** Names of the signals, in the order of {@link #RULES}. */
  public static final String[] SIGNALS = {"estop_chain", "lift_run", "gate_release", "zone_1_flag", "zone_2_flag",
      "zone_3_flag", "zone_4_flag", "zone_5_flag", "zone_6_flag", "zone_7_flag", "zone_8_flag", "brake_1_close",
      "brake_2_close",
          "brake_3_close",
      "brake_4_close", "reset_button", "station_ready", "plc_heartbeat", "lift_speed", "chain_current"};

  private static final int CYCLE = 30_000;
  private static final int FIRST_FILLER = 11;
  private static final int FILLERS = 9;
  private static final int CYCLES_PER_STOP = 50;
  private static final int STOPS_PER_LATE = 100;
  private static final int CYCLES_PER_WRONG = 667;

  /**
   * What the rules must find.
   *
   * @param stops obligations of the first rule
   * @param late those that were missed
   * @param dispatches obligations of the second rule
   * @param wrong those that were missed
   * @param bytes length of the file
   */
  public record Truth(long stops, long late, long dispatches, long wrong, long bytes) {}

  /** Writes the trace. */
  public Truth writeTo(OutputStream out) throws IOException {
    Writer writer = new Writer(out);
    writer.start();
    for (int cycle = 0; cycle < cycles; cycle++) {
      writer.cycle(cycle);
    }
    return writer.finish();
  }

  /** One pass of writing. */
  private final class Writer {

    private final OutputStream out;
    private final SplittableRandom random = new SplittableRandom(seed);
    private final byte[][] names = new byte[SIGNALS.length][];
    private final boolean[] states = new boolean[SIGNALS.length];
    private long[] plan = new long[128];
    private final byte[] buffer = new byte[1 << 16];
    private int planned;
    private int filled;
    private long written;
    private long rowsLeft = rows;
    private long stops;
    private long late;
    private long wrong;

    Writer(OutputStream out) {
      this.out = out;
      for (int i = 0; i < names.length; i++) {
        names[i] = ("," + SIGNALS[i] + ",").getBytes(StandardCharsets.US_ASCII);
      }
    }

    void start() throws IOException {
      text("time_ms,signal,value\n");
      for (int signal = 0; signal < 18; signal++) {
        states[signal] = signal < 2;
        row(0, signal, states[signal] ? "1" : "0");
      }
      row(0, 18, "2.68");
      row(0, 19, "210.5");
    }

    void cycle(int cycle) throws IOException {
      planned = 0;
      boolean isWrong = cycle % CYCLES_PER_WRONG == CYCLES_PER_WRONG / 2;
      wrong += isWrong ? 1 : 0;
      pulse(2, isWrong ? 6_000 : 1_000, 800);
      for (int flag = 0; flag < 8; flag++) {
        pulse(3 + flag, 5_000 + flag * 3_000, 400);
      }
      if (cycle % CYCLES_PER_STOP == CYCLES_PER_STOP - 1) {
        stop();
      }
      fill(rowsLeft / (cycles - cycle) - planned);
      Arrays.sort(plan, 0, planned);
      for (int i = 0; i < planned; i++) {
        write((long) cycle * CYCLE + 1 + (plan[i] >>> 16), plan[i]);
      }
    }

    private void pulse(int signal, int at, int length) {
      int start = at + random.nextInt(300);
      plan(start, signal, 1);
      plan(start + length + random.nextInt(200), signal, 0);
    }

    private void stop() {
      boolean isLate = stops % STOPS_PER_LATE == STOPS_PER_LATE / 2;
      stops++;
      late += isLate ? 1 : 0;
      int at = 27_000 + random.nextInt(300);
      plan(at, 0, 0);
      plan(at + (isLate ? 520 + random.nextInt(200) : 80 + random.nextInt(400)), 1, 0);
      plan(at + 1_000, 0, 1);
      plan(at + 1_500, 1, 1);
    }

    private void plan(int offset, int signal, int value) {
      if (planned == plan.length) {
        plan = Arrays.copyOf(plan, 2 * planned);
      }
      plan[planned++] = (long) offset << 16 | signal << 8 | value;
    }

    /** Adds rows of the other signals, one to three at a time, so that no signal has two rows at one time. */
    private void fill(long count) {
      long slots = Math.max(1, count / 2);
      long left = count;
      for (long slot = 0; slot < slots && left > 0; slot++) {
        long length = CYCLE / slots;
        long offset = slot * length + random.nextLong(length);
        long group = slot == slots - 1 ? Math.min(left, FILLERS) : Math.min(left, 1 + random.nextInt(3));
        int first = random.nextInt(FILLERS);
        for (int i = 0; i < group; i++) {
          plan((int) offset, FIRST_FILLER + (first + i) % FILLERS, 0);
        }
        left -= group;
      }
    }

    private void write(long time, long planned) throws IOException {
      int signal = (int) (planned >>> 8) & 0xFF;
      if (signal < FIRST_FILLER) {
        row(time, signal, (planned & 1) == 0 ? "0" : "1");
      } else if (signal < 18) {
        states[signal] = !states[signal];
        row(time, signal, states[signal] ? "1" : "0");
      } else if (signal == 18) {
        row(time, signal, "2." + (10 + random.nextInt(90)));
      } else {
        row(time, signal, (190 + random.nextInt(60)) + "." + random.nextInt(10));
      }
    }

    private void row(long time, int signal, String value) throws IOException {
      text(Long.toString(time));
      bytes(names[signal]);
      text(value);
      text("\n");
      rowsLeft--;
    }

    private void text(String text) throws IOException {
      bytes(text.getBytes(StandardCharsets.US_ASCII));
    }

    private void bytes(byte[] text) throws IOException {
      if (filled + text.length > buffer.length) {
        flush();
      }
      System.arraycopy(text, 0, buffer, filled, text.length);
      filled += text.length;
    }

    private void flush() throws IOException {
      out.write(buffer, 0, filled);
      written += filled;
      filled = 0;
    }

    Truth finish() throws IOException {
      flush();
      return new Truth(stops, late, cycles, wrong, written);
    }
  }
}
