package dev.pawl.bench.workload;

import dev.pawl.engine.Finding;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.TrackingFinding;

/** A listener that only counts, so that what is measured is the engine. */
public final class Unheard implements FindingListener {

  private long heard;

  @Override
  public void finding(Finding finding) {
    heard++;
  }

  @Override
  public void tracking(TrackingFinding finding) {
    heard++;
  }

  @Override
  public void lateResponse(int rule, long trigger, long deadline, long time) {
    heard++;
  }

  /** How often it was told something. */
  public long heard() {
    return heard;
  }
}
