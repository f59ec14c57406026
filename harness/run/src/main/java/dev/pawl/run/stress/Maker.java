package dev.pawl.run.stress;

import dev.pawl.plant.scenario.Scenario;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.StringJoiner;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Makes single runs of a campaign, and puts them and what they come to into words, so that they can be made elsewhere.
 * Words hold for one campaign; numbers in them are exact.
 */
public final class Maker {

  private static final String BETWEEN = "\t";

  private final Campaign campaign;
  private final List<Candidate> candidates;
  private final RunResult faultless;
  /** Rules that are broken without any fault. */
  private final BitSet ignored;

  /** Makes the run without a fault first. */
  Maker(Campaign campaign) {
    this.campaign = campaign;
    candidates = campaign.candidates();
    faultless = campaign.subject().run(campaign.base(), new BitSet());
    ignored = new BitSet();
    for (int rule = 0; rule < faultless.broken().length; rule++) {
      ignored.set(rule, faultless.isBroken(rule));
    }
  }

  /** What the run without a fault came to. */
  public RunResult faultless() {
    return faultless;
  }

  RunResult run(Trial trial) {
    return campaign.subject().run(trial.in(campaign.base(), campaign.base().lasts()), ignored);
  }

  Optional<Smallest.Small> small(Shown shown) {
    return Smallest.of(campaign.subject(), ignored, campaign.base(), shown.trial(), shown.sought());
  }

  /** Makes the run that {@link #words(Trial)} gave; the result as {@link RunResult#line}. */
  public String run(String words) {
    return run(trial(words)).line();
  }

  /** Makes what {@link #words(Shown)} gave small; {@link #smallest} reads what comes of it. */
  public String small(String words) {
    String[] parts = words.split(BETWEEN, 2);
    return small(new Shown(trial(parts[1]), Sought.of(parts[0]))).map(this::words).orElse("");
  }

  /** A run. */
  public String words(Trial trial) {
    StringJoiner words = new StringJoiner(" ");
    words.add("" + trial.seed());
    for (Injection fault : trial.faults()) {
      words.add(candidates.indexOf(fault.candidate()) + ":" + fault.at() + ":" + fault.amount() + ":" + fault.span());
    }
    return words.toString();
  }

  private Trial trial(String words) {
    String[] parts = words.split(" ");
    List<Injection> faults = new ArrayList<>();
    for (String part : List.of(parts).subList(1, parts.length)) {
      String[] numbers = part.split(":");
      faults.add(new Injection(candidates.get(Integer.parseInt(numbers[0])), Double.parseDouble(numbers[1]),
          Double.parseDouble(numbers[2]), Double.parseDouble(numbers[3])));
    }
    return new Trial(faults, Long.parseLong(parts[0]));
  }

  /** A run to be made small. */
  public String words(Shown shown) {
    return String.join(BETWEEN, shown.sought().words(), words(shown.trial()));
  }

  /** What remained of the base scenario says all of the smallest one, together with the faults in it. */
  private String words(Smallest.Small small) {
    Scenario base = campaign.base();
    return String.join(BETWEEN, words(small.trial()), "" + small.scenario().lasts(), kept(base.script(), small.base()
        .script()), kept(base.watches(), small.base().watches()), hazards(small.result()), small.result()
            .line());
  }

  /** What the hazards are called, which {@link RunResult#line} leaves out. */
  private static String hazards(RunResult result) {
    return result.hazards().stream().map(it -> it.words().replaceAll("[\t;]", ",")).collect(Collectors.joining(";"));
  }

  /** Which of all are among some, which come in the same order. */
  private static <T> String kept(List<T> all, List<T> some) {
    StringJoiner kept = new StringJoiner(" ");
    int next = 0;
    for (int i = 0; i < all.size() && next < some.size(); i++) {
      if (all.get(i) == some.get(next)) {
        kept.add("" + i);
        next++;
      }
    }
    return kept.toString();
  }

  private static <T> List<T> kept(List<T> all, String words) {
    return words.isEmpty() ? List.of()
        : Stream.of(words.split(" ")).map(word -> all.get(Integer.parseInt(word))).toList();
  }

  /** What {@link #small(String)} came to. */
  public Optional<Smallest.Small> smallest(String words) {
    if (words.isEmpty()) {
      return Optional.empty();
    }
    String[] parts = words.split(BETWEEN, 6);
    Scenario base = campaign.base();
    Scenario rest = new Scenario(base.name(), base.title(), base.lasts(), base.starts(), base.seed(), base.desk(), kept(
        base.script(), parts[2]), kept(base.watches(), parts[3]));
    Trial trial = trial(parts[0]);
    RunResult result = RunResult.of(parts[5], campaign.subject().book().rules().size()).orElseThrow()
        .named(List.of(parts[4].split(";")));
    return Optional.of(new Smallest.Small(trial.in(rest, Double.parseDouble(parts[1])), rest, trial, result));
  }
}
