package dev.pawl.report.html;

import dev.pawl.report.model.Report;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.List;
import java.util.stream.Collectors;

/**
 * What the pages of a report have around them: the look, the policy under which nothing is loaded and no script runs
 * but their own, and the lines that a print has at the head and foot of each sheet.
 */
final class PageFrame {

  private final Markup html;

  PageFrame(Markup html) {
    this.html = html;
  }

  /** What a report is called: the tool's name is not in it, since a pawl is a part of the ride. */
  static String title(Report report) {
    return report.ride().isEmpty() ? "Rule check of an unnamed ride" : "Rule check of " + report.ride();
  }

  static String identity(Report report) {
    return "run " + report.identity();
  }

  /**
   * Opens the page and its body.
   *
   * @param part what this page is of the report, for the head of a printed sheet
   * @param styles further style sheets
   * @param scripts the only ones that may run
   */
  void begin(Report report, String title, String part, List<String> styles, List<String> scripts) {
    html.own("<!DOCTYPE html>\n").open("html", "lang", "en").open("head");
    html.lone("meta", "charset", "utf-8");
    html.lone("meta", "name", "viewport", "content", "width=device-width, initial-scale=1");
    html.lone("meta", "http-equiv", "Content-Security-Policy", "content",
        "default-src 'none'; style-src 'unsafe-inline'; script-src "
            + scripts.stream().map(script -> "'" + hash(script) + "'").collect(Collectors.joining(" ")));
    html.element("title", title);
    html.open("style").own(String.join("", styles)).own(sheets(report, part)).end();
    html.end().open("body");
    html.open("a", "class", "skip", "href", "#main").text("To the content").end();
  }

  /** The lines around each printed sheet, by the margin boxes of CSS Paged Media. */
  private static String sheets(Report report, String part) {
    String made = report.created().isEmpty() ? "" : "made " + report.created() + ", ";
    return "@page { @top-left { content: " + quoted(title(report) + part) + " } @top-right { content: "
        + quoted(identity(report)) + " } @bottom-left { content: " + quoted(made + "pawl " + report.version()
            + (report.partial() ? ", PARTIAL" : "")) + " } }\n";
  }

  /** A text as a string of CSS: whatever is not a plain letter, digit or blank by its number. */
  static String quoted(String text) {
    StringBuilder css = new StringBuilder("\"");
    text.codePoints().forEach(c -> {
      if (c < 128 && Character.isLetterOrDigit(c) || " .,:;()/-".indexOf(c) >= 0) {
        css.appendCodePoint(c);
      } else if (c >= 32 && c != 127) {
        css.append('\\').append(Integer.toHexString(c)).append(' ');
      }
    });
    return css.append('"').toString();
  }

  /** Closes body and page; the scripts run when all of it is there. */
  void end(List<String> scripts) {
    scripts.forEach(script -> html.open("script").own(script).end());
    html.end().end();
  }

  /** The hash that lets the page's own script run and no other, as Content Security Policy level 2 defines it. */
  private static String hash(String script) {
    try {
      byte[] digest = MessageDigest.getInstance("SHA-256").digest(script.getBytes(StandardCharsets.UTF_8));
      return "sha256-" + Base64.getEncoder().encodeToString(digest);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
