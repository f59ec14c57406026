package dev.pawl.engine;

import java.util.ArrayList;
import java.util.List;

/** All that an engine told, each kind in the order in which it was told. */
public final class Told implements FindingListener {

  /** A response that came after it had been found missing. */
  public record Late(int rule, long trigger, long deadline, long time) {}

  private final List<Finding> findings = new ArrayList<>();
  private final List<TrackingFinding> trackings = new ArrayList<>();
  private final List<Late> late = new ArrayList<>();

  /** Listens to findings of rules, and to nothing else. */
  @FunctionalInterface
  public interface OfRules extends FindingListener {

    @Override
    default void tracking(TrackingFinding finding) {}

    @Override
    default void lateResponse(int rule, long trigger, long deadline, long time) {}
  }

  @Override
  public void finding(Finding finding) {
    findings.add(finding);
  }

  @Override
  public void tracking(TrackingFinding finding) {
    trackings.add(finding);
  }

  @Override
  public void lateResponse(int rule, long trigger, long deadline, long time) {
    late.add(new Late(rule, trigger, deadline, time));
  }

  public List<Finding> findings() {
    return findings;
  }

  public List<TrackingFinding> trackings() {
    return trackings;
  }

  public List<Late> late() {
    return late;
  }
}
