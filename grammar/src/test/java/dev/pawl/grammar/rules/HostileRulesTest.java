package dev.pawl.grammar.rules;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.source.Source;
import java.util.List;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.IntFunction;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Rule files that are made to exhaust the stack, the memory or the patience of the compiler: each gets an error that
 * says so.
 */
class HostileRulesTest {

  private static final String HEAD = "input a : bool\nrule R-1 \"t\" basis practice always ";
  private static final int MANY = 100_000;

  static Stream<Arguments> tooDeep() {
    return Stream.of(
        Arguments.of(HEAD + "(".repeat(MANY) + "a" + ")".repeat(MANY), "this is nested more than 100 deep"),
        Arguments.of(HEAD + "not ".repeat(MANY) + "a", "this is nested more than 100 deep"),
        Arguments.of(HEAD + "- ".repeat(MANY) + "1 > 0", "this is nested more than 100 deep"),
        Arguments.of(HEAD + "rises(".repeat(MANY) + "a", "this is nested more than 100 deep"),
        Arguments.of(HEAD + "a and ".repeat(MANY) + "a", "this declaration has more than 250 operators"),
        Arguments.of(HEAD + "a implies ".repeat(MANY) + "a", "this declaration has more than 250 operators"),
        Arguments.of(HEAD + "count(a) since ".repeat(MANY) + "a > 3", "this declaration has more than 250 operators"),
        Arguments.of(HEAD + "time since ".repeat(MANY) + "a > 3 s", "this declaration has more than 250 operators"),
        Arguments.of(HEAD + "3 m" + "/m".repeat(MANY) + " > 0", "this unit joins more than 8 symbols"),
        Arguments.of("input a : m" + "/s".repeat(MANY), "this unit joins more than 8 symbols"),
        Arguments.of("x".repeat(10_000_000),
            "the file has 10,000,000 characters; a rule file may have at most 2,000,000"),
        Arguments.of("? ".repeat(900_000), "`?` is not part of the language"),
        Arguments.of("rule ?\n".repeat(200_000), "too many errors; the rest of this file was not read"),
        Arguments.of("\u0000".repeat(1_000_000), "is not part of the language"),
        Arguments.of(chain("not d", MANY, true), "definitions are nested more than 100 deep here"),
        Arguments.of(chain("not d", MANY, false), "this grows to more than 20000 operations"),
        Arguments.of(chain("d and d", 60, "d", false), "this grows to more than 20000 operations"),
        Arguments.of("input m : one of (" + listed(i -> "x" + i) + ")", "an enumeration may have at most 1000 members"),
        Arguments.of("input a : bool\nfor each signal s in (" + listed(i -> "a")
            + ") rule R-{s} \"t\" basis practice always s", "these are more than 10000 cases"),
        Arguments.of(unknownNames(), "there are more than 500 problems; only these are shown"));
  }

  private static String listed(IntFunction<String> item) {
    return IntStream.range(0, MANY).mapToObj(item).collect(Collectors.joining(", "));
  }

  private static String unknownNames() {
    return IntStream.range(0, 30_000).mapToObj(i -> "input signal_" + i + " : bool\ndefine d_" + i + " = signl_" + i)
        .collect(Collectors.joining("\n"));
  }

  private static String chain(String step, int length, boolean backwards) {
    return chain(step, length, "d", backwards);
  }

  /** Definitions d1, d2, ... of which each uses the one before, in either order. */
  private static String chain(String step, int length, String placeholder, boolean backwards) {
    String definitions = IntStream.range(1, Math.min(length, 20_000))
        .map(i -> backwards ? Math.min(length, 20_000) - i : i)
        .mapToObj(i -> "define d" + i + " = " + step.replaceAll("\\b" + placeholder + "\\b", "d" + (i - 1)))
        .collect(Collectors.joining("\n"));
    return "input d0 : bool\n" + definitions + "\n";
  }

  @ParameterizedTest
  @MethodSource("tooDeep")
  void endsInAClearError(String text, String message) {
    Compilation compilation = onSmallStack(() -> compile(text));

    assertThat(compilation.book()).isEmpty();
    assertThat(compilation.diagnostics()).anySatisfy(diagnostic -> assertThat(diagnostic.message()).contains(message));
    assertThat(compilation.diagnostics().size()).isLessThanOrEqualTo(501);
  }

  @Test
  void takesWhatIsLargeButWithinTheLimits() {
    String deep = "(".repeat(99) + "a" + ")".repeat(99);
    String wide = "a and ".repeat(249) + "a";
    Compilation compilation = onSmallStack(() -> compile(HEAD + deep + "\nrule R-2 \"t\" basis practice always "
        + wide));

    assertThat(compilation.rendered()).isEmpty();
  }

  private static Compilation compile(String text) {
    return RuleLanguage.compile(List.of(new Source("a.rules", text)), SourceLoader.none());
  }

  /** Runs with half the stack that a main thread has by default. */
  private static <T> T onSmallStack(Supplier<T> work) {
    AtomicReference<T> result = new AtomicReference<>();
    AtomicReference<Throwable> failure = new AtomicReference<>();
    Thread thread = new Thread(null, () -> result.set(work.get()), "small stack", 512 * 1024);
    thread.setUncaughtExceptionHandler((t, problem) -> failure.set(problem));
    thread.start();
    try {
      thread.join();
    } catch (InterruptedException problem) {
      throw new IllegalStateException(problem);
    }
    assertThat(failure.get()).isNull();
    return result.get();
  }
}
