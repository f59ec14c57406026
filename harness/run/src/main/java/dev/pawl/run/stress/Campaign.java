package dev.pawl.run.stress;

import dev.pawl.plant.loop.Truth;
import dev.pawl.plant.scenario.Scenario;
import dev.pawl.run.RunException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.Future;

/**
 * Many runs of one scenario with faults put into it. What it makes and finds depends on its seed and number of runs
 * alone, and not on how many threads work at it.
 *
 * @param base what happens without a fault
 * @param runs how many runs
 * @param seed of what is drawn
 * @param findings how many hazards are made small
 */
public record Campaign(Subject subject, Scenario base, int runs, long seed, int findings) {

  /** Runs that are made at a time; the search learns from them when all of them are there. */
  private static final int BATCH = 128;
  /** Hazards that are made small at a time. */
  private static final int AT_ONCE = 4;

  /** Whoever is told how far it has come. */
  public interface Listener {

    /** So many runs are there; false ends the campaign. */
    boolean reached(int runs, Tally tally);

    /** So many of the hazards have been made small. */
    boolean made(int hazards, int of);
  }

  /**
   * A hazard with the smallest run that shows it.
   *
   * @param scenario that run
   * @param faults what fails in it
   * @param count how many runs showed the like
   */
  public record Small(Truth.Kind kind, boolean noticed, String words, Scenario scenario, List<Injection> faults,
      long count, List<String> noticedBy) {}

  /**
   * A rule that was broken, with the smallest run that breaks it.
   *
   * @param faults what fails in it, or is done by people
   */
  public record Broken(int rule, Scenario scenario, List<Injection> faults) {

    /** Whether nothing fails in that run: people broke the rule, and the logic let them. */
    public boolean byPeople() {
      return faults.stream().allMatch(it -> it.candidate().people());
    }
  }

  /**
   * What a campaign came to.
   *
   * @param whole whether it came to its end
   * @param faultless what the run without a fault came to
   * @param broken rules that runs broke, those first that people broke
   */
  public record Outcome(boolean whole, RunResult faultless, Tally tally, List<Small> found, int sorts,
      List<Broken> broken) {}

  /** Runs it on so many threads. */
  public Outcome run(int jobs, RunLog<RunResult> log, Listener listener) {
    try (Crew crew = new Crew(jobs)) {
      return run(new OwnTeam(crew, maker(), log), listener);
    }
  }

  /** What fails in its runs, in an order that depends on the ride, the rules and the scenario alone. */
  List<Candidate> candidates() {
    List<Candidate> candidates = Catalogue.of(subject.ride(), subject.book(), base);
    if (candidates.isEmpty()) {
      throw new RunException("nothing of this ride can fail: it has no flags, equipment or inputs");
    }
    return candidates;
  }

  /** What makes its runs, here or elsewhere. */
  public Maker maker() {
    return new Maker(this);
  }

  /** Runs it; others make the runs. */
  public Outcome run(Team team, Listener listener) {
    List<Candidate> candidates = candidates();
    Draw draw = new Draw(candidates, 0, base.lasts(), subject.moments(base), seed, base.seed(), runs);
    Search search = new Search(draw, subject.book().rules().size());
    Tally tally = new Tally(subject.book().rules().size(), candidates);
    boolean goesOn = true;
    for (int from = 0; from < runs && goesOn; from += BATCH) {
      goesOn = batch(team, from, Math.min(runs, from + BATCH), draw, search, tally, listener);
    }
    Found found = goesOn ? made(team, tally, listener) : new Found(List.of(), false);
    List<Broken> broken = found.whole() && findings > 0 ? broken(team, tally) : List.of();
    return new Outcome(goesOn && found.whole(), team.faultless(), tally, found.small(), tally.sorts().size(), broken);
  }

  private record Found(List<Small> small, boolean whole) {}

  private boolean batch(Team team, int from, int to, Draw draw, Search search, Tally tally, Listener listener) {
    List<Trial> trials = new ArrayList<>();
    for (int number = from; number < to; number++) {
      trials.add(number < draw.size() ? draw.trial(number) : search.next(number));
    }
    List<Future<RunResult>> waiting = team.run(from, trials);
    for (int i = 0; i < trials.size(); i++) {
      RunResult result = Crew.get(waiting.get(i));
      tally.add(trials.get(i), result);
      search.learn(trials.get(i), result);
      if (!listener.reached(from + i + 1, tally)) {
        waiting.forEach(it -> it.cancel(false));
        return false;
      }
    }
    return true;
  }

  /** Makes each sort of hazards small once: what comes of another sort by the same kinds of faults is the same. */
  private Found made(Team team, Tally tally, Listener listener) {
    Map<String, Small> small = new TreeMap<>();
    List<Small> order = new ArrayList<>();
    List<Map.Entry<Tally.Sort, Tally.Example>> sorts = tally.sorts();
    int next = 0;
    while (order.size() < findings && next < sorts.size()) {
      List<Map.Entry<Tally.Sort, Tally.Example>> some = new ArrayList<>();
      while (some.size() < AT_ONCE && next < sorts.size()) {
        Map.Entry<Tally.Sort, Tally.Example> sort = sorts.get(next++);
        if (sort.getValue().trial.faults().size() < 2 || !isExplained(sort, small)) {
          some.add(sort);
        }
      }
      List<Future<Optional<Smallest.Small>>> waiting = new ArrayList<>();
      for (Map.Entry<Tally.Sort, Tally.Example> sort : some) {
        waiting.add(team.small(new Shown(sort.getValue().trial, new Sought.Hazard(sort.getKey().kind(), sort.getKey()
            .noticed()))));
      }
      for (int i = 0; i < some.size(); i++) {
        Optional<Smallest.Small> made = Crew.get(waiting.get(i));
        Tally.Sort sort = some.get(i).getKey();
        long count = some.get(i).getValue().count;
        made.filter(it -> order.size() < findings && !small.containsKey(key(sort,
            it.trial().kinds()))).ifPresent(it -> {
          Small one = small(sort, it, count);
          small.put(key(sort, it.trial().kinds()), one);
          order.add(one);
        });
      }
      if (!listener.made(order.size(), Math.min(findings, sorts.size()))) {
        return new Found(order, false);
      }
    }
    return new Found(order, true);
  }

  /** The smallest run for each rule that was broken. */
  private List<Broken> broken(Team team, Tally tally) {
    Map<Integer, Future<Optional<Smallest.Small>>> waiting = new TreeMap<>();
    for (int rule = 0; rule < subject.book().rules().size(); rule++) {
      Optional<Tally.Break> plainest = tally.plainest(rule);
      if (plainest.isPresent()) {
        waiting.put(rule, team.small(new Shown(plainest.get().trial(), new Sought.Break(rule))));
      }
    }
    List<Broken> broken = new ArrayList<>();
    waiting.forEach((rule, small) -> Crew.get(small).ifPresent(made -> broken.add(new Broken(rule, made.scenario()
        .entitled(subject.book().rules().get(rule).id() + " is broken"), made.trial().faults()))));
    broken.sort(Comparator.comparing(it -> !it.byPeople()));
    return broken;
  }

  /** Whether a smaller run already shows the like by some of the same kinds of faults. */
  private static boolean isExplained(Map.Entry<Tally.Sort, Tally.Example> sort, Map<String, Small> small) {
    List<String> kinds = sort.getValue().trial.kinds();
    return kinds.stream().anyMatch(kind -> small.containsKey(key(sort.getKey(), List.of(kind))))
        || small.containsKey(key(sort.getKey(), List.of()));
  }

  private static String key(Tally.Sort sort, List<String> kinds) {
    return sort.kind() + " " + sort.noticed() + " " + kinds;
  }

  private Small small(Tally.Sort sort, Smallest.Small made, long count) {
    List<String> noticedBy = new ArrayList<>();
    for (int rule = 0; rule < made.result().broken().length; rule++) {
      if (made.result().isBroken(rule)) {
        noticedBy.add(subject.book().rules().get(rule).id());
      }
    }
    String words = made.result().first(sort.kind(), sort.noticed()).orElseThrow().words();
    return new Small(sort.kind(), sort.noticed(), words, made.scenario().entitled(words + (sort.noticed() ? ""
        : ", and no rule noticed it")), made.trial().faults(), count, noticedBy);
  }
}
