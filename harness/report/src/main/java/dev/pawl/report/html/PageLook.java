package dev.pawl.report.html;

import dev.pawl.engine.Verdict;
import dev.pawl.report.words.VerdictLook;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** What all pages look like: their colours and letters, and the marks of verdicts. */
public final class PageLook {

  private PageLook() {}

  /** The style sheet of it. */
  public static String style() {
    try {
      return HtmlReportWriter.resource("look.css").replace("{ON LIGHT}", colours(VerdictLook::onLight))
          .replace("{ON DARK}", colours(VerdictLook::onDark));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String colours(Function<VerdictLook, String> colour) {
    return Stream.of(Verdict.values())
        .map(verdict -> "--" + verdict.label() + ": " + colour.apply(VerdictLook.of(verdict)) + ";")
        .collect(Collectors.joining(" "));
  }

  /** A verdict's mark and word, as an element. */
  public static String mark(Verdict verdict) {
    Markup html = new Markup();
    VerdictMark.write(html, verdict);
    return html.take();
  }
}
