package dev.pawl.engine.judge;

import dev.pawl.engine.RuleOutcome;
import dev.pawl.engine.Tried;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.Node;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.OptionalLong;
import java.util.function.Supplier;

/** A node that judges one rule. Nothing depends on it. */
public abstract class Judge extends Node {

  final Tally tally = new Tally();
  final Margins margins;
  final CaseFile cases;
  private final int rule;
  private List<Supplier<Tried>> trials = List.of();
  private List<Trial> followed = List.of();
  private final List<Reliance> reliances = new ArrayList<>();
  private long[] counts;
  private long doubtedUntil = Moments.NEVER;

  Judge(int rule, CaseFile cases, String marginUnit) {
    this.rule = rule;
    this.cases = cases;
    this.margins = new Margins(marginUnit);
  }

  /**
   * Has the outcome tell of trials: of those that are followed, and with null of those by the rule's own trigger.
   * Called once.
   */
  public final void tellOf(List<Trial> stated) {
    followed = stated.stream().filter(Objects::nonNull).toList();
    trials = stated.stream().<Supplier<Tried>>map(trial -> trial == null ? this::triedByTrigger : trial::tried)
        .toList();
  }

  /** The unit of its margins. */
  public final String marginUnit() {
    return margins.unit();
  }

  /** Has its margins counted by their shares of what the rule allows, in their unit; by NaN they are not. */
  public final void measureBy(double allowed) {
    margins.measureBy(allowed);
  }

  private Tried triedByTrigger() {
    return new Tried(tally.met, OptionalLong.empty());
  }

  /** What has to be told of a zone's count, in which parts of the rule rest. To be called after {@link #tellOf}. */
  public final Reliance relyOnZone(Reliance.Reader reader) {
    counts = new long[1 + followed.size()];
    Reliance reliance = new Reliance(this, reader, counts.length);
    reliances.add(reliance);
    return reliance;
  }

  /** Whether the rule had begun before a moment. */
  abstract boolean hasBegunBefore(long moment);

  final void noteCounts(long[] noted) {
    noted[0] = tally.met;
    for (int i = 0; i < followed.size(); i++) {
      noted[i + 1] = followed.get(i).times();
    }
  }

  /** A zone's count was found wrong: what has counted since then counts no longer, nor does what began before it. */
  final void takeBack(long[] remaining, Reliance.Reader reader, long moment) {
    for (int i = 0; i < followed.size(); i++) {
      followed.get(i).takeBack(remaining[i + 1], moment);
    }
    if (reader != Reliance.Reader.TRIALS) {
      tally.miscounted += tally.met - remaining[0];
      tally.met = remaining[0];
      doubtedUntil = moment;
    }
    if (reader == Reliance.Reader.OCCASION && hasBegunBefore(moment)) {
      tally.miscounted++;
    }
    noteCounts(counts);
    reliances.forEach(reliance -> reliance.lower(counts));
  }

  /** Counts what was met from a moment on. */
  final void countMet(long from) {
    if (from <= doubtedUntil) {
      tally.miscounted++;
    } else {
      tally.met++;
    }
  }

  private long unconfirmed() {
    return reliances.stream().mapToLong(reliance -> reliance.unconfirmed(tally.met)).max().orElse(0);
  }

  /** Ends what is still waiting; {@code last} is the last moment of the trace, which has been evaluated. */
  public abstract void finish(long last);

  /** What the trace said about the rule. To be asked after {@link #finish}. */
  public RuleOutcome outcome() {
    return new RuleOutcome(rule, tally.obligations(), margins.margin(), margins.spread(), trials.stream()
        .map(Supplier::get).toList(), unconfirmed(), tally.watched);
  }
}
