package dev.pawl.report.picture;

import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TraceResult;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;

/**
 * Which pictures of a run are kept: enough of each rule for its section, however many traces break it. A picture takes
 * more memory than all else that is known of a finding.
 */
public final class PictureBudget {

  /** Findings of a rule that are shown with all that belongs to them, over all traces. */
  public static final int MOST_SHOWN = 5;
  /** Further findings of a rule that are named in a line. */
  private static final int MOST_NAMED = 10;
  /** Such findings of a whole report, unless one of each rule are more: what a browser prints in seconds. */
  private static final int SHOWN_OF_A_REPORT = 150;
  private static final int NAMED_OF_A_REPORT = 400;
  /** Of them those of one trace, where several have some. */
  public static final int MOST_OF_A_TRACE = 2;

  private static final int ENOUGH = MOST_SHOWN + 2 * MOST_OF_A_TRACE;

  private final Map<Integer, Integer> taken = new HashMap<>();

  /**
   * How many findings of a rule its section has.
   *
   * @param shown with all that belongs to them
   * @param named in a line
   */
  public record Share(int shown, int named) {}

  /** What a rule gets in a report in which so many rules have findings. */
  public static Share share(long rules) {
    return new Share(share(MOST_SHOWN, SHOWN_OF_A_REPORT, rules), share(MOST_NAMED, NAMED_OF_A_REPORT, rules));
  }

  private static int share(int most, int ofAll, long rules) {
    return (int) Math.max(1, Math.min(most, ofAll / Math.max(1, rules)));
  }

  /** The next trace's result with no more pictures than are still wanted. */
  public TraceResult within(TraceResult result) {
    return result.withRules(result.rules().stream().map(this::within).toList());
  }

  private RuleResult within(RuleResult rule) {
    int before = taken.getOrDefault(rule.rule().index(), 0);
    int room = before == 0 ? MOST_SHOWN : before < ENOUGH ? MOST_OF_A_TRACE : 0;
    List<FindingResult> broken = kept(rule.broken(), room);
    List<FindingResult> doubtful = kept(rule.doubtful(), room);
    long drawn = Math.max(drawn(broken), drawn(doubtful));
    taken.merge(rule.rule().index(), (int) drawn, Integer::sum);
    return new RuleResult(rule.rule(), rule.obligations(), rule.margin(), rule.seen(), broken, doubtful);
  }

  private static List<FindingResult> kept(List<FindingResult> findings, int room) {
    return IntStream.range(0, findings.size())
        .mapToObj(i -> i < room ? findings.get(i) : findings.get(i).withoutPicture()).toList();
  }

  private static long drawn(List<FindingResult> findings) {
    return findings.stream().filter(finding -> finding.picture().isPresent()).count();
  }
}
