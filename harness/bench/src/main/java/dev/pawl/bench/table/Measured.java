package dev.pawl.bench.table;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * One run of a program.
 *
 * @param seconds from its start to its end, all of it
 * @param processor seconds of processor time, all threads, as far as the last look before its end
 * @param peakKilobytes the most memory it ever had resident, as far as the last look before its end; 0 where the system
 *     does not say
 * @param status its exit status
 * @param output what it wrote to standard output
 */
record Measured(double seconds, double processor, long peakKilobytes, int status, String output) {

  private static final int LOOK_MILLISECONDS = 5;
  private static final double TICKS_PER_SECOND = 100;
  private static final int USER_TICKS = 11;

  /** Runs a program to its end; its standard error goes to {@code errors}. */
  static Measured run(List<String> command, Path errors) throws IOException {
    Path output = Files.createTempFile("measured", ".txt");
    try {
      long start = System.nanoTime();
      Process process = new ProcessBuilder(command).redirectOutput(output.toFile())
          .redirectError(ProcessBuilder.Redirect.appendTo(errors.toFile())).start();
      long peak = 0;
      double processor = 0;
      while (!process.waitFor(LOOK_MILLISECONDS, TimeUnit.MILLISECONDS)) {
        peak = Math.max(peak, peak(process.pid()));
        processor = Math.max(processor, processor(process.pid()));
      }
      double seconds = (System.nanoTime() - start) / 1e9;
      return new Measured(seconds, processor, peak, process.exitValue(), Files.readString(output));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted while waiting for " + command.get(0), e);
    } finally {
      Files.deleteIfExists(output);
    }
  }

  private static long peak(long process) {
    for (String line : proc(process, "status").split("\n")) {
      if (line.startsWith("VmHWM:")) {
        return Long.parseLong(line.replaceAll("\\D", ""));
      }
    }
    return 0;
  }

  private static double processor(long process) {
    String line = proc(process, "stat");
    String[] fields = line.substring(line.lastIndexOf(')') + 1).trim().split(" ");
    return fields.length < USER_TICKS + 2 ? 0
        : (Long.parseLong(fields[USER_TICKS]) + Long.parseLong(fields[USER_TICKS + 1])) / TICKS_PER_SECOND;
  }

  /** Empty where there is no such file: the process has ended, or the system is another. */
  private static String proc(long process, String file) {
    try {
      return new String(Files.readAllBytes(Path.of("/proc", Long.toString(process), file)), StandardCharsets.US_ASCII);
    } catch (IOException e) {
      return "";
    }
  }
}
