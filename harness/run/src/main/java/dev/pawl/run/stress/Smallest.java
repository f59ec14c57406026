package dev.pawl.run.stress;

import dev.pawl.plant.scenario.Scenario;
import dev.pawl.plant.scenario.Scenario.Timed;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The making of a run as small as it gets while it still shows what is sought: fewer faults, fewer acts, an earlier
 * end, rounder numbers. The same run always comes to the same.
 */
public final class Smallest {

  /** Seconds after what is sought by which it is known. */
  private static final double AFTERWARDS = 2;
  private static final double[] ROUND = {60, 10, 5, 1, 0.5, 0.1};

  private final Subject subject;
  private final BitSet ignored;
  private final Sought sought;
  private Scenario base;
  private Trial trial;
  private double lasts;
  /** When it shows what is sought, seconds. */
  private double shown;
  private RunResult result;

  /**
   * A run made small.
   *
   * @param scenario all that happens in it
   * @param base what remained of the base scenario
   */
  public record Small(Scenario scenario, Scenario base, Trial trial, RunResult result) {}

  private Smallest(Subject subject, BitSet ignored, Scenario base, Trial trial, Sought sought) {
    this.subject = subject;
    this.ignored = ignored;
    this.base = base;
    this.trial = trial;
    this.sought = sought;
    this.lasts = base.lasts();
  }

  /** The smallest run that shows what a run shows; empty where that shows nothing of what is sought. */
  static Optional<Small> of(Subject subject, BitSet ignored, Scenario base, Trial trial, Sought sought) {
    Smallest work = new Smallest(subject, ignored, base, trial, sought);
    if (!work.take(base, trial, base.lasts())) {
      return Optional.empty();
    }
    work.make();
    double ran = (work.result.scans() - 1) * subject.step() / 1e9;
    return Optional.of(new Small(work.trial.in(work.base, Math.max(work.lasts, ran)), work.base, work.trial,
        work.result));
  }

  /** Takes a run over if it still shows what is sought. */
  private boolean take(Scenario otherBase, Trial otherTrial, double otherLasts) {
    RunResult run = subject.run(otherTrial.in(otherBase, otherLasts), ignored);
    OptionalDouble when = sought.shownBy(run);
    if (when.isPresent()) {
      base = otherBase;
      trial = otherTrial;
      lasts = otherLasts;
      shown = when.getAsDouble();
      result = run;
    }
    return when.isPresent();
  }

  private void make() {
    shorten();
    dropFaults();
    for (int fault = 0; fault < trial.faults().size(); fault++) {
      simplify(fault);
    }
    take(base, new Trial(trial.faults(), base.seed()), lasts);
    dropActs();
    shorten();
  }

  private void shorten() {
    take(base, trial, Math.min(lasts, Math.ceil(shown + AFTERWARDS)));
  }

  private void dropFaults() {
    for (int fault = trial.faults().size() - 1; fault >= 0; fault--) {
      List<Injection> rest = new ArrayList<>(trial.faults());
      rest.remove(fault);
      take(base, new Trial(rest, trial.seed()), lasts);
    }
  }

  private void simplify(int which) {
    Candidate candidate = trial.faults().get(which).candidate();
    for (double span : candidate.spans()) {
      if (replace(which, trial.faults().get(which).withSpan(span))) {
        break;
      }
    }
    for (double amount : candidate.amounts()) {
      if (replace(which, trial.faults().get(which).withAmount(amount))) {
        break;
      }
    }
    for (double round : ROUND) {
      double at = trial.faults().get(which).at();
      if (replace(which, trial.faults().get(which).at(Draw.rounded(Math.floor(at / round) * round)))
          || replace(which, trial.faults().get(which).at(Draw.rounded(Math.ceil(at / round) * round)))) {
        break;
      }
    }
  }

  private boolean replace(int which, Injection other) {
    List<Injection> faults = new ArrayList<>(trial.faults());
    faults.set(which, other);
    return take(base, new Trial(faults, trial.seed()), lasts);
  }

  /** What people do that does not matter for it is left out, the last of it first. */
  private void dropActs() {
    for (int act = base.script().size() - 1; act >= 0; act--) {
      List<Timed> script = new ArrayList<>(base.script());
      boolean after = script.remove(act).at() > lasts;
      Scenario fewer = with(base, script, base.watches());
      if (after) {
        base = fewer;
      } else {
        take(fewer, trial, lasts);
      }
    }
    for (int watch = base.watches().size() - 1; watch >= 0; watch--) {
      List<Scenario.Watch> watches = new ArrayList<>(base.watches());
      watches.remove(watch);
      take(with(base, base.script(), watches), trial, lasts);
    }
  }

  private static Scenario with(Scenario base, List<Timed> script, List<Scenario.Watch> watches) {
    return new Scenario(base.name(), base.title(), base.lasts(), base.starts(), base.seed(), base.desk(), script,
        watches);
  }
}
