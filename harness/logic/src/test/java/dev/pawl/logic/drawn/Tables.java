package dev.pawl.logic.drawn;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.logic.ScanMachine;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Tables of what drawings give, in a file of the tests' resources. A case begins with {@code LD name} or {@code FBD
 * name}, then come {@code var} with declarations, the elements of a {@link Sketch}, {@code in … out …} with names,
 * and a row for each scan, {@code inputs | outputs}. What follows {@code --} is a remark.
 */
final class Tables {

  private static final long SCAN = 10_000_000L;

  private Tables() {}

  /** A drawing and what it gives. */
  record Case(String language, String name, String variables, List<String> elements, List<String> inputs,
      List<String> outputs, List<String> rows) {

    @Override
    public String toString() {
      return language + " " + name;
    }

    /** The rows as a machine gives them, a scan every 10 ms. */
    List<String> played(ScanMachine machine) {
      List<String> seen = new ArrayList<>();
      long now = 0;
      for (String row : rows) {
        String[] words = row.split("\\|", 2)[0].strip().split("\\s+");
        for (int i = 0; i < inputs.size(); i++) {
          machine.set(inputs.get(i), Long.parseLong(words[i]));
        }
        assertThat(machine.scan(now)).isEmpty();
        now += SCAN;
        seen.add((row.split("\\|")[0] + "|" + String.join(" ", outputs.stream()
            .map(output -> Long.toString(machine.word(output))).toList())).replaceAll("\\s*\\|\\s*", "|")
            .replaceAll("\\s+", " ").strip());
      }
      return seen;
    }

    /** The rows as they were worked out. */
    List<String> expected() {
      return rows.stream().map(row -> row.replaceAll("\\s*\\|\\s*", "|").replaceAll("\\s+", " ").strip()).toList();
    }

    /** How many networks it has: what is connected is one. */
    long networks() {
      Map<Integer, Integer> network = new HashMap<>();
      List<Sketch.Part> parts = Sketch.of(elements).parts().stream()
          .filter(part -> !part.kind().matches("label|continuation")).toList();
      parts.forEach(part -> network.put(part.id(), part.id()));
      for (Sketch.Part part : parts) {
        part.pins().stream().flatMap(pin -> pin.from().stream()).map(Sketch.From::element)
            .filter(network::containsKey).forEach(from -> {
              int old = network.get(from);
              network.replaceAll((id, number) -> number == old ? network.get(part.id()) : number);
            });
      }
      return network.values().stream().distinct().count();
    }
  }

  static List<Case> read(String file) {
    List<Case> cases = new ArrayList<>();
    String[] head = null;
    String variables = "";
    List<String> elements = new ArrayList<>();
    List<String> inputs = List.of();
    List<String> outputs = List.of();
    List<String> rows = new ArrayList<>();
    for (String raw : (text(file) + "\nEND end\n").split("\n")) {
      String line = raw.replaceFirst("--.*", "").strip();
      if (line.isEmpty()) {
        continue;
      }
      if (line.matches("(LD|FBD|SFC|END) .*")) {
        if (head != null) {
          cases.add(new Case(head[0], head[1], variables, List.copyOf(elements), inputs, outputs, List.copyOf(rows)));
        }
        head = line.split(" ", 2);
        variables = "";
        elements.clear();
        rows.clear();
      } else if (line.startsWith("var ")) {
        variables += line.substring(4) + ";";
      } else if (line.startsWith("in ") || line.startsWith("out ")) {
        String[] sides = line.split("\\bout\\b");
        inputs = words(sides[0].replaceFirst("^in", ""));
        outputs = words(sides[1]);
      } else if (line.contains("|") && line.matches("[-0-9| ]+")) {
        rows.add(line);
      } else {
        elements.add(line);
      }
    }
    return cases;
  }

  private static List<String> words(String text) {
    return text.isBlank() ? List.of() : List.of(text.strip().split("\\s+"));
  }

  private static String text(String file) {
    try (InputStream stream = Tables.class.getResourceAsStream(file)) {
      return new String(stream.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
