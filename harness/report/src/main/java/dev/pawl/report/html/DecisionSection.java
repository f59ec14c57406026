package dev.pawl.report.html;

import dev.pawl.report.model.Acceptance;
import dev.pawl.report.model.Decisions;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.Review;
import dev.pawl.report.words.DecisionWords;

/** What persons have decided about a report: findings that are accepted, and who has looked at what. */
final class DecisionSection {

  private final Markup html;
  private final Report report;

  DecisionSection(Markup html, Report report) {
    this.html = html;
    this.report = report;
  }

  void write() {
    Decisions decisions = report.decisions();
    if (decisions.isEmpty()) {
      return;
    }
    html.open("section", "aria-labelledby", "decisions").element("h2", "What persons decided", "id", "decisions");
    html.element("p", "No verdict on this page depends on it. Days are those of UTC.", "class", "extent");
    if (!decisions.acceptances().isEmpty()) {
      table("State", "Accepted", "Why", "By", "Until", "Written at");
      decisions.acceptances().forEach(this::acceptance);
      html.close().close().close();
    }
    if (!decisions.reviews().isEmpty()) {
      table("State", "Reviewed by", "On", "Looked at", "Written at");
      decisions.reviews().forEach(this::review);
      html.close().close().close();
    }
    html.end();
  }

  private void table(String... columns) {
    html.open("div", "class", "wide").open("table").open("thead").open("tr");
    for (String column : columns) {
      html.element("th", column, "scope", "col");
    }
    html.close().end().open("tbody");
  }

  private void acceptance(Acceptance acceptance) {
    Acceptance.State state = report.decisions().state(acceptance, report.traces());
    String remark = DecisionWords.remark(acceptance, report);
    html.open("tr").open("td").open("strong").text(DecisionWords.state(state)).close()
        .text(remark.isEmpty() ? "" : ": " + remark).close().element("td", acceptance.subject())
        .element("td", acceptance.reason()).element("td", acceptance.by())
        .element("td", acceptance.until().toString()).element("td", acceptance.file() + ":" + acceptance.line(),
            "class", "code").end();
  }

  private void review(Review review) {
    boolean other = report.reviewsOfOthers().contains(review);
    html.open("tr").open("td").open("strong").text(other ? "of another report" : "of this report").close()
        .text(other ? ": " + DecisionWords.another(review, report) : "").close().element("td", review.by())
        .element("td", review.on().toString())
        .element("td", DecisionWords.looked(review))
        .element("td", review.file() + ":" + review.line(), "class", "code").end();
  }
}
