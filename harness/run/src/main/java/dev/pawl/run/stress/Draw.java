package dev.pawl.run.stress;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.random.RandomGenerator;
import java.util.SplittableRandom;

/**
 * The runs that a campaign makes whatever they show: one without a fault, then each fault at instants spread over the
 * run, then pairs of faults so that every two kinds meet, then any number of faults at random. Every second instant is
 * one at which something happens in the run without a fault, or lies beside it. Each run is known by its number.
 */
final class Draw {

  /** Two faults of a pair are mostly this near, seconds. */
  private static final double NEAR = 30;
  private static final int MOST_FAULTS = 4;
  private static final double GOLDEN = 0.6180339887498949;
  /** Where a fault begins beside something that happens, seconds from that. */
  private static final double[] BESIDE = {0, 0.05, -0.05, 0.5, -0.5};

  private final List<Candidate> candidates;
  private final List<List<Candidate>> kinds;
  private final double from;
  private final double lasts;
  private final double[] moments;
  private final long seed;
  private final long ownSeed;
  private final int singles;
  private final int pairs;
  private final int randoms;

  /**
   * A draw for a number of runs, of which a sixth is left to the search.
   *
   * @param from seconds, when the first fault may begin
   * @param moments seconds, when something happens without a fault; in order
   * @param seed of what is drawn
   * @param ownSeed of the base scenario
   */
  Draw(List<Candidate> all, double from, double lasts, double[] moments, long seed, long ownSeed, int runs) {
    Map<String, List<Candidate>> byKind = new LinkedHashMap<>();
    all.forEach(it -> byKind.computeIfAbsent(it.kind(), unused -> new ArrayList<>()).add(it));
    this.kinds = List.copyOf(byKind.values());
    this.candidates = inTurns(kinds);
    this.from = from;
    this.lasts = lasts;
    this.moments = moments;
    this.seed = seed;
    this.ownSeed = ownSeed;
    int rest = Math.max(0, runs - 1);
    singles = (rest + 1) / 2;
    pairs = rest / 6;
    randoms = rest / 6;
  }

  /** One of each kind, then another of each, so that a short campaign has met all kinds. */
  private static List<Candidate> inTurns(List<List<Candidate>> kinds) {
    List<Candidate> turns = new ArrayList<>();
    int most = kinds.stream().mapToInt(List::size).max().orElse(0);
    for (int turn = 0; turn < most; turn++) {
      for (List<Candidate> kind : kinds) {
        if (turn < kind.size()) {
          turns.add(kind.get(turn));
        }
      }
    }
    return turns;
  }

  /** How many runs it has. */
  int size() {
    return 1 + singles + pairs + randoms;
  }

  RandomGenerator random(int run) {
    return new SplittableRandom(seed * 0x9E3779B97F4A7C15L + run);
  }

  Trial trial(int run) {
    if (run == 0) {
      return new Trial(List.of(), ownSeed);
    } else if (run <= singles) {
      return single(run - 1, random(run));
    }
    return run <= singles + pairs ? pair(run - 1 - singles, random(run)) : any(random(run));
  }

  /**
   * Instants of one fault are spread evenly, and those of different faults lie between each other. Amounts and spans
   * take turns, the usual first, until each met each.
   */
  private Trial single(int number, RandomGenerator random) {
    int which = number % candidates.size();
    int round = number / candidates.size();
    int rounds = (singles + candidates.size() - 1) / candidates.size();
    double share = (round + which * GOLDEN % 1) / rounds;
    Candidate candidate = candidates.get(which);
    int amounts = candidate.amounts().size();
    return new Trial(List.of(new Injection(candidate, at(share, random), candidate.amounts().get(round % amounts),
        candidate.spans().get(round / amounts % candidate.spans().size()))), ownSeed);
  }

  /** An instant anywhere in the run. */
  private double instant(RandomGenerator random) {
    return at(random.nextDouble(), random);
  }

  /** The instant at a share of the run, or of what happens in it. */
  private double at(double share, RandomGenerator random) {
    return random.nextBoolean() ? even(share) : beside(share, random);
  }

  private double even(double share) {
    return rounded(from + share * (lasts - from));
  }

  private double beside(double share, RandomGenerator random) {
    return moments.length == 0 ? even(share) : bounded(moments[(int) (share * moments.length)] + BESIDE[random.nextInt(
        BESIDE.length)]);
  }

  static double rounded(double seconds) {
    return Math.rint(seconds * 100) / 100;
  }

  private Trial pair(int number, RandomGenerator random) {
    int count = kinds.size();
    int pair = number % (count * (count + 1) / 2);
    int first = 0;
    while (pair >= count - first) {
      pair -= count - first;
      first++;
    }
    Injection one = drawn(kinds.get(first), random, instant(random));
    double near = one.at() + (random.nextDouble() * 2 - 1) * NEAR;
    boolean anywhere = random.nextInt(4) == 0;
    return new Trial(List.of(one, drawn(kinds.get(first + pair), random, anywhere ? instant(random)
        : bounded(near))), ownSeed);
  }

  double bounded(double at) {
    return rounded(Math.max(from, Math.min(lasts, at)));
  }

  /** Any number of faults at any time. */
  Trial any(RandomGenerator random) {
    List<Injection> faults = new ArrayList<>();
    int count = 1 + random.nextInt(MOST_FAULTS);
    for (int i = 0; i < count; i++) {
      faults.add(drawn(random));
    }
    return new Trial(faults, 1 + random.nextInt(1_000_000));
  }

  /** Any fault at any time. */
  Injection drawn(RandomGenerator random) {
    return drawn(candidates, random, instant(random));
  }

  /** Any of these, by any of its amounts and spans. */
  static Injection drawn(List<Candidate> these, RandomGenerator random, double at) {
    Candidate candidate = these.get(random.nextInt(these.size()));
    return new Injection(candidate, at, candidate.amounts().get(random.nextInt(candidate.amounts().size())),
        candidate.spans().get(random.nextInt(candidate.spans().size())));
  }

  /** The faults of the kind of one. */
  List<Candidate> like(Candidate candidate) {
    return kinds.stream().filter(kind -> kind.get(0).kind().equals(candidate.kind())).findFirst().orElseThrow();
  }
}
