package dev.pawl.logic.drawn;

import dev.pawl.logic.drawn.Sketch.From;
import dev.pawl.logic.drawn.Sketch.Part;
import dev.pawl.logic.drawn.Sketch.Pin;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;

/**
 * Diagrams drawn at random: contacts, coils, functions, instances, loops, jumps, at places that say little of their
 * order.
 */
final class RandomNetworks {

  static final List<String> TRUTHS = List.of("a0", "a1", "a2", "m0", "m1", "m2");

  static final List<String> NUMBERS = List.of("i0", "i1", "n0", "n1");

  private static final List<String> WRITTEN = List.of("m0", "m1", "m2");

  private final Random random;
  private final Sketch sketch = Sketch.of(List.of());
  private final List<From> truths = new ArrayList<>();
  private final List<From> numbers = new ArrayList<>();
  private final StringBuilder instances = new StringBuilder();
  private int next = 1;
  private int network;

  RandomNetworks(long seed) {
    this.random = new Random(seed);
    int networks = 1 + random.nextInt(5);
    for (network = 0; network < networks; network++) {
      draw();
    }
  }

  Sketch sketch() {
    return sketch;
  }

  /** Declarations of all variables and instances. */
  String variables() {
    return String.join(" ", TRUTHS) + " : BOOL; " + String.join(" ", NUMBERS) + " : INT; " + instances;
  }

  private void draw() {
    truths.clear();
    numbers.clear();
    int first = sketch.parts().size();
    int elements = 3 + random.nextInt(12);
    for (int i = 0; i < elements; i++) {
      element();
    }
    for (int loops = random.nextInt(3); loops > 0 && !truths.isEmpty(); loops--) {
      leadBack(first + random.nextInt(elements));
    }
    if (random.nextInt(4) == 0) {
      double top = 1000 * network + (random.nextBoolean() ? 0 : -1);
      sketch.add(new Part(next++, "label", "L" + network, "", ' ', List.of(), 0, top, Optional.empty()));
    }
    if (random.nextInt(5) == 0) {
      sketch.add(new Part(next++, "label", "Z" + network, "", ' ', List.of(), 0, 1000 * network + 900,
          Optional.empty()));
      add("jump", "Z" + network, "", ' ', new Pin("", false, List.of(truth())));
    }
    if (random.nextInt(12) == 0) {
      add("return", "", "", ' ', new Pin("", false, List.of(truth())));
    }
  }

  private int add(String kind, String name, String instance, char mark, Pin... pins) {
    sketch.add(new Part(next, kind, name, instance, mark, List.of(pins), 10 * random.nextInt(12),
        1000 * network + 10 * random.nextInt(12), Optional.empty()));
    return next++;
  }

  private <T> T one(List<T> of) {
    return of.get(random.nextInt(of.size()));
  }

  private From from(int element, String output) {
    return new From(element, output, Optional.empty());
  }

  private From truth() {
    return truths.isEmpty() || random.nextInt(5) == 0 ? random.nextInt(3) == 0 ? from(0, "")
        : new From(-1, "", Optional.of(one(TRUTHS))) : one(truths);
  }

  private From number() {
    return numbers.isEmpty() || random.nextInt(3) == 0 ? new From(-1, "", Optional.of(random.nextInt(4) == 0
        ? Integer.toString(random.nextInt(20)) : one(NUMBERS))) : one(numbers);
  }

  /** A number whose type is known, for what could be made of literals only. */
  private From typed() {
    return new From(-1, "", Optional.of(one(NUMBERS)));
  }

  private Pin bool(String name) {
    List<From> all = new ArrayList<>(List.of(truth()));
    return new Pin(name, random.nextInt(5) == 0, all);
  }

  private Pin rung() {
    List<From> all = new ArrayList<>(List.of(truth()));
    while (random.nextInt(4) == 0) {
      all.add(truth());
    }
    return new Pin("", false, all);
  }

  private void element() {
    switch (random.nextInt(10)) {
      case 0, 1, 2 -> truths.add(from(add("contact", one(TRUTHS), "", " /^_".charAt(random.nextInt(4)), rung()), ""));
      case 3, 4 -> truths.add(from(add("coil", one(WRITTEN), "", " /^_SR".charAt(random.nextInt(6)), rung()), ""));
      case 5 -> gate();
      case 6 -> truths.add(from(add("block", random.nextBoolean() ? "GT" : "EQ", "", ' ', new Pin("IN1", false,
          List.of(typed())), new Pin("IN2", false, List.of(number()))), "OUT"));
      case 7 -> arithmetic();
      case 8 -> instance();
      default -> add("out", numbers.isEmpty() ? "m0" : one(List.of("n0", "n1")), "", ' ', new Pin("", false,
          List.of(numbers.isEmpty() ? truth() : one(numbers))));
    }
  }

  /** Lets a gate take from any element of its network, also from one that takes from it. */
  private void leadBack(int index) {
    Part part = sketch.parts().get(index);
    if (part.kind().equals("block") && part.pins().get(0).name().equals("IN1")
        && List.of("AND", "OR", "XOR").contains(part.name())) {
      sketch.parts().set(index, new Part(part.id(), part.kind(), part.name(), part.instance(), part.mark(),
          List.of(new Pin("IN1", false, List.of(one(truths))), new Pin("IN2", random.nextBoolean(),
          List.of(new From(-1, "", Optional.of(one(TRUTHS)))))), part.x(), part.y(), part.order()));
    }
  }

  /** Now and then one of its inputs comes from itself. */
  private void gate() {
    String name = one(List.of("AND", "OR", "XOR", "NOT"));
    int id = next;
    if (name.equals("NOT")) {
      add("block", name, "", ' ', bool("IN"));
    } else {
      Pin second = random.nextInt(3) == 0 ? new Pin("IN2", false, List.of(from(id, "OUT"))) : bool("IN2");
      add("block", name, "", ' ', bool("IN1"), second);
    }
    truths.add(from(id, "OUT"));
  }

  private void arithmetic() {
    List<Pin> pins = new ArrayList<>();
    boolean guarded = random.nextBoolean();
    if (guarded) {
      pins.add(bool("EN"));
    }
    String name = one(List.of("ADD", "SUB", "MUL", "MOVE", "SEL"));
    switch (name) {
      case "MOVE" -> pins.add(new Pin("IN", false, List.of(typed())));
      case "SEL" -> pins.addAll(List.of(bool("G"), new Pin("IN0", false, List.of(typed())), new Pin("IN1", false,
          List.of(number()))));
      default -> pins.addAll(List.of(new Pin("IN1", false, List.of(typed())), new Pin("IN2", false,
          List.of(number()))));
    }
    int id = add("block", name, "", ' ', pins.toArray(Pin[]::new));
    numbers.add(from(id, "OUT"));
    if (guarded) {
      truths.add(from(id, "ENO"));
    }
  }

  private void instance() {
    String type = one(List.of("SR", "RS", "R_TRIG", "F_TRIG", "CTU", "TON", "TOF", "TP"));
    String name = "x" + next;
    List<Pin> pins = new ArrayList<>();
    boolean guarded = random.nextInt(3) == 0;
    if (guarded) {
      pins.add(bool("EN"));
    }
    int own = next;
    switch (type) {
      case "SR" -> pins.addAll(List.of(bool("S1"), bool("R")));
      case "RS" -> pins.addAll(List.of(bool("S"), random.nextInt(3) == 0 ? new Pin("R1", false,
          List.of(from(own, "Q1"))) : bool("R1")));
      case "CTU" -> pins.addAll(List.of(bool("CU"), bool("R"), new Pin("PV", false, List.of(number()))));
      case "R_TRIG", "F_TRIG" -> pins.add(bool("CLK"));
      default -> pins.addAll(List.of(bool("IN"), new Pin("PT", false, List.of(new From(-1, "", Optional.of("T#"
          + 10 * (1 + random.nextInt(5)) + "ms"))))));
    }
    instances.append(name).append(" : ").append(type).append("; ");
    int id = add("block", type, name, ' ', pins.toArray(Pin[]::new));
    truths.add(from(id, type.endsWith("S") || type.equals("SR") ? "Q1" : "Q"));
    if (type.equals("CTU")) {
      numbers.add(from(id, "CV"));
    }
    if (guarded) {
      truths.add(from(id, "ENO"));
    }
  }
}
