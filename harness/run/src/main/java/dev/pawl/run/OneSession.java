package dev.pawl.run;

import dev.pawl.report.model.TimeBase;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.words.TimeText;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** Whether traces that were judged each for itself look like files of one session. */
final class OneSession {

  /** A logger that begins a new file goes on at once. */
  private static final long CLOSE = 60_000_000_000L;

  private OneSession() {}

  /**
   * What to say of the first two that do: dates, of which one begins where the other ends, or runs beside it and has
   * signals that the other lacks, as the other has.
   */
  static Optional<String> hint(List<TraceResult> results) {
    List<TraceResult> dated = results.stream().filter(result -> result.timeBase().kind() == TimeBase.Kind.EPOCH
        && !result.rules().isEmpty())
        .sorted(Comparator.comparingLong(TraceResult::start)).toList();
    for (int i = 1; i < dated.size(); i++) {
      TraceResult before = dated.get(i - 1);
      long gap = dated.get(i).start() - before.end();
      if (before.start() < before.end() && (gap >= 0 ? gap < CLOSE : complete(before, dated.get(i)))) {
        return Optional.of(dated.get(i).path() + (gap >= 0 ? " begins " + TimeText.duration(gap) + " after the end of "
            : " overlaps in time with ") + before.path()
            + ", and each was judged for itself. If they are files of one session, say so in a bindings file,"
            + " under 'session': joined");
      }
    }
    return Optional.empty();
  }

  /**
   * Whether each has signals that the other lacks. Where both have all, they are rides of their own, whose clocks
   * happen to agree.
   */
  private static boolean complete(TraceResult one, TraceResult other) {
    Set<String> lacking = lacking(one);
    Set<String> lackingThere = lacking(other);
    return !lacking.containsAll(lackingThere) && !lackingThere.containsAll(lacking);
  }

  private static Set<String> lacking(TraceResult result) {
    return result.rules().stream().flatMap(rule -> rule.seen().unseen().stream()).collect(Collectors.toSet());
  }
}
