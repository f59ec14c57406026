package dev.pawl.report.html;

import dev.pawl.report.collect.RuleMargins;
import dev.pawl.report.model.MarginResult;
import dev.pawl.report.model.RuleOverview;
import dev.pawl.report.words.FindingWords;

/** The smallest margins of all traces on one line: a dot each, the limit marked, and what lies beyond it filled. */
final class MarginStrip {

  private static final double LEFT = 20;
  private static final double WIDTH = 700;
  private static final double MIDDLE = 22;

  private final Markup svg;
  private final RuleMargins margins;
  private final double least;
  private final double most;

  MarginStrip(Markup svg, RuleMargins margins) {
    this.svg = svg;
    this.margins = margins;
    this.least = Math.min(0, margins.atMost(0).value());
    this.most = Math.max(margins.allowed().orElse(0), Math.max(0, margins.atMost(100).value()));
  }

  void write(String rule) {
    if (most <= least) {
      return;
    }
    svg.open("svg", "class", "timing strip", "viewBox", "0 0 " + TimingPicture.number(LEFT * 2 + WIDTH) + " 46", "role",
        "img", "aria-label", "The margins of " + rule + ", as said above.");
    svg.lone("line", "class", "tick", "x1", x(least), "x2", x(most), "y1", TimingPicture.number(MIDDLE), "y2",
        TimingPicture.number(MIDDLE));
    svg.lone("line", "class", "instant break", "x1", x(0), "x2", x(0), "y1", "8", "y2", "34");
    svg.element("text", "limit", "class", "time", "x", x(0), "y", "44", "text-anchor", least < 0 ? "middle" : "start");
    MarginResult some = RuleMargins.margin(margins.nearestFirst().get(0));
    svg.element("text", FindingWords.margin(new MarginResult(most, some.unit(), 0, 0, false)), "class", "time", "x",
        x(most), "y", "44", "text-anchor", "end");
    for (RuleOverview.InTrace each : margins.nearestFirst()) {
      MarginResult margin = RuleMargins.margin(each);
      svg.open("circle", "class", margin.value() < 0 ? "dot beyond" : "dot", "cx", x(margin.value()), "cy",
          TimingPicture.number(MIDDLE), "r", "4").element("title", FindingWords.margin(margin) + " in "
              + Links.fileName(each.trace().path())).close();
    }
    svg.end();
  }

  private String x(double value) {
    return TimingPicture.number(LEFT + (value - least) / (most - least) * WIDTH);
  }
}
