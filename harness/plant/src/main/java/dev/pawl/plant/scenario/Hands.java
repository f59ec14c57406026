package dev.pawl.plant.scenario;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.PriorityQueue;

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
  private final Failing failing;
  private final Taken taken = new Taken();
  private final PriorityQueue<Due> due = new PriorityQueue<>();
  private final double[] habitSince;
  private final List<Waiting> waiting;
  private final List<Scenario.Timed> done = new ArrayList<>();
  private long number;
  private double now;

  /** Whoever is told of what fails and is mended, and of power cuts. */
  public interface Failing {
    void fail(Doing.Fail it);

    void swap(Doing.Swap it);

    void cut(Doing.Cut it);
  }

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
   */
  public Hands(Scenario scenario, double[] image, Failing failing) {
    this.scenario = scenario;
    this.image = image;
    this.failing = failing;
    base = image.clone();
    acted = new double[image.length];
    held = new double[image.length];
    Arrays.fill(acted, Double.NaN);
    Arrays.fill(held, Double.NaN);
    actedBy = new long[image.length];
    heldBy = new long[image.length];
    habitSince = nan(scenario.desk().habits().size());
    waiting = scenario.watches().stream().map(this::waiting).toList();
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
    for (int i = 0; i < waiting.size(); i++) {
      waiting.get(i).look();
    }
    while (!due.isEmpty() && due.peek().time <= now + NEAR) {
      due.poll().work.run();
    }
    for (int i = 0; i < waiting.size(); i++) {
      waiting.get(i).done();
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

  private Waiting waiting(Scenario.Watch watch) {
    return watch.trigger().match(edge -> new Waiting(watch) {
      private double before = Double.NaN;

      @Override
      void look() {
        double value = image[edge.signal()];
        boolean turned = !Double.isNaN(before) && value != before;
        if (turned && value != 0 == edge.rises()) {
          occur();
        }
      }

      @Override
      void done() {
        before = image[edge.signal()];
      }
    }, passing -> new Waiting(watch) {
      @Override
      boolean mindsTrains() {
        return true;
      }

      @Override
      void passed(int track, double from, double to) {
        if (passing.track() == track && (passing.forward() ? from < passing.place() && to >= passing.place()
            : from > passing.place() && to <= passing.place())) {
          occur();
        }
      }
    }, lasting -> new Waiting(watch) {
      private double since = Double.NaN;
      private boolean told;

      @Override
      void look() {
        if (!lasting.condition().holds(image)) {
          since = Double.NaN;
          told = false;
        } else if (Double.isNaN(since)) {
          since = now;
        }
        if (!told && now - since >= lasting.condition().lasts() - NEAR) {
          told = true;
          occur();
        }
      }
    });
  }

  /** A watch of the scenario, with what it has seen. */
  private abstract class Waiting {

    private final Scenario.Watch watch;
    private int seen;

    Waiting(Scenario.Watch watch) {
      this.watch = watch;
    }

    /** Looks at the signals, at the start of a scan. */
    void look() {}

    /** All of the scan has been done. */
    void done() {}

    boolean mindsTrains() {
      return false;
    }

    /** A train's nose has come from one place of a track to another. */
    void passed(int track, double from, double to) {}

    final void occur() {
      seen++;
      if (watch.nth() == 0 || watch.nth() == seen) {
        for (Scenario.Timed timed : watch.doings()) {
          later(now + timed.at(), () -> take(timed.doing()));
        }
      }
    }
  }

  /** A train's nose has come from one place of a track to another by a time. */
  public void passed(int track, double from, double to, double time) {
    now = time;
    for (int i = 0; i < waiting.size(); i++) {
      waiting.get(i).passed(track, from, to);
    }
  }

  /** Whether anybody waits for trains to pass a place. */
  public boolean minds() {
    return waiting.stream().anyMatch(Waiting::mindsTrains);
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
    doing.accept(taken);
  }

  /** Does what people do, and tells of the rest. */
  private final class Taken implements Doing.Visitor<Void> {

    @Override
    public Void visit(Doing.Hold it) {
      int signal = it.signal();
      long own = ++number;
      held[signal] = it.value();
      heldBy[signal] = own;
      show(signal);
      if (!Double.isInfinite(it.lasts())) {
        later(now + it.lasts(), () -> {
          if (heldBy[signal] == own) {
            leave(signal);
          }
        });
      }
      return null;
    }

    @Override
    public Void visit(Doing.Leave it) {
      leave(it.signal());
      return null;
    }

    @Override
    public Void visit(Doing.Perform it) {
      perform(it.act(), now - Math.min(0, it.act().begins()));
      return null;
    }

    @Override
    public Void visit(Doing.Fail it) {
      failing.fail(it);
      return null;
    }

    @Override
    public Void visit(Doing.Swap it) {
      failing.swap(it);
      return null;
    }

    @Override
    public Void visit(Doing.Cut it) {
      failing.cut(it);
      return null;
    }
  }

  private void leave(int signal) {
    held[signal] = Double.NaN;
    show(signal);
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
