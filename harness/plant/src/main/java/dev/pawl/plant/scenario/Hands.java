package dev.pawl.plant.scenario;

import dev.pawl.plant.scenario.Scenario.Trigger;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.PriorityQueue;
import java.util.function.Consumer;

/**
 * What the people at the desk do, and what goes wrong, scan by scan. A signal that is held shows what it is held at,
 * one
 * in an act what that says, any other what its sensor reports or the desk shows at rest.
 */
public final class Hands {

  /** Times closer than this are one time, seconds. */
  private static final double NEAR = 1e-9;
  /** More of what was done is not listed. */
  private static final int MOST_DONE = 500;

  private final double[] image;
  private final double[] base;
  private final double[] acted;
  private final double[] held;
  private final long[] actedBy;
  private final long[] heldBy;
  private final Scenario scenario;
  private final Consumer<Doing> faults;
  private final PriorityQueue<Due> due = new PriorityQueue<>();
  private final double[] habitSince;
  private final double[] watchSince;
  private final boolean[] watchDone;
  private final int[] seen;
  private final double[] before;
  private final List<Scenario.Timed> done = new ArrayList<>();
  private long number;
  private double now;

  /** Something to be done, or to be ended. */
  private record Due(double time, long number, Runnable work) implements Comparable<Due> {
    @Override
    public int compareTo(Due other) {
      int byTime = Math.abs(time - other.time) <= NEAR ? 0 : Double.compare(time, other.time);
      return byTime != 0 ? byTime : Long.compare(number, other.number);
    }
  }

  /**
   * Hands at the start of a scenario.
   *
   * @param image values of all signals, which they write
   * @param faults told of what fails and is mended, and of power cuts
   */
  public Hands(Scenario scenario, double[] image, Consumer<Doing> faults) {
    this.scenario = scenario;
    this.image = image;
    this.faults = faults;
    base = image.clone();
    acted = new double[image.length];
    held = new double[image.length];
    Arrays.fill(acted, Double.NaN);
    Arrays.fill(held, Double.NaN);
    actedBy = new long[image.length];
    heldBy = new long[image.length];
    habitSince = nan(scenario.desk().habits().size());
    watchSince = nan(scenario.watches().size());
    watchDone = new boolean[scenario.watches().size()];
    seen = new int[scenario.watches().size()];
    before = nan(scenario.watches().size());
    scenario.desk().rests().forEach(this::sense);
    for (Scenario.Timed timed : scenario.script()) {
      if (timed.doing() instanceof Doing.Perform perform) {
        perform(perform.act(), timed.at());
      } else {
        later(timed.at(), () -> take(timed.doing()));
      }
    }
  }

  private static double[] nan(int size) {
    double[] values = new double[size];
    Arrays.fill(values, Double.NaN);
    return values;
  }

  /** Takes what a sensor reports, or the desk shows at rest. */
  public void sense(int signal, double value) {
    if (base[signal] != value) {
      base[signal] = value;
      show(signal);
    }
  }

  private void show(int signal) {
    double value = Double.isNaN(held[signal]) ? Double.isNaN(acted[signal]) ? base[signal] : acted[signal]
        : held[signal];
    image[signal] = value;
  }

  /** Does what is to be done up to a time. */
  public void act(double time) {
    now = time;
    followHabits();
    for (int i = 0; i < seen.length; i++) {
      look(i, scenario.watches().get(i));
    }
    while (!due.isEmpty() && due.peek().time <= now + NEAR) {
      due.poll().work.run();
    }
    for (int i = 0; i < seen.length; i++) {
      if (scenario.watches().get(i).trigger() instanceof Trigger.Edge edge) {
        before[i] = image[edge.signal()];
      }
    }
  }

  private void followHabits() {
    List<Desk.Habit> habits = scenario.desk().habits();
    for (int i = 0; i < habitSince.length; i++) {
      Desk.Habit habit = habits.get(i);
      if (!habit.condition().holds(image)) {
        habitSince[i] = Double.NaN;
      } else if (Double.isNaN(habitSince[i])) {
        habitSince[i] = now;
      }
    }
    for (int i = 0; i < habitSince.length; i++) {
      int signal = habits.get(i).signal();
      double value = scenario.desk().rests().getOrDefault(signal, 0.0);
      for (int j = 0; j < habitSince.length; j++) {
        if (habits.get(j).signal() == signal && now - habitSince[j] >= habits.get(j).condition().lasts() - NEAR) {
          value = habits.get(j).value();
        }
      }
      sense(signal, value);
    }
  }

  private void look(int index, Scenario.Watch watch) {
    if (watch.trigger() instanceof Trigger.Edge edge) {
      double value = image[edge.signal()];
      boolean turned = !Double.isNaN(before[index]) && value != before[index];
      if (turned && value != 0 == edge.rises()) {
        occur(index, watch);
      }
    } else if (watch.trigger() instanceof Trigger.Lasting lasting) {
      if (!lasting.condition().holds(image)) {
        watchSince[index] = Double.NaN;
        watchDone[index] = false;
      } else if (Double.isNaN(watchSince[index])) {
        watchSince[index] = now;
      }
      if (!watchDone[index] && now - watchSince[index] >= lasting.condition().lasts() - NEAR) {
        watchDone[index] = true;
        occur(index, watch);
      }
    }
  }

  /** A train's nose has come from one place of a track to another by a time. */
  public void passed(int track, double from, double to, double time) {
    now = time;
    for (int i = 0; i < seen.length; i++) {
      Scenario.Watch watch = scenario.watches().get(i);
      if (watch.trigger() instanceof Trigger.Passing passing && passing.track() == track
          && (passing.forward() ? from < passing.place() && to >= passing.place()
              : from > passing.place() && to <= passing.place())) {
        occur(i, watch);
      }
    }
  }

  /** Whether anybody waits for trains to pass a place. */
  public boolean minds() {
    return scenario.watches().stream().anyMatch(it -> it.trigger() instanceof Trigger.Passing);
  }

  private void occur(int index, Scenario.Watch watch) {
    seen[index]++;
    if (watch.nth() == 0 || watch.nth() == seen[index]) {
      for (Scenario.Timed timed : watch.doings()) {
        later(now + timed.at(), () -> take(timed.doing()));
      }
    }
  }

  private void later(double time, Runnable work) {
    due.add(new Due(time, number++, work));
  }

  /** What was done and what failed, the first of it. */
  public List<Scenario.Timed> done() {
    return List.copyOf(done);
  }

  private void take(Doing doing) {
    if (done.size() < MOST_DONE) {
      done.add(new Scenario.Timed(now, doing));
    }
    if (doing instanceof Doing.Hold hold) {
      hold(hold);
    } else if (doing instanceof Doing.Leave leave) {
      held[leave.signal()] = Double.NaN;
      show(leave.signal());
    } else if (doing instanceof Doing.Perform perform) {
      perform(perform.act(), now - Math.min(0, perform.act().begins()));
    } else {
      faults.accept(doing);
    }
  }

  private void hold(Doing.Hold hold) {
    int signal = hold.signal();
    long own = ++number;
    held[signal] = hold.value();
    heldBy[signal] = own;
    show(signal);
    if (!Double.isInfinite(hold.lasts())) {
      later(now + hold.lasts(), () -> {
        if (heldBy[signal] == own) {
          held[signal] = Double.NaN;
          show(signal);
        }
      });
    }
  }

  private void perform(Act act, double at) {
    for (Act.Step step : act.steps()) {
      int signal = step.signal();
      long own = ++number;
      later(at + step.from(), () -> {
        acted[signal] = step.value();
        actedBy[signal] = own;
        show(signal);
      });
      later(at + step.to(), () -> {
        if (actedBy[signal] == own) {
          acted[signal] = Double.NaN;
          show(signal);
        }
      });
    }
  }
}
