package dev.pawl.logic.drawn;

import dev.pawl.logic.drawn.Sketch.From;
import dev.pawl.logic.drawn.Sketch.Part;
import dev.pawl.logic.drawn.Sketch.Pin;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.Set;

/**
 * An interpreter of sketches that goes along the wires, element by element, scan by scan: each wire has a value, and
 * keeps it until its element is evaluated again. It shares nothing with the translator but the rules, written down in
 * DRAWN.md.
 */
final class NaiveNetworks {

  private final List<Part> parts;
  private final List<List<Part>> networks = new ArrayList<>();
  private final Map<String, Integer> labels = new HashMap<>();
  private final Map<Integer, Part> byId = new HashMap<>();
  private final Map<Integer, Map<String, Long>> wires = new HashMap<>();
  private final Map<String, Long> literals = new HashMap<>();
  private final Map<Integer, Long> before = new HashMap<>();
  private final Map<String, long[]> instances = new HashMap<>();
  private final Map<String, Long> variables;
  private long now;

  /** @param variables of type BOOL, as 0 and 1, and of type INT */
  NaiveNetworks(Sketch sketch, Map<String, Long> variables) {
    this.parts = sketch.parts();
    this.variables = variables;
    parts.forEach(part -> byId.putIfAbsent(part.id(), part));
    arrange();
  }

  /** What a wire carries, as far as anything has come out of its element. */
  OptionalLong wire(long element, String output) {
    Long value = wires.getOrDefault((int) element, Map.of()).get(output);
    return value == null ? OptionalLong.empty() : OptionalLong.of(value);
  }

  // ---- the order

  private void arrange() {
    Map<Integer, Set<Integer>> joined = new HashMap<>();
    for (Part part : parts) {
      joined.put(part.id(), new HashSet<>(Set.of(part.id())));
    }
    for (Part part : parts) {
      for (int from : sources(part)) {
        Set<Integer> all = joined.get(part.id());
        all.addAll(joined.get(from));
        List.copyOf(all).forEach(each -> joined.put(each, all));
      }
    }
    Set<Set<Integer>> different = new LinkedHashSet<>();
    parts.stream().filter(part -> !part.kind().equals("label")).forEach(part -> different.add(joined.get(part.id())));
    List<List<Part>> all = new ArrayList<>();
    different.forEach(ids -> all.add(parts.stream().filter(part -> ids.contains(part.id())).toList()));
    all.sort(Comparator.comparingDouble((List<Part> it) -> it.stream().mapToDouble(Part::y).min().orElse(0))
        .thenComparingDouble(it -> it.stream().mapToDouble(Part::x).min().orElse(0)));
    all.forEach(network -> networks.add(order(network)));
    for (Part part : parts) {
      if (part.kind().equals("label")) {
        int index = 0;
        while (index < all.size() && all.get(index).stream().mapToDouble(Part::y).max().orElse(0) < part.y()) {
          index++;
        }
        labels.put(part.name(), index);
      }
    }
  }

  private static List<Integer> sources(Part part) {
    return part.pins().stream().flatMap(pin -> pin.from().stream()).map(From::element).filter(id -> id > 0).toList();
  }

  private static List<Part> order(List<Part> network) {
    List<Part> left = new ArrayList<>(network);
    left.sort(Comparator.comparingDouble(Part::y).thenComparingDouble(Part::x));
    List<Part> order = new ArrayList<>();
    while (!left.isEmpty()) {
      Part next = left.stream().filter(part -> left.stream().noneMatch(other -> sources(part).contains(other.id())))
          .findFirst().orElseGet(() -> left.stream().filter(part -> before(part, left).stream()
              .allMatch(other -> before(other, left).contains(part)))
              .min(Comparator.comparingDouble(Part::x)).orElseThrow());
      left.remove(next);
      order.add(next);
    }
    return order;
  }

  /** All that an element takes from, directly or by others. */
  private static Set<Part> before(Part part, List<Part> among) {
    Set<Part> found = new LinkedHashSet<>();
    List<Part> open = new ArrayList<>(List.of(part));
    while (!open.isEmpty()) {
      Part each = open.remove(0);
      among.stream().filter(other -> sources(each).contains(other.id()) && found.add(other)).forEach(open::add);
    }
    return found;
  }

  // ---- a scan

  void scan(long time) {
    now = time;
    int network = 0;
    int budget = 10_000;
    while (network < networks.size() && budget-- > 0) {
      int next = network + 1;
      for (Part part : networks.get(network)) {
        if (part.kind().equals("return") && value(part.pin()) != 0) {
          return;
        }
        if (part.kind().equals("jump") && value(part.pin()) != 0) {
          next = labels.get(part.name());
          break;
        }
        evaluate(part);
      }
      network = next;
    }
  }

  private long value(Pin pin) {
    long value = 0;
    for (From from : pin.from()) {
      long each = from.expression().isPresent() ? read(from.expression().get())
          : from.element() == 0 ? 1 : wire(from.element(), from.output());
      value = pin.from().size() == 1 ? each : value | each;
    }
    return pin.negated() ? 1 - value : value;
  }

  private long read(String expression) {
    Long variable = variables.get(expression);
    return variable != null ? variable : literals.computeIfAbsent(expression, text -> text.startsWith("T#")
        ? Long.parseLong(text.substring(2).replace("ms", "")) * 1_000_000 : Long.parseLong(text));
  }

  private void put(Part part, String output, long value) {
    wires.computeIfAbsent(part.id(), unused -> new HashMap<>()).put(output, value);
  }

  private long wire(int element, String output) {
    return wires.getOrDefault(element, Map.of()).getOrDefault(output, 0L);
  }

  private long edge(int id, char mark, long value) {
    long was = before.getOrDefault(id, 0L);
    if (mark == '^' || mark == '_') {
      before.put(id, value);
    }
    return mark == '^' ? value & (1 - was) : mark == '_' ? (1 - value) & was : mark == '/' ? 1 - value : value;
  }

  private void evaluate(Part part) {
    switch (part.kind()) {
      case "contact" -> put(part, "", value(part.pin()) & edge(part.id(), part.mark(), variables.get(part.name())));
      case "coil" -> {
        long power = value(part.pin());
        put(part, "", power);
        long given = edge(part.id(), part.mark(), power);
        if (part.mark() == 'S' || part.mark() == 'R') {
          if (power != 0) {
            variables.put(part.name(), part.mark() == 'S' ? 1L : 0L);
          }
        } else {
          variables.put(part.name(), given);
        }
      }
      case "out" -> {
        From from = part.pin().from().get(0);
        if (!"stands".equals(stands(from))) {
          variables.put(part.name(), value(part.pin()));
        }
      }
      case "block" -> block(part);
      default -> { }
    }
  }

  /** Whether what an output is connected to alone did not run, for want of EN. */
  private String stands(From from) {
    Part source = byId.get(from.element());
    boolean enabled = source == null || !source.kind().equals("block") || from.output().equals("ENO")
        || source.pins().stream().noneMatch(pin -> pin.name().equals("EN"))
        || wire(source.id(), "EN") != 0;
    return enabled ? "runs" : "stands";
  }

  private void block(Part part) {
    Map<String, Long> in = new HashMap<>();
    part.pins().forEach(pin -> in.put(pin.name(), value(pin)));
    boolean enabled = in.getOrDefault("EN", 1L) != 0;
    put(part, "ENO", enabled ? 1 : 0);
    put(part, "EN", enabled ? 1 : 0);
    if (!part.instance().isEmpty()) {
      if (enabled) {
        instance(part, in, instances.computeIfAbsent(part.instance(), unused -> new long[4]));
      }
    } else {
      put(part, "OUT", enabled ? function(part.name(), in) : 0);
    }
  }

  private static long function(String name, Map<String, Long> in) {
    long a = in.getOrDefault("IN1", 0L);
    long b = in.getOrDefault("IN2", 0L);
    return switch (name) {
      case "AND" -> a & b;
      case "OR" -> a | b;
      case "XOR" -> a ^ b;
      case "NOT" -> 1 - in.get("IN");
      case "MOVE" -> in.get("IN");
      case "ADD" -> (short) (a + b);
      case "SUB" -> (short) (a - b);
      case "MUL" -> (short) (a * b);
      case "GT" -> a > b ? 1 : 0;
      case "EQ" -> a == b ? 1 : 0;
      case "SEL" -> in.get("G") != 0 ? in.get("IN1") : in.get("IN0");
      default -> throw new IllegalArgumentException(name);
    };
  }

  private void instance(Part part, Map<String, Long> in, long[] memory) {
    switch (part.name()) {
      case "SR" -> {
        memory[0] = in.get("S1") | memory[0] & (1 - in.get("R"));
        put(part, "Q1", memory[0]);
      }
      case "RS" -> {
        memory[0] = (1 - in.get("R1")) & (in.get("S") | memory[0]);
        put(part, "Q1", memory[0]);
      }
      case "R_TRIG" -> {
        put(part, "Q", in.get("CLK") & (1 - memory[0]));
        memory[0] = in.get("CLK");
      }
      case "F_TRIG" -> {
        put(part, "Q", (1 - in.get("CLK")) & (1 - memory[0]));
        memory[0] = 1 - in.get("CLK");
      }
      case "CTU" -> {
        memory[1] = in.get("R") != 0 ? 0 : memory[1] + (in.get("CU") & (1 - memory[0]));
        memory[0] = in.get("CU");
        put(part, "CV", memory[1]);
        put(part, "Q", memory[1] >= in.get("PV") ? 1 : 0);
      }
      default -> timer(part, in.get("IN") != 0, in.get("PT"), memory);
    }
  }

  /** Memory: IN of the last call, the start, and whether it runs. */
  private void timer(Part part, boolean in, long preset, long[] memory) {
    boolean was = memory[0] != 0;
    memory[0] = in ? 1 : 0;
    switch (part.name()) {
      case "TON" -> {
        memory[1] = in && !was ? now : memory[1];
        put(part, "Q", in && now - memory[1] >= preset ? 1 : 0);
      }
      case "TOF" -> {
        if (!in && was) {
          memory[1] = now;
          memory[2] = 1;
        }
        put(part, "Q", in || memory[2] != 0 && now - memory[1] < preset ? 1 : 0);
      }
      case "TP" -> {
        if (memory[2] != 0) {
          memory[2] = now - memory[1] < preset ? 1 : 0;
        } else if (in && !was) {
          memory[1] = now;
          memory[2] = 1;
        }
        put(part, "Q", memory[2]);
      }
      default -> throw new IllegalArgumentException(part.name());
    }
  }
}
