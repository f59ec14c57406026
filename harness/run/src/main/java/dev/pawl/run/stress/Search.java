package dev.pawl.run.stress;

import dev.pawl.plant.loop.Truth;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.random.RandomGenerator;

/**
 * The search for what no drawn run has shown: a rule that no run has broken yet is followed to where its margin was
 * least, and the run of that is changed a little; so is the run in which trains came nearest. A goal is followed as
 * long as faults bring it nearer, and half of the runs follow none. (Falsification of metric temporal logic: Fainekos
 * and Pappas 2009, from memory.)
 */
final class Search {

  /** By how much a fault is moved in time, seconds. */
  private static final double[] REACH = {0.05, 0.5, 3, 15};

  /** So many runs that bring a goal no nearer, and it is left. */
  private static final int PATIENCE = 12;

  private final Draw draw;
  /** By rule, and then one for the distance of trains. */
  private final double[] least;
  private final Trial[] best;
  private final boolean[] shown;
  /** By goal: what the first run came to, which has no fault. */
  private final double[] usual;
  /** By goal: runs that followed it since it last came nearer. */
  private final int[] tries;
  private boolean begun;

  Search(Draw draw, int rules) {
    this.draw = draw;
    least = new double[rules + 1];
    best = new Trial[rules + 1];
    shown = new boolean[rules + 1];
    usual = new double[rules + 1];
    tries = new int[rules + 1];
    Arrays.fill(least, Double.POSITIVE_INFINITY);
  }

  /** Takes what a run came to. */
  void learn(Trial trial, RunResult result) {
    int rules = least.length - 1;
    for (int rule = 0; rule < rules; rule++) {
      shown[rule] |= result.isBroken(rule);
      note(rule, result.margins()[rule], trial);
    }
    shown[rules] |= result.hazards().stream().anyMatch(it -> it.kind() == Truth.Kind.CONTACT);
    note(rules, result.gap(), trial);
    if (!begun) {
      System.arraycopy(least, 0, usual, 0, usual.length);
      begun = true;
    }
  }

  private void note(int goal, double value, Trial trial) {
    if (value < least[goal]) {
      least[goal] = value;
      best[goal] = trial;
      tries[goal] = 0;
    }
  }

  /** The next run; goals take turns. */
  Trial next(int run) {
    RandomGenerator random = draw.random(run);
    List<Integer> open = new ArrayList<>();
    for (int goal = 0; goal < best.length; goal++) {
      if (!shown[goal] && least[goal] < usual[goal] && tries[goal] < PATIENCE) {
        open.add(goal);
      }
    }
    if (open.isEmpty() || random.nextBoolean()) {
      return draw.any(random);
    }
    int goal = open.get(run % open.size());
    tries[goal]++;
    return changed(best[goal], random);
  }

  private Trial changed(Trial trial, RandomGenerator random) {
    List<Injection> faults = new ArrayList<>(trial.faults());
    int way = random.nextInt(10);
    if (faults.isEmpty() || way == 0 && faults.size() < 4) {
      faults.add(draw.drawn(random));
      return new Trial(faults, trial.seed());
    }
    int which = random.nextInt(faults.size());
    Injection fault = faults.get(which);
    if (way == 1 && faults.size() > 1) {
      faults.remove(which);
    } else if (way <= 3) {
      faults.set(which, Draw.drawn(List.of(fault.candidate()), random, fault.at()));
    } else if (way == 4) {
      faults.set(which, Draw.drawn(draw.like(fault.candidate()), random, fault.at()));
    } else {
      double reach = REACH[random.nextInt(REACH.length)];
      faults.set(which, fault.at(draw.bounded(fault.at() + random.nextGaussian() * reach)));
    }
    return new Trial(faults, trial.seed());
  }
}
