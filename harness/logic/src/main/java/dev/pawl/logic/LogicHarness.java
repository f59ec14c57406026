package dev.pawl.logic;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.logic.SignalBinding.Link;
import dev.pawl.logic.runtime.LogicMemory;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * A program between a trace and its judge: takes the trace's events, runs the scans that fall due between them, and
 * passes inputs at their own times and outputs at the times of scans to the judge, all in order of time. A scan sees
 * the last value of each input at or before its time. The line of an event that the program causes is a
 * {@link ProgramLine}.
 */
public final class LogicHarness implements EventSink {

  private static final int MOST_ERRORS = 100;

  private final SignalBinding binding;
  private final ScanOptions options;
  private final EventSink judge;
  private final ScanMachine machine;
  private final LogicMemory memory;
  private final Schedule schedule;
  private final Link[] outputs;
  private final long[] told;
  private final long[] setAt;
  private final long[] unseen;
  private final long[] firstUnseen;
  /** By signal index, the tasks that read it. */
  private final int[][] readers;
  private final Link[] rewritten;
  private final long[] given;
  private final boolean[] isGiven;
  private final long[] lastRuns;
  private final List<LogicError> errors = new ArrayList<>();
  private LineWitness lines = LineWitness.NONE;
  private boolean started;
  private boolean stopped;
  private long stopTime;
  private boolean tellAll = true;
  private final List<ScanOptions.Outage> outages;
  private int outage;
  private boolean off;
  private long errorCount;
  private long replaced;
  private long unknownInputs;

  /**
   * A harness for one trace.
   *
   * @param program compiled with {@code binding.recorded()}
   * @param binding of the program to the rule book whose signals the events bear
   */
  public LogicHarness(LogicProgram program, SignalBinding binding, RuleBook book, ScanOptions options,
      EventSink judge) {
    if (!binding.isSound()) {
      throw new IllegalArgumentException("the program does not fit the signals of " + book.ride());
    }
    this.binding = binding;
    this.options = options;
    this.outages = new ArrayList<>(options.outages());
    this.judge = judge;
    this.machine = new ScanMachine(program);
    this.memory = machine.memory();
    this.schedule = new Schedule(program.program().tasks(), options);
    this.outputs = binding.outputs().toArray(Link[]::new);
    this.told = new long[outputs.length];
    this.setAt = new long[book.signals().size()];
    this.unseen = new long[setAt.length];
    this.firstUnseen = new long[setAt.length];
    TaskAccess access = new TaskAccess(program.program());
    this.readers = new int[setAt.length][0];
    binding.inputs().forEach(link -> readers[link.signal()] = access.readers(link.address()));
    this.rewritten = binding.inputs().stream().filter(link -> access.writers(link.address()).length > 0)
        .toArray(Link[]::new);
    this.given = new long[setAt.length];
    this.isGiven = new boolean[setAt.length];
    this.lastRuns = new long[program.program().tasks().size()];
  }

  /** After each scan a witness is shown what the watched lines of the program came to. */
  public void show(LineWitness witness) {
    lines = witness;
  }

  /** Cuts the power, beside the cuts that the options have; cuts that touch are one. */
  public void cut(ScanOptions.Outage cut) {
    long start = cut.start();
    long end = cut.end();
    ScanOptions.Restart restart = cut.restart();
    int place = outage;
    for (int i = outages.size() - 1; i >= outage; i--) {
      ScanOptions.Outage other = outages.get(i);
      if (other.start() <= end && start <= other.end()) {
        start = Math.min(start, other.start());
        end = Math.max(end, other.end());
        restart = other.restart() == ScanOptions.Restart.COLD ? other.restart() : restart;
        outages.remove(i);
      } else if (other.start() < start) {
        place = Math.max(place, i + 1);
      }
    }
    outages.add(Math.min(place, outages.size()), new ScanOptions.Outage(start, end, restart));
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    begin(time);
    runBefore(time);
    Link link = binding.link(signal);
    if (link == null) {
      judge.event(time, signal, value, line);
    } else if (link.input()) {
      if (value == UNKNOWN) {
        unknownInputs++;
      } else {
        put(link, time, link.conversion().toWord(value));
        schedule.look(time, memory.words);
      }
      judge.event(time, signal, value, line);
    } else {
      replaced++;
    }
  }

  /** Sets an input; a state that ends before a run that reads it has begun since it came was never seen. */
  private void put(Link link, long time, long word) {
    int signal = link.signal();
    long slot = memory.words[link.address()];
    long before = link.variable().of(slot);
    if (word != before && link.conversion().states()) {
      if (!off && !stopped && setAt[signal] < time && isUnseen(signal)) {
        if (unseen[signal]++ == 0) {
          firstUnseen[signal] = setAt[signal];
        }
      }
      setAt[signal] = time;
    }
    memory.words[link.address()] = link.variable().into(slot, word);
    given[signal] = word;
    isGiven[signal] = true;
  }

  /** Inputs that the program writes are read anew before each run. */
  private void readAnew() {
    for (Link link : rewritten) {
      if (isGiven[link.signal()]) {
        memory.words[link.address()] = link.variable().into(memory.words[link.address()], given[link.signal()]);
      }
    }
  }

  private boolean isUnseen(int signal) {
    for (int task : readers[signal]) {
      if (setAt[signal] <= lastRuns[task]) {
        return false;
      }
    }
    return readers[signal].length > 0;
  }

  @Override
  public void advanceTo(long time) {
    begin(time);
    runBefore(time);
    judge.advanceTo(time);
  }

  private void begin(long time) {
    if (!started) {
      started = true;
      Arrays.fill(lastRuns, time - 1);
      Arrays.fill(setAt, Long.MIN_VALUE);
      schedule.start(time);
    }
  }

  /** When a run-time error stopped the program, nanoseconds; {@link Long#MAX_VALUE} while it runs. */
  public long stoppedAt() {
    return stopped ? stopTime : Long.MAX_VALUE;
  }

  /**
   * Runs the scans up to the end of the trace, that time included. The judge is finished by its owner.
   *
   * @param end nanoseconds, not before the last event
   */
  public LogicOutcome finish(long end) {
    if (started) {
      runBefore(end + 1);
    }
    List<LogicOutcome.TaskRuns> tasks = schedule.outcome();
    return new LogicOutcome(schedule.runs(), tasks.stream().mapToLong(LogicOutcome.TaskRuns::overruns).sum(),
        tasks.stream().mapToLong(LogicOutcome.TaskRuns::skipped).sum(), errorCount, errors, replaced, unknownInputs,
        tasks, missed());
  }

  private List<LogicOutcome.Missed> missed() {
    List<LogicOutcome.Missed> missed = new ArrayList<>();
    for (int signal = 0; signal < unseen.length; signal++) {
      if (unseen[signal] > 0) {
        missed.add(new LogicOutcome.Missed(signal, unseen[signal], firstUnseen[signal]));
      }
    }
    return missed;
  }

  /** Runs all scans and power cuts due before a time; none at that time, since its inputs are not complete yet. */
  private void runBefore(long time) {
    while (true) {
      boolean cuts = outage < outages.size();
      long change = cuts ? off ? outages.get(outage).end() : outages.get(outage).start()
          : Long.MAX_VALUE;
      if (cuts && change < time && (off || change <= schedule.next())) {
        switchPower(change);
      } else if (!off && !stopped && schedule.next() < time) {
        scan();
      } else {
        return;
      }
    }
  }

  private void switchPower(long time) {
    if (!off) {
      off = true;
      tellFirstValues(time);
      return;
    }
    if (outages.get(outage).restart() == ScanOptions.Restart.WARM) {
      restart(true);
    } else {
      restart(false);
    }
    off = false;
    stopped = false;
    outage++;
    schedule.restart(time, memory.words);
  }

  /** Restarts the program; its inputs are what the hardware shows, not first values. */
  private void restart(boolean warm) {
    long[] inputs = memory.words.clone();
    if (warm) {
      machine.warmRestart();
    } else {
      machine.coldRestart();
    }
    binding.inputs().forEach(link -> memory.words[link.address()] = inputs[link.address()]);
  }

  private void scan() {
    long time = schedule.next();
    if (schedule.held(memory.words)) {
      schedule.done(time, false);
      return;
    }
    lastRuns[schedule.task()] = time;
    readAnew();
    Optional<LogicError> error = machine.run(schedule.task(), time);
    lines.scanned(time, memory.lines);
    lines.scanned(time, machine);
    if (error.isPresent()) {
      fail(error.get());
    }
    if (stopped) {
      tellFirstValues(time);
    } else {
      tell(time);
    }
    schedule.done(time, true);
    schedule.look(time, memory.words);
  }

  private void fail(LogicError error) {
    errorCount++;
    if (errors.size() < MOST_ERRORS) {
      errors.add(error);
    }
    stopped = options.onError() == ScanOptions.OnError.STOP;
    stopTime = error.time();
  }

  /** Tells the judge of outputs that changed. */
  private void tell(long time) {
    for (int i = 0; i < outputs.length; i++) {
      Link link = outputs[i];
      long word = link.variable().of(memory.words[link.address()]);
      if (word != told[i] || tellAll) {
        told[i] = word;
        judge.event(time, link.signal(), link.conversion().toValue(word),
            ProgramLine.encoded(memory.writers[link.address()]));
      }
    }
    tellAll = false;
  }

  /** Tells the judge that all outputs are at their first values: the controller is without power or has stopped. */
  private void tellFirstValues(long time) {
    for (int i = 0; i < outputs.length; i++) {
      Link link = outputs[i];
      long word = link.variable().of(memory.initialWords[link.address()]);
      if (word != told[i] || tellAll) {
        told[i] = word;
        judge.event(time, link.signal(), link.conversion().toValue(word), 0);
      }
    }
    tellAll = false;
  }
}
