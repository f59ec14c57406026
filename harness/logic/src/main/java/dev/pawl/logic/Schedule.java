package dev.pawl.logic;

import dev.pawl.grammar.logic.model.Task;
import java.util.ArrayList;
import java.util.List;

/**
 * Which task runs next, and when. Tasks that fall due together run in the order of their priorities, and else as they
 * are declared. A run takes no time unless it runs long; then it holds up what is not more urgent on its processor,
 * while more urgent tasks interrupt it. Nothing is allocated from run to run.
 */
final class Schedule {

  private static final long NEVER = Long.MAX_VALUE;

  /** So that the draws of one task are not those of another; the first task's are those of the seed itself. */
  private static final long APART = 0x9E3779B97F4A7C15L;

  private final List<Task> tasks;
  private final ScanClock[] clocks;
  private final long[] due;
  private final long[] runs;
  private final int[] single;
  private final boolean[] periodic;
  private final boolean[] risen;
  private final boolean[] raised;
  private final long[] busyUntil;
  private final boolean[][] holdsUp;
  private final boolean edges;
  private int next;
  private long started;

  Schedule(List<Task> tasks, ScanOptions options) {
    this.tasks = tasks;
    int count = tasks.size();
    this.clocks = new ScanClock[count];
    this.due = new long[count];
    this.runs = new long[count];
    this.single = new int[count];
    this.periodic = new boolean[count];
    this.risen = new boolean[count];
    this.raised = new boolean[count];
    this.busyUntil = new long[count];
    this.holdsUp = new boolean[count][count];
    boolean any = false;
    for (int i = 0; i < count; i++) {
      Task task = tasks.get(i);
      clocks[i] = new ScanClock(options.period(task), options.pace(task), options.seed() + i * APART);
      single[i] = task.single().orElse(0);
      periodic[i] = task.periodic();
      any |= task.single().isPresent();
      for (int other = 0; other < count; other++) {
        holdsUp[i][other] = other != i && task.resource().equals(tasks.get(other).resource())
            && tasks.get(other).priority() >= task.priority();
      }
    }
    this.edges = any;
  }

  /** The power is on for the first time. */
  void start(long time) {
    started = time;
    for (int i = 0; i < due.length; i++) {
      due[i] = periodic[i] ? clocks[i].start(time) : NEVER;
    }
    choose();
  }

  /** The power is on again; what SINGLE shows now is no edge. */
  void restart(long time, long[] words) {
    for (int i = 0; i < due.length; i++) {
      due[i] = periodic[i] ? clocks[i].from(time) : NEVER;
      busyUntil[i] = 0;
      raised[i] = false;
      risen[i] = single[i] != 0 && words[single[i]] != 0;
    }
    choose();
  }

  /** When the next task runs, nanoseconds. */
  long next() {
    return due[next];
  }

  /** Which task that is. */
  int task() {
    return next;
  }

  /** Whether a task that is started by an edge must wait for its SINGLE to fall. */
  boolean held(long[] words) {
    return periodic[next] && single[next] != 0 && !raised[next] && words[single[next]] != 0;
  }

  /** Looks for edges that start a task, at that time; what is so from the start on is none. */
  void look(long time, long[] words) {
    if (!edges) {
      return;
    }
    boolean found = false;
    for (int i = 0; i < due.length; i++) {
      if (single[i] != 0) {
        boolean now = words[single[i]] != 0;
        if (now && !risen[i] && time > started) {
          if (raised[i]) {
            clocks[i].skip();
          } else {
            raised[i] = true;
            due[i] = clocks[i].late(time);
            found = true;
          }
        }
        risen[i] = now;
      }
    }
    if (found) {
      delay();
      choose();
    }
  }

  /**
   * The task that was next has run at its time, or was held.
   *
   * @param ran whether it ran
   */
  void done(long time, boolean ran) {
    int task = next;
    long end = ran ? clocks[task].end(time) : time;
    runs[task] += ran ? 1 : 0;
    raised[task] = false;
    due[task] = periodic[task] ? clocks[task].from(end) : NEVER;
    if (end > time) {
      busyUntil[task] = end;
      delay();
    }
    choose();
  }

  /** Nothing begins while something more urgent, or as urgent, on the same processor runs long. */
  private void delay() {
    for (int i = 0; i < due.length; i++) {
      for (int other = 0; other < due.length; other++) {
        if (holdsUp[i][other] && due[other] < busyUntil[i]) {
          due[other] = busyUntil[i];
        }
      }
      if (due[i] < busyUntil[i]) {
        due[i] = busyUntil[i];
      }
    }
  }

  private void choose() {
    next = 0;
    for (int i = 1; i < due.length; i++) {
      if (due[i] < due[next]) {
        next = i;
      }
    }
  }

  long runs() {
    long all = 0;
    for (long each : runs) {
      all += each;
    }
    return all;
  }

  /** How each task fared. */
  List<LogicOutcome.TaskRuns> outcome() {
    List<LogicOutcome.TaskRuns> outcome = new ArrayList<>();
    for (int i = 0; i < due.length; i++) {
      outcome.add(new LogicOutcome.TaskRuns(tasks.get(i).path(), runs[i], clocks[i].overruns(), clocks[i].skipped()));
    }
    return outcome;
  }
}
