package dev.pawl.run;

import dev.pawl.report.model.TimeBase;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.words.TimeText;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/** Whether traces that were judged each for itself look like files of one session. */
final class OneSession {

  /** A logger that begins a new file goes on at once. */
  private static final long CLOSE = 60_000_000_000L;

  private OneSession() {}

  /** What to say of the first two that do: dates, of which one begins where the other ends or runs beside it. */
  static Optional<String> hint(List<TraceResult> results) {
    List<TraceResult> dated = results.stream().filter(result -> result.timeBase().kind() == TimeBase.Kind.EPOCH
        && !result.rules().isEmpty())
        .sorted(Comparator.comparingLong(TraceResult::start)).toList();
    for (int i = 1; i < dated.size(); i++) {
      TraceResult before = dated.get(i - 1);
      long gap = dated.get(i).start() - before.end();
      if (gap < CLOSE && before.start() < before.end()) {
        return Optional.of(dated.get(i).path() + (gap >= 0 ? " begins " + TimeText.duration(gap) + " after the end of "
            : " overlaps in time with ") + before.path()
            + ", and each was judged for itself. If they are files of one session, say so in a bindings file,"
            + " under 'session': joined");
      }
    }
    return Optional.empty();
  }
}
