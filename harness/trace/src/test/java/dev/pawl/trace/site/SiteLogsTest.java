package dev.pawl.trace.site;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.source.Source;
import dev.pawl.trace.Books;
import dev.pawl.trace.Recording;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.bindings.Bindings;
import dev.pawl.trace.bindings.BindingsFile;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Logs as the systems of a site write them: with ten lines of bindings at most each gives the events of the session.
 */
class SiteLogsTest {

  @ParameterizedTest
  @MethodSource("dev.pawl.trace.site.Exports#all")
  void giveTheSameEvents(Export export) {
    assertThat(export.bindings().lines().count()).isLessThanOrEqualTo(10);
    Recording recording = Recording.of(export.bytes(), TraceOptions.of(Books.LIFT)
        .withBindings(bindings(export.bindings())));
    assertThat(recording.summary().diagnostics()).isEmpty();
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
