package dev.pawl.report.collect;

import dev.pawl.engine.Finding;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.grammar.rules.model.RuleBook;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;

/** A listener that keeps the first findings of each rule and zone, with the late response of each where one came. */
public final class FindingCollector implements FindingListener {

  private final int keep;
  private final List<List<Kept>> broken = new ArrayList<>();
  private final List<List<Kept>> doubtful = new ArrayList<>();
  private final List<List<TrackingFinding>> tracking = new ArrayList<>();

  /**
   * Begins with nothing found.
   *
   * @param keep how many breaking findings, how many undecided ones and how many tracking findings are kept of each
   *     rule or zone
   */
  public FindingCollector(RuleBook book, int keep) {
    this.keep = keep;
    for (int i = 0; i < book.rules().size(); i++) {
      broken.add(new ArrayList<>());
      doubtful.add(new ArrayList<>());
    }
    for (int i = 0; i < book.zones().size(); i++) {
      tracking.add(new ArrayList<>());
    }
  }

  @Override
  public void finding(Finding finding) {
    List<Kept> kept = (finding.kind().breaks() ? broken : doubtful).get(finding.rule());
    if (kept.size() < keep) {
      kept.add(new Kept(finding));
    }
  }

  @Override
  public void tracking(TrackingFinding finding) {
    List<TrackingFinding> kept = tracking.get(finding.zone());
    if (kept.size() < keep) {
      kept.add(finding);
    }
  }

  @Override
  public void lateResponse(int rule, long trigger, long deadline, long time) {
    for (Kept kept : broken.get(rule)) {
      if (kept.finding.trigger() == trigger && kept.late.isEmpty()) {
        kept.late = OptionalLong.of(time);
      }
    }
  }

  List<Kept> broken(int rule) {
    return broken.get(rule);
  }

  List<Kept> doubtful(int rule) {
    return doubtful.get(rule);
  }

  List<TrackingFinding> trackingOf(int zone) {
    return tracking.get(zone);
  }

  /** A finding and the response that came too late for it. */
  static final class Kept {
    private final Finding finding;
    private OptionalLong late = OptionalLong.empty();

    private Kept(Finding finding) {
      this.finding = finding;
    }

    Finding finding() {
      return finding;
    }

    OptionalLong late() {
      return late;
    }
  }
}
