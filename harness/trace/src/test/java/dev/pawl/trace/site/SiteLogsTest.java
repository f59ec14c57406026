package dev.pawl.trace.site;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.source.Source;
import dev.pawl.trace.Books;
import dev.pawl.trace.Recording;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.TraceSummary;
import dev.pawl.trace.bindings.Bindings;
import dev.pawl.trace.bindings.BindingsFile;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Logs as the systems of a site write them: with ten lines of bindings at most each gives the events of the session.
 */
class SiteLogsTest {

  private static final int DRAWN = 30;

  static Stream<Export> drawn() {
    return DrawnExports.all(DRAWN);
  }

  @ParameterizedTest
  @MethodSource("dev.pawl.trace.site.Exports#all")
  void giveTheSameEvents(Export export) {
    assertThat(export.bindings().lines().count()).isLessThanOrEqualTo(10);
    givesTheEvents(export, read(export, export.bindings()));
  }

  @ParameterizedTest
  @MethodSource("drawn")
  void soDoFormsThatAreDrawn(Export export) {
    givesTheEvents(export, read(export, export.bindings()));
  }

  /** Without its bindings it is read as it is meant, or refused with a message that says what to state. */
  @ParameterizedTest
  @MethodSource("drawn")
  void nothingIsGuessedOfThem(Export export) {
    Recording recording = read(export, "");
    if (recording.summary().outcome() == TraceSummary.Outcome.COMPLETE) {
      givesTheEvents(export, recording);
    } else {
      assertThat(recording.summary().diagnostics()).isNotEmpty().allSatisfy(diagnostic ->
          assertThat(diagnostic.hint()).as(diagnostic.message()).isNotEmpty());
    }
  }

  private static Recording read(Export export, String stated) {
    return Recording.of(export.bytes(), TraceOptions.of(Books.LIFT).withBindings(bindings(stated)));
  }

  private static void givesTheEvents(Export export, Recording recording) {
    assertThat(recording.summary().diagnostics()).as(export.bindings()).isEmpty();
    long start = export.dated() ? Session.START.toEpochMilli() * 1_000_000 : 0;
    List<Recording.Event> expected = Session.events().stream()
        .map(event -> new Recording.Event(start + event.time(), event.signal(), event.value())).toList();
    assertThat(inOrderOfSignals(recording.events())).isEqualTo(expected);
  }

  /** The columns of a table may come in any order. */
  private static List<Recording.Event> inOrderOfSignals(List<Recording.Event> events) {
    return events.stream().sorted((a, b) -> a.time() != b.time() ? Long.compare(a.time(), b.time())
        : a.signal() - b.signal()).toList();
  }

  static Bindings bindings(String text) {
    Bindings.Resolved resolved = Bindings.resolve(BindingsFile.parse(new Source("site.bindings", text)), Books.LIFT,
        Set.of());
    assertThat(resolved.diagnostics()).isEmpty();
    return resolved.bindings();
  }
}
