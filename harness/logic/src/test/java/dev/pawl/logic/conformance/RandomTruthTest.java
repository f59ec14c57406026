package dev.pawl.logic.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.logic.LogicError;
import dev.pawl.logic.ScanMachine;
import dev.pawl.logic.TestMachine;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.Test;

/**
 * Random truths against a naive evaluation: AND, OR and XOR look at both sides, AND_THEN and OR_ELSE at the right one
 * only where the left leaves the result open. Some leaves fail, by which it shows what was looked at. It shares nothing
 * with the compiler but the text.
 */
class RandomTruthTest {

  private static final int PROGRAMS = 600;

  /** A naive failure: a leaf that divides by zero was looked at. */
  private static final class Failed extends RuntimeException {
    private static final long serialVersionUID = 1L;
  }

  private record Node(String text, BooleanSupplier value) {}

  private static Node node(SplittableRandom random, boolean[] values, int depth) {
    if (depth == 0 || random.nextInt(6) == 0) {
      int index = random.nextInt(values.length + 1);
      return index == values.length ? new Node("(1 / zero > 0)", () -> {
        throw new Failed();
      }) : new Node("v" + index, () -> values[index]);
    }
    Node left = node(random, values, depth - 1);
    if (random.nextInt(6) == 0) {
      return new Node("NOT " + left.text(), () -> !left.value().getAsBoolean());
    }
    Node right = node(random, values, depth - 1);
    String operator = List.of("AND", "OR", "XOR", "AND_THEN", "OR_ELSE").get(random.nextInt(5));
    return new Node("(" + left.text() + " " + operator + " " + right.text() + ")", () -> {
      boolean first = left.value().getAsBoolean();
      if (operator.equals("AND_THEN") && !first || operator.equals("OR_ELSE") && first) {
        return first;
      }
      boolean second = right.value().getAsBoolean();
      return switch (operator) {
        case "AND", "AND_THEN" -> first && second;
        case "XOR" -> first != second;
        default -> first || second;
      };
    });
  }

  @Test
  void agreeWithTheNaiveEvaluation() {
    int failures = 0;
    for (int seed = 0; seed < PROGRAMS; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      boolean[] values = {random.nextBoolean(), random.nextBoolean(), random.nextBoolean(), random.nextBoolean()};
      Node node = node(random, values, 4);
      ScanMachine machine = TestMachine.of("PROGRAM P VAR zero, way : INT; r : BOOL; v0 : BOOL := " + values[0]
          + "; v1 : BOOL := " + values[1] + "; v2 : BOOL := " + values[2] + "; v3 : BOOL := " + values[3]
          + "; END_VAR\nr := " + node.text() + "; IF " + node.text() + " THEN way := 1; END_IF; END_PROGRAM");
      Optional<LogicError> error = machine.scan(0);
      try {
        boolean expected = node.value().getAsBoolean();
        assertThat(error).as("seed %d: %s", seed, node.text()).isEmpty();
        assertThat(machine.truth("r")).as("seed %d: %s", seed, node.text()).isEqualTo(expected);
        assertThat(machine.word("way")).as("seed %d: %s", seed, node.text()).isEqualTo(expected ? 1 : 0);
      } catch (Failed failed) {
        failures++;
        assertThat(error).as("seed %d: %s", seed, node.text()).isPresent();
      }
    }
    assertThat(failures).isBetween(PROGRAMS / 10, PROGRAMS * 9 / 10);
  }
}
