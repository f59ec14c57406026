package dev.pawl.grammar.fuzz;

import com.code_intelligence.jazzer.junit.FuzzTest;
import java.nio.charset.StandardCharsets;
import java.util.stream.Stream;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Any bytes at all as a rule file. The time limit stands for "does not end". */
@Timeout(30)
class RuleFuzzTest {

  static Stream<Arguments> seeds() {
    return Seeds.arguments(Seeds.rules());
  }

  @MethodSource("seeds")
  @FuzzTest(maxDuration = "")
  void compiles(byte[] bytes) {
    Oracles.compileRules(new String(bytes, StandardCharsets.UTF_8));
  }

  @MethodSource("seeds")
  @FuzzTest(maxDuration = "")
  void formats(byte[] bytes) {
    Oracles.formatRules(new String(bytes, StandardCharsets.UTF_8));
  }
}
