package dev.pawl.run.change;

import dev.pawl.logic.LineWitness;
import dev.pawl.logic.ProgramLine;
import dev.pawl.report.compare.LineChange;
import dev.pawl.report.compare.LineChange.Effect;
import dev.pawl.report.compare.LineChange.Instant;
import dev.pawl.report.model.TraceResult;
import dev.pawl.run.change.ChangedLines.Change;
import dev.pawl.run.change.LineLog.Difference;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;

/** Two versions of a program, run over the same traces, and what their changed lines came to. */
public final class LineComparison {

  private final ChangedLines changed;
  private final List<ProgramLine> before;
  private final List<ProgramLine> after;
  private final Map<String, LineLog> logsBefore = new ConcurrentHashMap<>();
  private final Map<String, LineLog> logsAfter = new ConcurrentHashMap<>();

  public LineComparison(ChangedLines changed) {
    this.changed = changed;
    this.before = changed.watchedBefore();
    this.after = changed.watchedAfter();
  }

  /** To be shown what the lines of the earlier version come to in a run over a trace. */
  public LineWitness before(String trace) {
    return logsBefore.computeIfAbsent(trace, unused -> new LineLog(before.size()));
  }

  /** The same of the later version. */
  public LineWitness after(String trace) {
    return logsAfter.computeIfAbsent(trace, unused -> new LineLog(after.size()));
  }

  /** What became of each changed line in some traces together. */
  public List<LineChange> over(List<TraceResult> traces) {
    return changed.changes().stream().map(change -> over(change, traces)).toList();
  }

  private LineChange over(Change change, List<TraceResult> traces) {
    long ranBefore = 0;
    long ranAfter = 0;
    long differing = 0;
    List<Instant> first = new ArrayList<>();
    List<Instant> limit = new ArrayList<>();
    int old = change.statementBefore().map(before::indexOf).orElse(-1);
    int now = change.statementAfter().map(after::indexOf).orElse(-1);
    for (TraceResult trace : traces) {
      Optional<LineLog> earlier = log(logsBefore, trace, old);
      Optional<LineLog> later = log(logsAfter, trace, now);
      ranBefore += earlier.map(log -> log.ran(old)).orElse(0L);
      ranAfter += later.map(log -> log.ran(now)).orElse(0L);
      if (earlier.isPresent() && later.isPresent()) {
        Difference difference = earlier.get().difference(old, later.get(), now);
        differing += difference.scans();
        note(first, trace, difference.first());
        note(limit, trace, difference.until());
      }
    }
    return new LineChange(change.before(), change.after(), effect(old, now, ranBefore + ranAfter, differing), ranBefore,
        ranAfter, differing, first.stream().findFirst(), limit.stream().findFirst());
  }

  private static Optional<LineLog> log(Map<String, LineLog> logs, TraceResult trace, int line) {
    return line < 0 ? Optional.empty() : Optional.ofNullable(logs.get(trace.path()));
  }

  private static void note(List<Instant> instants, TraceResult trace, long time) {
    if (time != Long.MAX_VALUE) {
      instants.add(new Instant(trace.path(), trace.timeBase(), time));
    }
  }

  private static Effect effect(int old, int now, long ran, long differing) {
    if (old < 0 && now < 0) {
      return Effect.NO_STATEMENT;
    } else if (ran == 0) {
      return Effect.NEVER_RAN;
    } else if (old < 0 || now < 0) {
      return Effect.NO_PARTNER;
    }
    return differing > 0 ? Effect.DIFFERED : Effect.ALIKE;
  }
}
