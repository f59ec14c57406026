package dev.pawl.grammar.logic;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/**
 * The table of wrong programs, each with the exact messages it gets: {@code errors.txt} beside this class. A case is a
 * title after {@code ====}, the program, and after {@code ----} its messages; on a difference the test shows the case
 * as it should stand there.
 */
class ErrorTableTest {

  private record Case(String title, String program, String messages) {}

  @TestFactory
  Stream<DynamicTest> eachWrongProgramGetsItsMessages() throws IOException {
    return cases().stream().map(each -> DynamicTest.dynamicTest(each.title(), () -> {
      String seen = Messages.of(each.program());
      String asItShouldStand = "==== " + each.title() + "\n" + each.program() + "----\n" + seen;
      assertThat(seen).as("the case would read\n" + asItShouldStand).isEqualTo(each.messages());
      assertThat(Messages.compile(each.program()).program()).isEmpty();
    }));
  }

  @Test
  void theTableIsLong() throws IOException {
    assertThat(cases()).hasSizeGreaterThanOrEqualTo(60);
    assertThat(cases().stream().map(Case::title)).doesNotHaveDuplicates();
  }

  private static List<Case> cases() throws IOException {
    try (InputStream in = ErrorTableTest.class.getResourceAsStream("errors.txt")) {
      String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      List<Case> cases = new ArrayList<>();
      for (String block : text.split("(?m)^==== ")) {
        if (!block.isBlank()) {
          int titleEnd = block.indexOf('\n');
          int split = block.indexOf("\n----\n");
          cases.add(new Case(block.substring(0, titleEnd), block.substring(titleEnd + 1, split + 1),
              block.substring(split + 6)));
        }
      }
      return cases;
    }
  }
}
