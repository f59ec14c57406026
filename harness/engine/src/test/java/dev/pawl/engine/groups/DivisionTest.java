package dev.pawl.engine.groups;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.plan.Selection;
import dev.pawl.grammar.rules.Compilation;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Zone;
import dev.pawl.grammar.source.Source;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Which rules of a book are evaluated together. */
class DivisionTest {

  private static RuleBook book(String text) {
    Compilation compilation = RuleLanguage.compile(List.of(new Source("division.rules", text)), SourceLoader.none());
    return compilation.book().orElseThrow(() -> new AssertionError(compilation.rendered()));
  }

  /** A group for each line: the rules, and the zones after a bar. */
  private static List<String> groups(RuleBook book) {
    return Division.of(book).stream().map(DivisionTest::text).toList();
  }

  private static String text(Selection group) {
    return group.rules().stream().map(Rule::id).collect(Collectors.joining(" "))
        + group.zones().stream().map(Zone::name).collect(Collectors.joining(" ", "|", ""));
  }

  private static String rule(String id, String condition) {
    return "rule " + id + " \"\" basis practice always " + condition + "\n";
  }

  @Test
  void rulesWithoutACommonSignalStandAlone() {
    assertThat(groups(book("input a, b : bool\n" + rule("A", "a") + rule("B", "b")))).containsExactly("A|", "B|");
  }

  @Test
  void rulesWithMostlyTheSameSignalsAreTogether() {
    String rules = rule("AB", "a or b") + rule("CD", "c or d") + rule("ABC", "a or b or c") + rule("C", "c")
        + rule("D", "not d");

    assertThat(groups(book("input a, b, c, d : bool\n" + rules))).containsExactly("AB ABC C|", "CD D|");
  }

  @Test
  void halfOfTheSignalsIsNotMostOfThem() {
    assertThat(groups(book("input a, b, c : bool\n" + rule("AB", "a or b") + rule("BC", "b or c"))))
        .containsExactly("AB|", "BC|");
  }

  /** Also of zones that rest on zones, and of one that joins two others. */
  @Test
  void rulesWithACommonZoneAreTogetherSoThatItIsCountedOnce() {
    String zones = """
        input a, b, c, d, e, f : bool
        zone first enter rises(a) leave rises(b) holds 1 starts with 0
        zone second enter rises(c) leave rises(d) holds 1 starts with 0
        zone behind enter leaves(second) leave rises(e) holds 1 starts with 0
        zone alone enter rises(f) leave rises(f) holds 1 starts with 0
        """;
    String apart = rule("F", "occupied(first)") + rule("B", "occupied(behind)") + rule("E", "e");

    assertThat(groups(book(zones + apart))).containsExactly("F|first", "B E|second behind", "|alone");
    assertThat(groups(book(zones + apart + rule("J", "occupied(first) or occupied(second)"))))
        .containsExactly("F B E J|first second behind", "|alone");
  }

  @Test
  void rulesAndZonesOfAGroupKeepTheOrderOfTheBook() {
    String zones = """
        input a, b, c, d : bool
        zone first enter rises(a) leave rises(b) holds 1 starts with 0
        zone second enter rises(c) leave rises(d) holds 1 starts with 0
        """;
    String rules = rule("S", "occupied(second)") + rule("F", "occupied(first)")
        + rule("J", "occupied(first) or occupied(second)");

    assertThat(groups(book(zones + rules))).containsExactly("S F J|first second");

    String third = "zone third enter rises(a) leave rises(c) holds 1 starts with 0\n";
    String joins = rule("FT", "occupied(first) or occupied(third)") + rule("FS", "occupied(first) or occupied(second)");
    assertThat(groups(book(zones + third + joins))).containsExactly("FT FS|first second third");
  }

  @Test
  void aSignalGoesToFourGroupsAtMost() {
    String rules = IntStream.range(0, 6).mapToObj(i -> rule("R" + i, "a or b" + i)).collect(Collectors.joining());

    assertThat(groups(book("input a, b0, b1, b2, b3, b4, b5 : bool\n" + rules)))
        .containsExactly("R0 R4 R5|", "R1|", "R2|", "R3|");
  }

  @Test
  void thereAreNoMoreThanThirtyTwoGroups() {
    String signals = IntStream.range(0, 100).mapToObj(i -> "b" + i)
        .collect(Collectors.joining(", ", "input ", " : bool\n"));
    String rules = IntStream.range(0, 100).mapToObj(i -> rule("R" + i, "b" + i)).collect(Collectors.joining());
    RuleBook book = book(signals + rules);

    List<Selection> groups = Division.of(book);

    assertThat(groups).hasSize(32);
    assertThat(groups.stream().flatMap(group -> group.rules().stream()))
        .containsExactlyInAnyOrderElementsOf(book.rules());
  }

  @Test
  void aBookWithoutRulesIsOneGroup() {
    assertThat(groups(book("input a : bool\n"))).containsExactly("|");
  }
}
