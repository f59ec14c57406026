package dev.pawl.bench.table;

import java.io.IOException;
import java.io.PrintStream;
import java.util.Locale;

/** How results are written: one line each, in columns. */
final class Table {

  private final PrintStream out;

  Table(PrintStream out) {
    this.out = out;
  }

  void title(String text) {
    out.printf("%n%s%n", text);
  }

  void note(String text) {
    out.println("  " + text);
  }

  /** Lines that another program has laid out. */
  void text(String lines) {
    out.print(lines);
  }

  void head() {
    out.printf("  %-44s %9s %9s %10s %8s %9s%n", "program", "best s", "worst s", "M rows/s", "CPU s", "peak MB");
  }

  void line(Contestant contestant) {
    out.printf(Locale.ROOT, "  %-44s %9.3f %9.3f %10.2f %8.2f %9.1f%n", contestant.name(), contestant.best(),
        contestant.worst(), contestant.rate() / 1e6, contestant.processor(), contestant.peakKilobytes() / 1024.0);
  }

  /** A time that a program took itself of a part of its run. */
  void part(String name, double seconds, long rows) {
    out.printf(Locale.ROOT, "  %-44s %9.3f %9s %10.2f%n", name, seconds, "", rows / seconds / 1e6);
  }

  /** A reached ratio beside the one that is aimed at. */
  void ratio(String name, double reached, double aim) {
    out.printf(Locale.ROOT, "  %-66s %7.2f   aim %5.2f   %s%n", name, reached, aim, reached >= aim ? "reached"
        : "MISSED");
  }

  /** A ratio that is nobody's aim. */
  void ratio(String name, double reached) {
    out.printf(Locale.ROOT, "  %-66s %7.2f%n", name, reached);
  }

  /** A reached figure of which less is better. */
  void bound(String name, double reached, double aim, String unit) {
    out.printf(Locale.ROOT, "  %-66s %7.2f   aim %5.2f %s   %s%n", name, reached, aim, unit, reached <= aim ? "reached"
        : "MISSED");
  }

  /** Fails the whole run where counts differ: a time for a wrong answer is worth nothing. */
  void same(String name, String differences) throws IOException {
    if (!differences.isEmpty()) {
      throw new IOException("the counts of " + name + " differ:" + differences);
    }
    out.printf("  counts agree: %s%n", name);
  }
}
