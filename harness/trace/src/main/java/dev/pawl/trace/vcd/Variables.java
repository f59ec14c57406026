package dev.pawl.trace.vcd;

import dev.pawl.trace.bytes.NameTable;
import dev.pawl.trace.intake.Channels;
import dev.pawl.trace.intake.Intake;
import dev.pawl.trace.intake.ProblemKind;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * The declared variables of a dump by their identifier codes. A variable is known to the rules or bindings by its path, with
 * points between, or where that is not, by its own name.
 */
final class Variables {

  /** What a variable of no interest to the rules has for a channel. */
  static final int NOT_SIGNAL = -1;

  private final Intake intake;
  private final Map<String, Integer> places = new HashMap<>();
  private final List<String> codes = new ArrayList<>();
  private final Map<Integer, String> owners = new HashMap<>();
  private int[] channels = new int[16];
  private boolean[] signed = new boolean[16];
  private int[] sizes = new int[16];
  private NameTable table = new NameTable(List.of());

  Variables(Intake intake) {
    this.intake = intake;
  }

  /** Declares a variable; the same code may name a net that was declared before, in another scope. */
  void declare(String code, String path, String name, boolean integer, int size, long line) {
    int channel = channel(code, path, name, line);
    Integer known = places.get(code);
    if (known == null) {
      known = codes.size();
      places.put(code, known);
      codes.add(code);
      if (known == channels.length) {
        channels = Arrays.copyOf(channels, 2 * known);
        signed = Arrays.copyOf(signed, 2 * known);
        sizes = Arrays.copyOf(sizes, 2 * known);
      }
      channels[known] = NOT_SIGNAL;
    }
    if (channel != NOT_SIGNAL) {
      channels[known] = channel;
      signed[known] = integer;
      sizes[known] = size;
    }
  }

  private int channel(String code, String path, String name, long line) {
    Channels all = intake.channels();
    int byPath = all.learnIfKnown(path);
    int channel = byPath >= 0 ? byPath : all.learn(name);
    if (all.isUnbound(channel)) {
      intake.unbound(channel, name, line, 1);
    }
    if (!all.carriesSignal(channel)) {
      return NOT_SIGNAL;
    }
    String owner = owners.putIfAbsent(channel, code);
    if (owner != null && !owner.equals(code)) {
      intake.problems().add(ProblemKind.MALFORMED, line, 1, "a second variable is called '" + name + "'",
          "bind the right one by its path, '" + path + "', in a bindings file");
      return NOT_SIGNAL;
    }
    return channel;
  }

  /** Ends the declarations. */
  void seal() {
    table = new NameTable(codes);
  }

  /** The number of a variable, or -1. */
  int find(byte[] bytes, int from, int to) {
    return table.find(bytes, from, to - from);
  }

  /** The channel of a variable, or {@link #NOT_SIGNAL}. */
  int channel(int variable) {
    return channels[variable];
  }

  /** Whether a vector is a number in two's complement. */
  boolean isSigned(int variable) {
    return signed[variable];
  }

  int size(int variable) {
    return sizes[variable];
  }

  int count() {
    return codes.size();
  }
}
