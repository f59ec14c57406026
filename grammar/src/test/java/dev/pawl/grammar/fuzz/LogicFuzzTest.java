package dev.pawl.grammar.fuzz;

import com.code_intelligence.jazzer.junit.FuzzTest;
import java.nio.charset.StandardCharsets;
import java.util.stream.Stream;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Any bytes at all as Structured Text. The time limit stands for "does not end". */
@Timeout(30)
class LogicFuzzTest {

  static Stream<Arguments> seeds() {
    return Seeds.arguments(Seeds.programs());
  }

  @MethodSource("seeds")
  @FuzzTest(maxDuration = "")
  void compiles(byte[] bytes) {
    Oracles.compileLogic(new String(bytes, StandardCharsets.UTF_8));
  }
}
