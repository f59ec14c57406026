package dev.pawl.report.html;

import dev.pawl.engine.Verdict;
import java.io.IOException;
import java.io.UncheckedIOException;

/** What all pages look like: their colours and letters, and the marks of verdicts. */
public final class PageLook {

  private PageLook() {}

  /** The style sheet of it. */
  public static String style() {
    try {
      return HtmlReportWriter.resource("look.css");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A verdict's mark and word, as an element. */
  public static String mark(Verdict verdict) {
    Markup html = new Markup();
    VerdictMark.write(html, verdict);
    return html.take();
  }
}
