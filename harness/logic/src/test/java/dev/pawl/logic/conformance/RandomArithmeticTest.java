package dev.pawl.logic.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.logic.LogicError;
import dev.pawl.logic.LogicOptions;
import dev.pawl.logic.ScanMachine;
import dev.pawl.logic.TestMachine;
import dev.pawl.logic.code.CodeOptions;
import dev.pawl.logic.code.CodeOptions.Overflow;
import dev.pawl.logic.runtime.BlockOptions;
import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.function.Function;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Random integer expressions against an evaluation in {@link BigInteger} written from the definitions: exact result,
 * then modulo two to the width of the type, or an error. It shares nothing with the compiler but the text of the
 * expression.
 */
class RandomArithmeticTest {

  private static final LogicOptions TRAP = new LogicOptions(
      CodeOptions.DEFAULT.with(Overflow.TRAP), BlockOptions.DEFAULT, 1000);

  /** An integer type by its width. */
  enum Type {
    SINT(8, true), USINT(8, false), INT(16, true), UINT(16, false), DINT(32, true), UDINT(32, false), LINT(64, true),
        ULINT(64, false);

    final int bits;
    final boolean signed;

    Type(int bits, boolean signed) {
      this.bits = bits;
      this.signed = signed;
    }

    BigInteger least() {
      return signed ? BigInteger.ONE.shiftLeft(bits - 1).negate() : BigInteger.ZERO;
    }

    boolean holds(BigInteger value) {
      return value.compareTo(least()) >= 0 && value.compareTo(least().add(BigInteger.ONE.shiftLeft(bits))) < 0;
    }

    BigInteger wrapped(BigInteger value) {
      return value.subtract(least()).mod(BigInteger.ONE.shiftLeft(bits)).add(least());
    }
  }

  private static final class Fault extends RuntimeException {
    private static final long serialVersionUID = 1L;

    Fault(String message) {
      super(message);
    }
  }

  /** An expression: its text and how to evaluate it. */
  private interface Node {
    BigInteger value(boolean trap);
  }

  private static final class Generator {

    private final SplittableRandom random;
    private final Type type;
    final List<BigInteger> variables = new ArrayList<>();

    Generator(long seed, Type type) {
      this.random = new SplittableRandom(seed);
      this.type = type;
      for (int i = 0; i < 6; i++) {
        variables.add(number());
      }
    }

    private BigInteger number() {
      BigInteger any = type.wrapped(BigInteger.valueOf(random.nextLong()));
      return switch (random.nextInt(4)) {
        case 0 -> type.wrapped(BigInteger.valueOf(random.nextInt(7) - 3));
        case 1 -> type.least();
        case 2 -> type.wrapped(type.least().subtract(BigInteger.ONE));
        default -> any;
      };
    }

    Node node(int depth) {
      if (depth == 0 || random.nextInt(5) == 0) {
        int index = random.nextInt(variables.size());
        return node("v" + index, trap -> variables.get(index));
      }
      if (type.signed && random.nextInt(6) == 0) {
        Node operand = node(depth - 1);
        return node("(-" + operand + ")", trap -> ranged(operand.value(trap).negate(), trap));
      }
      Node left = node(depth - 1);
      Node right = node(depth - 1);
      String operator = List.of("+", "-", "*", "/", "MOD").get(random.nextInt(5));
      return node("(" + left + " " + operator + " " + right + ")", trap -> {
        BigInteger first = left.value(trap);
        BigInteger second = right.value(trap);
        if (operator.equals("/") || operator.equals("MOD")) {
          if (second.signum() == 0) {
            throw new Fault("division by zero");
          }
          return ranged(operator.equals("/") ? first.divide(second) : first.remainder(second), trap);
        }
        return ranged(operator.equals("+") ? first.add(second) : operator.equals("-") ? first.subtract(second)
            : first.multiply(second), trap);
      });
    }

    private BigInteger ranged(BigInteger exact, boolean trap) {
      if (trap && !type.holds(exact)) {
        throw new Fault("overflow");
      }
      return type.wrapped(exact);
    }

    private static Node node(String text, Function<Boolean, BigInteger> value) {
      return new Node() {
        @Override
        public BigInteger value(boolean trap) {
          return value.apply(trap);
        }

        @Override
        public String toString() {
          return text;
        }
      };
    }

    String declarations(int results) {
      StringBuilder text = new StringBuilder("PROGRAM P VAR ");
      for (int i = 0; i < variables.size(); i++) {
        text.append("v").append(i).append(" : ").append(type).append(" := ").append(variables.get(i)).append("; ");
      }
      for (int i = 0; i < results; i++) {
        text.append("r").append(i).append(" : ").append(type).append("; ");
      }
      return text.append("END_VAR\n").toString();
    }
  }

  private static BigInteger shown(ScanMachine machine, String name, Type type) {
    return type.wrapped(BigInteger.valueOf(machine.word(name)));
  }

  @ParameterizedTest
  @EnumSource(Type.class)
  void wrapped(Type type) {
    wrapped(type, 1, 25);
  }

  @ParameterizedTest
  @EnumSource(Type.class)
  @Tag("soak")
  void manyWrapped(Type type) {
    wrapped(type, 10_000, 5_000);
  }

  private static void wrapped(Type type, long firstSeed, int programs) {
    for (long seed = firstSeed; seed < firstSeed + programs; seed++) {
      Generator generator = new Generator(seed, type);
      List<Node> nodes = new ArrayList<>();
      while (nodes.size() < 40) {
        Node node = generator.node(5);
        if (value(node, false).isPresent()) {
          nodes.add(node);
        }
      }
      StringBuilder text = new StringBuilder(generator.declarations(nodes.size()));
      for (int i = 0; i < nodes.size(); i++) {
        text.append("r").append(i).append(" := ").append(nodes.get(i)).append(";\n");
      }
      ScanMachine machine = TestMachine.of(text + "END_PROGRAM");
      assertThat(machine.scan(0)).as("seed %d", seed).isEmpty();
      for (int i = 0; i < nodes.size(); i++) {
        assertThat(shown(machine, "r" + i, type)).as("seed %d: %s with %s", seed, nodes.get(i), generator.variables)
            .isEqualTo(nodes.get(i).value(false));
      }
    }
  }

  private static Optional<BigInteger> value(Node node, boolean trap) {
    try {
      return Optional.of(node.value(trap));
    } catch (Fault fault) {
      return Optional.empty();
    }
  }

  @ParameterizedTest
  @EnumSource(Type.class)
  void trapped(Type type) {
    int faults = 0;
    for (long seed = 500; seed < 560; seed++) {
      Generator generator = new Generator(seed, type);
      Node node = generator.node(4);
      ScanMachine machine = TestMachine.of(generator.declarations(1) + "r0 := " + node + ";\nEND_PROGRAM", TRAP);
      Optional<LogicError> error = machine.scan(0);
      String expected;
      try {
        expected = node.value(true).toString();
      } catch (Fault fault) {
        expected = fault.getMessage();
        faults++;
      }
      String seen = error.map(found -> found.message().startsWith("overflow") ? "overflow" : found.message())
          .orElseGet(() -> shown(machine, "r0", type).toString());
      assertThat(seen).as("seed %d: %s with %s", seed, node, generator.variables).isEqualTo(expected);
    }
    assertThat(faults).isBetween(5, 55);
  }

  /** The reference evaluation itself, on cases worked out by hand. */
  @Test
  void theReferenceIsRight() {
    assertThat(Type.SINT.wrapped(BigInteger.valueOf(200))).isEqualTo(BigInteger.valueOf(-56));
    assertThat(Type.USINT.wrapped(BigInteger.valueOf(-1))).isEqualTo(BigInteger.valueOf(255));
    assertThat(Type.ULINT.wrapped(BigInteger.valueOf(-1))).isEqualTo(new BigInteger("18446744073709551615"));
    assertThat(Type.SINT.holds(BigInteger.valueOf(128))).isFalse();
    assertThat(Type.SINT.holds(BigInteger.valueOf(-128))).isTrue();
  }
}
