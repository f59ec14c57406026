package dev.pawl.bench.logic;

import dev.pawl.grammar.logic.LogicLanguage;
import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.grammar.source.DiagnosticRenderer;
import dev.pawl.grammar.source.Source;
import dev.pawl.logic.LogicOptions;
import dev.pawl.logic.LogicProgram;
import dev.pawl.logic.ScanMachine;
import dev.pawl.logic.code.ProgramCompiler;
import java.io.IOException;
import java.io.PrintStream;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;

/**
 * The table of the logic's speed: an eight-hour day of the demo's controller at a 10 ms scan, beside the same equations
 * written by hand, in turns in one process; both must give the same outputs. Then the time to check a program of ten
 * thousand lines.
 */
public final class LogicTable {

  private static final int DAY = 2_880_000;
  private static final long SCAN = 10_000_000L;
  private static final String[] SWITCHES = {"station_in_flag", "station_stop_flag", "station_out_flag", "near_flag",
      "base_flag", "backstop_low_flag", "backstop_high_flag", "hold_flag", "crest_flag", "mid_in_flag", "mid_out_flag",
      "final_in_flag", "final_out_flag", "ready_stop_flag", "estop_chain", "reset_button", "lift_start_button",
      "dispatch_left", "dispatch_right", "gates_closed", "restraints_locked", "chain_healthy", "station_brake_closed",
      "mid_brake_closed", "final_brake_closed", "ready_brake_closed"};
  private static final String[] OUTPUTS = {"lift_run", "station_release", "mid_brake_open", "final_brake_open",
      "ready_brake_open",
      "station_tyres_run", "approach_tyres_run", "mid_tyres_run", "final_tyres_run", "ready_tyres_run", "gates_unlock",
      "stop_lamp", "fault_lamp", "train_parked_lamp"};

  private final PrintStream out;

  private LogicTable(PrintStream out) {
    this.out = out;
  }

  /**
   * Prints the table.
   *
   * @param arguments the path of {@code kestrel-ridge.st}, and how often each is run
   */
  public static void main(String[] arguments) throws IOException, ProgramCompiler.TooLarge {
    LogicTable table = new LogicTable(System.out);
    String text = Files.readString(Path.of(arguments[0]));
    int runs = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 7;
    table.scans(text, runs);
    table.checks(text);
  }

  private static CheckedProgram check(String text) {
    Source source = new Source("bench.st", text);
    LogicLanguage.Compilation compilation = LogicLanguage.compile(List.of(source));
    return compilation.program().orElseThrow(
        () -> new IllegalArgumentException(new DiagnosticRenderer(List.of(source)).render(compilation.diagnostics())));
  }

  private void scans(String text, int runs) throws ProgramCompiler.TooLarge {
    LogicProgram program = LogicProgram.compile(check(text), LogicOptions.DEFAULT, recorded(check(text)));
    long[] inputs = inputs();
    double compiled = Double.MAX_VALUE;
    double byHand = Double.MAX_VALUE;
    out.printf("%nan eight-hour day, %,d scans of %d lines, best of %d runs in turns, processor time%n", DAY,
        text.lines().count(), runs);
    for (int run = 0; run < runs; run++) {
      long[] sums = new long[2];
      compiled = Math.min(compiled, seconds(() -> sums[0] = compiled(program, inputs)));
      byHand = Math.min(byHand, seconds(() -> sums[1] = byHand(inputs)));
      if (sums[0] != sums[1]) {
        throw new IllegalStateException("the two give different outputs: a time for a wrong answer is worth nothing");
      }
    }
    line("compiled Structured Text", compiled);
    line("the same equations in Java", byHand);
    out.printf(Locale.ROOT, "  %-40s %8.2f   aim at most 3%n", "times as long", compiled / byHand);
    out.printf(Locale.ROOT, "  %-40s %8.2f s aim under 10 s%n", "the day", compiled);
  }

  private void line(String name, double seconds) {
    out.printf(Locale.ROOT, "  %-40s %8.3f s %8.2f M scans/s %8.0f ns/scan%n", name, seconds, DAY / seconds / 1e6,
        seconds / DAY * 1e9);
  }

  /** Processor time of this thread, which other programs on the machine do not lengthen. */
  private static double seconds(Runnable work) {
    ThreadMXBean threads = ManagementFactory.getThreadMXBean();
    long start = threads.getCurrentThreadCpuTime();
    work.run();
    return (threads.getCurrentThreadCpuTime() - start) / 1e9;
  }

  /** As in a replay, the lines that write the outputs are recorded. */
  private static BitSet recorded(CheckedProgram program) {
    BitSet slots = new BitSet();
    for (String output : OUTPUTS) {
      slots.set(program.symbol(output).orElseThrow().address());
    }
    return slots;
  }

  /**
   * A word of switches per scan. Trains go round with some disorder, and now and then everything is stopped and reset.
   */
  private static long[] inputs() {
    SplittableRandom random = new SplittableRandom(7);
    long[] words = new long[DAY];
    long word = 1L << 14 | 1L << 19 | 1L << 20 | 1L << 21 | 1L << 22 | 1L << 23;
    for (int scan = 0; scan < DAY; scan++) {
      if (scan % 40 == 0) {
        word ^= 1L << random.nextInt(14);
      }
      if (random.nextInt(2000) == 0) {
        word ^= 1L << 14 + random.nextInt(12);
      }
      words[scan] = scan % 3000 < 20 ? word | 1L << 14 | 1L << 15 | 1L << 21 : scan % 3000 < 40
          ? word & ~(1L << 15) | 1L << 16
          : word;
    }
    return words;
  }

  private static long compiled(LogicProgram program, long[] inputs) {
    ScanMachine machine = new ScanMachine(program);
    int[] switches = addresses(machine, SWITCHES);
    int[] outputs = addresses(machine, OUTPUTS);
    int reference = machine.address("lift_reference");
    machine.set("mode", 2);
    machine.set("brake_air", 100.0);
    machine.set("lift_speed", 2.7);
    long sum = 0;
    for (int scan = 0; scan < DAY; scan++) {
      long word = inputs[scan];
      for (int i = 0; i < switches.length; i++) {
        machine.setWordAt(switches[i], word >>> i & 1);
      }
      machine.scan(scan * SCAN);
      long image = 0;
      for (int i = 0; i < outputs.length; i++) {
        image |= machine.wordAt(outputs[i]) << i;
      }
      sum = sum * 31 + image * 131 + (long) (Double.longBitsToDouble(machine.wordAt(reference)) * 10);
    }
    return sum;
  }

  private static int[] addresses(ScanMachine machine, String[] names) {
    int[] addresses = new int[names.length];
    for (int i = 0; i < names.length; i++) {
      addresses[i] = machine.address(names[i]);
    }
    return addresses;
  }

  private static long byHand(long[] inputs) {
    HandWrittenRide ride = new HandWrittenRide();
    ride.mode = 2;
    ride.brakeAir = 100;
    ride.liftSpeed = 2.7f;
    long sum = 0;
    for (int scan = 0; scan < DAY; scan++) {
      switches(ride, inputs[scan]);
      ride.scan(scan * SCAN);
      sum = sum * 31 + outputs(ride) * 131 + (long) ((double) ride.liftReference * 10);
    }
    return sum;
  }

  private static boolean bit(long word, int index) {
    return (word >>> index & 1) != 0;
  }

  private static void switches(HandWrittenRide ride, long word) {
    ride.stationIn = bit(word, 0);
    ride.stationStop = bit(word, 1);
    ride.stationOut = bit(word, 2);
    ride.near = bit(word, 3);
    ride.base = bit(word, 4);
    ride.backstopLow = bit(word, 5);
    ride.backstopHigh = bit(word, 6);
    ride.hold = bit(word, 7);
    ride.crest = bit(word, 8);
    ride.midIn = bit(word, 9);
    ride.midOut = bit(word, 10);
    ride.finalIn = bit(word, 11);
    ride.finalOut = bit(word, 12);
    ride.readyStop = bit(word, 13);
    ride.estopChain = bit(word, 14);
    ride.resetButton = bit(word, 15);
    ride.liftStart = bit(word, 16);
    ride.dispatchLeft = bit(word, 17);
    ride.dispatchRight = bit(word, 18);
    ride.gatesClosed = bit(word, 19);
    ride.restraintsLocked = bit(word, 20);
    ride.chainHealthy = bit(word, 21);
    ride.stationClosed = bit(word, 22);
    ride.midClosed = bit(word, 23);
    ride.finalClosed = bit(word, 24);
    ride.readyClosed = bit(word, 25);
  }

  private static long outputs(HandWrittenRide ride) {
    boolean[] values = {ride.liftRun, ride.stationRelease, ride.midOpen, ride.finalOpen, ride.readyOpen,
        ride.stationTyres, ride.approachTyres, ride.midTyres, ride.finalTyres, ride.readyTyres, ride.gatesUnlock,
        ride.stopLamp, ride.faultLamp, ride.parkedLamp};
    long image = 0;
    for (int i = 0; i < values.length; i++) {
      image |= values[i] ? 1L << i : 0;
    }
    return image;
  }

  /** The demo's program again and again under other names, until it has ten thousand lines. */
  private void checks(String text) {
    StringBuilder large = new StringBuilder();
    int copies = 0;
    while (large.toString().lines().count() < 10_000) {
      large.append(text.replace("PROGRAM Ride", "PROGRAM Ride" + copies)
          .replaceAll("\\b(Section|TwoHandControl|LiftDrive|ZoneBrake|SwitchWatch"
          + "|AnyFault|Occupancy|FaultList)\\b", "$1" + copies)
              .replaceAll("(?s)VAR_GLOBAL CONSTANT.*?END_VAR", copies == 0 ? "$0"
          : "")
          .replaceAll("operating_mode : \\(", copies == 0 ? "$0" : "operating_mode" + copies + " : (unused" + copies
              + ", "));
      copies++;
    }
    String program = large.toString();
    double first = seconds(() -> check(program));
    double best = first;
    for (int run = 0; run < 5; run++) {
      best = Math.min(best, seconds(() -> check(program)));
    }
    out.printf(Locale.ROOT, "%nchecking a program of %,d lines, processor time%n", program.lines().count());
    out.printf(Locale.ROOT, "  %-40s %8.3f s aim under 1 s%n", "the first time in this process", first);
    out.printf(Locale.ROOT, "  %-40s %8.3f s%n", "best of five more", best);
  }
}
