package dev.pawl.trace;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.source.Source;
import dev.pawl.trace.bindings.Bindings;
import dev.pawl.trace.bindings.BindingsFile;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;

/** Rows that come late within the stated window are put in order, as those of a live feed are. */
class ReorderingTest {

  private static final TraceOptions WINDOW = TraceOptions.of(Books.LIFT).withBindings(Bindings.resolve(
      BindingsFile.parse(new Source("site.bindings", "session\n reorder 100 ms\nignore\n pump\n")), Books.LIFT,
          Set.of()).bindings());

  /** Rows up to 100 ms late give what the same rows in order give, each with its line. */
  @Property(tries = 300)
  void lateRowsAreTakenInOrder(@ForAll long seed) {
    Random random = new Random(seed);
    List<String> sorted = new ArrayList<>();
    for (int i = 0; i < 200; i++) {
      sorted.add(i * 10 + "," + (random.nextInt(5) == 0 ? "pump,7" : random.nextBoolean() ? "lift_speed," + i
          : "lift_run," + random.nextInt(2)));
    }
    List<String> late = new ArrayList<>(sorted);
    for (int i = 0; i + 10 < late.size(); i += 10) {
      Collections.shuffle(late.subList(i, i + 10), random);
    }
    Recording recording = Recording.of(csv(late), WINDOW);
    assertThat(recording.summary().diagnostics()).isEmpty();
    assertThat(recording.events()).isEqualTo(Recording.of(csv(sorted), TraceOptions.of(Books.LIFT)
        .withBindings(WINDOW.bindings())).events());
    assertThat(recording.events()).isSortedAccordingTo(Comparator.comparingLong(Recording.Event::time));
    for (int i = 0; i < recording.events().size(); i++) {
      String row = late.get((int) (long) recording.lines().get(i) - 2);
      assertThat(row).startsWith(recording.events().get(i).time() / 1_000_000 + ",");
    }
  }

  private static String csv(List<String> rows) {
    return rows.stream().collect(Collectors.joining("\n", "time_ms,signal,value\n", "\n"));
  }

  @Test
  void aRowThatIsLaterThanTheWindowIsOutOfOrder() {
    Recording recording =
        Recording.of("time_ms,signal,value\n0,lift_run,0\n500,lift_run,1\n400,lift_speed,5\n399,lift_speed,6\n",
        WINDOW);
    assertThat(recording.summary().diagnostics()).extracting(problem -> problem.position().line()).containsExactly(5);
    assertThat(recording.summary().times().last()).hasValue(500_000_000);
  }

  @Test
  void rowsOfAllSignalsAreReorderedWhole() {
    Recording recording = Recording.of("time_ms,lift_run,mode\n0,0,off\n20,1,manual\n10,,automatic\n", WINDOW);
    assertThat(recording.summary().diagnostics()).isEmpty();
    assertThat(recording.events()).extracting(Recording.Event::time)
        .containsExactly(0L, 0L, 10_000_000L, 20_000_000L, 20_000_000L);
  }
}
