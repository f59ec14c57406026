package dev.pawl.editor;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.eclipse.lsp4j.CompletionParams;
import org.eclipse.lsp4j.DidChangeTextDocumentParams;
import org.eclipse.lsp4j.DidOpenTextDocumentParams;
import org.eclipse.lsp4j.DocumentFormattingParams;
import org.eclipse.lsp4j.FormattingOptions;
import org.eclipse.lsp4j.HoverParams;
import org.eclipse.lsp4j.Position;
import org.eclipse.lsp4j.TextDocumentContentChangeEvent;
import org.eclipse.lsp4j.TextDocumentIdentifier;
import org.eclipse.lsp4j.TextDocumentItem;
import org.eclipse.lsp4j.VersionedTextDocumentIdentifier;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** How long an editor waits for answers about a book of 500 rules; prints it, since a test asserts no times. */
@Tag("soak")
class LargeBookTest {

  private static final String URI = "untitled:large";
  private static final int RULES = 500;
  private static final int TIMES = 100;

  private static String book() {
    StringBuilder text = new StringBuilder("ride \"Large\"\nresolution 10 ms\n");
    for (int i = 0; i < RULES / 10; i++) {
      text.append("input flag_").append(i).append(" : bool\noutput drive_").append(i).append(" : bool\noutput speed_")
          .append(i).append(" : m/s\n");
      text.append("zone zone_").append(i).append(" enter rises(flag_").append(i).append(") leave falls(flag_")
          .append((i + 1) % (RULES / 10)).append(") starts with 0\n");
    }
    for (int i = 0; i < RULES; i++) {
      int zone = i % (RULES / 10);
      text.append("rule LARGE-").append(i).append(" \"Rule ").append(i).append("\"\n  basis practice\n");
      text.append("  when rises(flag_").append(zone).append(") while occupied(zone_").append(zone)
          .append(") or speed_").append(zone).append(" > ").append(i + 1).append(" mm/s\n  must not drive_")
          .append(zone).append(" within ").append(i + 100).append(" ms, and stay so for 2 s\n");
    }
    return text.toString();
  }

  private static String measured(String what, Runnable asked) {
    for (int i = 0; i < TIMES; i++) {
      asked.run();
    }
    double[] millis = new double[TIMES];
    double[] worked = new double[TIMES];
    ThreadMXBean threads = ManagementFactory.getThreadMXBean();
    for (int i = 0; i < TIMES; i++) {
      long start = System.nanoTime();
      long work = threads.getCurrentThreadCpuTime();
      asked.run();
      millis[i] = (System.nanoTime() - start) / 1e6;
      worked[i] = (threads.getCurrentThreadCpuTime() - work) / 1e6;
    }
    Arrays.sort(millis);
    Arrays.sort(worked);
    return String.format("%-28s median %6.2f ms, of work %6.2f ms; 99 of 100 within %6.2f ms, of work %6.2f ms%n", what,
        millis[TIMES / 2], worked[TIMES / 2], millis[TIMES - 2], worked[TIMES - 2]);
  }

  @Test
  void answersAreThereBeforeAPersonWaits() {
    String text = book();
    RuleDocuments documents = new RuleDocuments(Optional.empty());
    documents.tell(new Told());
    long start = System.nanoTime();
    documents.didOpen(new DidOpenTextDocumentParams(new TextDocumentItem(URI, "pawl", 1, text)));
    StringBuilder table = new StringBuilder(String.format("%d rules; the very first reading %.0f ms%n", RULES,
        (System.nanoTime() - start) / 1e6));
    int[] count = {0};
    TextDocumentIdentifier file = new TextDocumentIdentifier(URI);
    Position spot = new Position((int) text.lines().count() - 2, 8);
    table.append(measured("a change, until it is judged", () -> documents.didChange(new DidChangeTextDocumentParams(
        new VersionedTextDocumentIdentifier(URI, 2),
        List.of(new TextDocumentContentChangeEvent(text + "-- " + count[0]++ + "\n"))))));
    table.append(measured("completion", () -> documents.completion(new CompletionParams(file, spot)).join()));
    table.append(measured("hover", () -> documents.hover(new HoverParams(file, spot)).join()));
    table.append(measured("layout", () -> documents.formatting(new DocumentFormattingParams(file, new FormattingOptions(2, true))).join()));
    System.out.print(table);
    assertThat(documents.completion(new CompletionParams(file, spot)).join().getLeft().size())
        .isGreaterThan(RULES);
  }
}
