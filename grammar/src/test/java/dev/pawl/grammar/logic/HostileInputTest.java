package dev.pawl.grammar.logic;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Input that is deep, long or huge ends in a clear error, on a stack of 512 KiB, half of what a thread usually gets.
 */
class HostileInputTest {

  private static String onSmallStack(String text) {
    AtomicReference<String> messages = new AtomicReference<>();
    AtomicReference<Throwable> failure = new AtomicReference<>();
    Thread thread = new Thread(null, () -> messages.set(Messages.of(text)), "small stack", 512 * 1024);
    thread.setUncaughtExceptionHandler((unused, thrown) -> failure.set(thrown));
    thread.start();
    try {
      thread.join();
    } catch (InterruptedException interrupted) {
      throw new AssertionError(interrupted);
    }
    assertThat(failure.get()).isNull();
    return messages.get();
  }

  private static String program(String statements) {
    return "PROGRAM P\nVAR i : INT; a : BOOL; END_VAR\n" + statements + "\nEND_PROGRAM\n";
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', quoteCharacter = '`', value = {
      "i := |(|1|)|;|brackets nest more than 100 levels deep here",
      "a := |NOT~|a||;|signs nest more than 100 levels deep here",
      "i := |-|i||;|signs nest more than 100 levels deep here",
      "|IF~a~THEN~|i := 1;|END_IF;||statements nest more than 100 levels deep here",
      "|REPEAT~|i := 1;|~UNTIL~a~END_REPEAT;||statements nest more than 100 levels deep here",
      "i := |i + |1||;|the expression has more than 400 operators",
      "i := |ABS(|1|)|;|brackets nest more than 100 levels deep here"
  })
  void tooDeep(String before, String open, String middle, String close, String after, String message) {
    String text = program(text(before) + text(open).repeat(20_000) + text(middle) + text(close).repeat(20_000)
        + text(after));
    assertThat(onSmallStack(text)).contains(message).hasLineCount(1);
  }

  private static String text(String cell) {
    return cell == null ? "" : cell.replace('~', ' ');
  }

  @ParameterizedTest
  @CsvSource(delimiter = '|', quoteCharacter = '`', value = {
      "i := |(|1|)|;|99", "a := |NOT~|a||;|99", "i := |i + |1||;|399", "|IF~a~THEN~|i := 1;|END_IF;||99",
          "i := |ABS(|1|)|;|99",
      "|WHILE~a~DO~|i := 1;|END_WHILE;||99", "i := |list[|1|]|;|99"
  })
  void whatIsAllowedFitsTheStack(String before, String open, String middle, String close, String after, int times) {
    String text = program(text(before) + text(open).repeat(times) + text(middle) + text(close).repeat(times)
        + text(after))
        .replace("a : BOOL;", "a : BOOL; list : ARRAY[1..2] OF INT;");
    assertThat(onSmallStack(text)).isEmpty();
  }

  @Test
  void deepTypesAndMembers() {
    assertThat(onSmallStack("TYPE T : " + "ARRAY[1..2] OF ".repeat(50_000) + "INT; END_TYPE\nPROGRAM P\nEND_PROGRAM\n"))
        .contains("the expression has more than 400 operators");
    assertThat(onSmallStack(program("i := i" + ".x".repeat(50_000) + ";")))
        .contains("the expression has more than 400 operators");
    assertThat(onSmallStack(program("i := i" + "[1]".repeat(50_000) + ";")))
        .contains("the expression has more than 400 operators");
    assertThat(onSmallStack(program("i := i" + "(1)".repeat(50_000) + ";")))
        .contains("the expression has more than 400 operators");
  }

  @Test
  void arraysOfArraysEndAtTheMemory() {
    assertThat(onSmallStack("PROGRAM P\nVAR t : " + "ARRAY[1..2] OF ".repeat(100) + "INT; END_VAR\nEND_PROGRAM\n"))
        .contains("the array is too large");
  }

  /** Each fits by itself; two hundred of them would take the memory of a machine before their variables are refused. */
  @Test
  void manyLargeTypesEndBeforeTheyAreMade() {
    StringBuilder text = new StringBuilder("TYPE\n");
    for (int i = 0; i < 200; i++) {
      text.append("A").append(i).append(" : ARRAY[1..4000000] OF INT;\nS").append(i)
          .append(" : STRUCT a : A0; END_STRUCT;\n");
    }
    assertThat(onSmallStack(text + "END_TYPE\nPROGRAM P\nEND_PROGRAM\n"))
        .contains("the arrays and structures have more than 16777216 elementary values in all").hasLineCount(1);
  }

  @Test
  void aLongChainOfBlocksIsNoRecursion() {
    StringBuilder text = new StringBuilder("FUNCTION F0 : INT\nVAR_INPUT v : INT; END_VAR\nF0 := v;\nEND_FUNCTION\n");
    for (int i = 1; i <= 300; i++) {
      text.append("FUNCTION F").append(i).append(" : INT\nVAR_INPUT v : INT; END_VAR\nF").append(i).append(" := F")
          .append(i - 1)
          .append("(v);\nEND_FUNCTION\n");
    }
    text.append(program("i := F300(1);"));
    assertThat(onSmallStack(text.toString())).contains("calls nest more than 200 units deep").hasLineCount(1);
  }

  @Test
  void aNameWithoutEnd() {
    assertThat(onSmallStack(program("x".repeat(100_000) + " := 1;")))
        .isEqualTo("3:1 the name that starts here has more than 128 characters\n");
  }

  @Test
  void nestedAndUnclosedComments() {
    assertThat(onSmallStack("(*".repeat(300_000))).contains("the comment that starts here is not closed")
        .hasLineCount(1);
    assertThat(onSmallStack("(*".repeat(100_000) + "*)".repeat(100_000) + program("i := 1;"))).isEmpty();
  }

  @Test
  void aSourceThatIsTooLong() {
    assertThat(onSmallStack(" ".repeat(10_000_000))).isEqualTo(
        "1:1 the source has 10000000 characters; at most 4000000 are read = split the program into several files\n");
  }

  @Test
  void manyErrorsAreCutShort() {
    String messages = onSmallStack(program(IntStream.range(1, 1000)
        .mapToObj(line -> "i := ABS(i, %d, TRUE);\ni := %d;\n".formatted(line, line * 100_000))
        .collect(Collectors.joining())));
    assertThat(messages).contains("there are more than 500 problems; only these are shown").hasLineCount(501);
  }

  @Test
  void theSameErrorManyTimesIsToldOnce() {
    String messages = onSmallStack(program("i := TRUE;\n".repeat(300)));
    assertThat(messages).contains("and at 299 more places, in lines 4, 5, 6, 7, 8 and 294 more").hasLineCount(1);
  }

  @Test
  void aLongLineOfErrors() {
    assertThat(Messages.rendered(program("i := 1 " + "@ ".repeat(100_000) + ";")).length()).isLessThan(10_000);
  }
}
