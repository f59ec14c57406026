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
 * The declared variables of a dump by their identifier codes. Several variables may share a code: they are one net, and
 * each change of it is a change of all of them. A variable is known to the rules or bindings by its path, with points
 * between, or where that is not, by its own name.
 */
final class Variables {

  /** What carries no signal of the rules. */
  private static final int NOT_SIGNAL = -1;
  private static final Carrier[] NONE = {};

  private final Intake intake;
  private final Map<String, Integer> places = new HashMap<>();
  private final List<String> codes = new ArrayList<>();
  private final List<Carrier[]> carriers = new ArrayList<>();
  private final Map<Integer, String> owners = new HashMap<>();
  private NameTable table = new NameTable(List.of());

  /**
   * A declared variable that carries a signal.
   *
   * @param channel its channel
   * @param signed whether a vector is a number in two's complement
   * @param size its bits
   */
  record Carrier(int channel, boolean signed, int size) {}

  Variables(Intake intake) {
    this.intake = intake;
  }

  /** Declares a variable; the same code may name a net that was declared before. */
  void declare(String code, String path, String name, boolean integer, int size, long line) {
    int channel = channel(code, path, name, line);
    int place = places.computeIfAbsent(code, this::newPlace);
    Carrier[] known = carriers.get(place);
    if (channel != NOT_SIGNAL && Arrays.stream(known).noneMatch(carrier -> carrier.channel() == channel)) {
      Carrier[] more = Arrays.copyOf(known, known.length + 1);
      more[known.length] = new Carrier(channel, integer, size);
      carriers.set(place, more);
    }
  }

  private int newPlace(String code) {
    codes.add(code);
    carriers.add(NONE);
    return codes.size() - 1;
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

  /** The place of a code, or -1. */
  int find(byte[] bytes, int from, int to) {
    return table.find(bytes, from, to - from);
  }

  /** What the variables of a code carry; empty if no rule knows them. */
  Carrier[] carriers(int place) {
    return carriers.get(place);
  }
}
