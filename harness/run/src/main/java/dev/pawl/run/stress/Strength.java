package dev.pawl.run.stress;

import dev.pawl.grammar.logic.LogicLanguage;
import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.grammar.source.Source;
import dev.pawl.logic.LogicProgram;
import dev.pawl.logic.ProgramLine;
import dev.pawl.logic.SignalBinding;
import dev.pawl.logic.code.ProgramCompiler;
import dev.pawl.plant.loop.Truth;
import dev.pawl.plant.scenario.Scenario;
import dev.pawl.run.control.LogicSettings;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.Future;
import java.util.stream.Stream;

/**
 * Mistakes planted one after another in logic, and what notices them: the same runs are made with the unchanged logic
 * and
 * with each mistake, and compared.
 *
 * @param subject with the unchanged logic
 * @param sources the files of that
 * @param settings how it is compiled
 * @param scenarios that are run as they are
 * @param base into which faults are put, the first of the campaign's random runs
 * @param faulty how many runs with faults
 * @param mistakes how many mistakes are planted at most
 */
public record Strength(Subject subject, List<Source> sources, LogicSettings settings, List<Scenario> scenarios,
    Scenario base, int faulty, int mistakes, long seed) {

  private static final int BATCH = 16;

  /** Whoever is told how far it has come. */
  public interface Listener {

    /** So many mistakes are done with; false ends it. */
    boolean reached(int mistakes, int of, int unnoticed);
  }

  /** A mistake and what became of it. */
  public record Planted(String kind, String file, int line, String before, String after, MistakeResult result) {}

  /**
   * What it came to.
   *
   * @param possible how many mistakes there are in all
   * @param planned how many were drawn
   * @param runs how many runs were made of each
   * @param seconds of the ride's time in those
   */
  public record Outcome(int possible, int planned, int runs, double seconds, List<Planted> planted) {}

  private record Run(String name, Scenario scenario, RunResult unchanged) {}

  /** Plants them. */
  public Outcome run(int jobs, RunLog<MistakeResult> log, Listener listener) {
    List<Mistake> all = sources.stream().flatMap(source -> Mistakes.of(source).stream()).toList();
    List<Mistake> drawn = drawn(all);
    Set<ProgramLine> ran = new TreeSet<>(Comparator.comparing(ProgramLine::toString));
    List<Run> runs = unchanged(all, ran);
    List<Planted> planted = new ArrayList<>();
    int unnoticed = 0;
    try (Crew crew = new Crew(jobs)) {
      for (int from = 0; from < drawn.size(); from += BATCH) {
        List<Future<MistakeResult>> waiting = crew.work(from, Math.min(drawn.size(), from + BATCH), log,
            number -> () -> result(drawn.get(number), runs, ran));
        for (int i = 0; i < waiting.size(); i++) {
          Mistake mistake = drawn.get(from + i);
          MistakeResult result = Crew.get(waiting.get(i));
          planted.add(new Planted(mistake.kind(), mistake.file(), mistake.line(), mistake.before(), mistake.after(),
              result));
          unnoticed += result.program() && !result.isNoticed() ? 1 : 0;
          if (!listener.reached(from + i + 1, drawn.size(), unnoticed)) {
            waiting.forEach(it -> it.cancel(false));
            return outcome(all, drawn, runs, planted);
          }
        }
      }
    }
    return outcome(all, drawn, runs, planted);
  }

  private static Outcome outcome(List<Mistake> all, List<Mistake> drawn, List<Run> runs, List<Planted> planted) {
    return new Outcome(all.size(), drawn.size(), runs.size(), runs.stream().mapToDouble(it -> it.scenario().lasts())
        .sum(), planted.stream().filter(it -> it.result().program()).toList());
  }

  /** Kinds take turns, so that the most frequent kind does not take all; which of a kind depends on the seed. */
  private List<Mistake> drawn(List<Mistake> all) {
    List<Mistake> shuffled = new ArrayList<>(all);
    Collections.shuffle(shuffled, new Random(seed));
    Map<String, List<Mistake>> kinds = new LinkedHashMap<>();
    shuffled.forEach(it -> kinds.computeIfAbsent(it.kind(), unused -> new ArrayList<>()).add(it));
    List<Mistake> drawn = new ArrayList<>();
    for (int turn = 0; drawn.size() < Math.min(mistakes, all.size()); turn++) {
      for (List<Mistake> kind : kinds.values()) {
        if (turn < kind.size() && drawn.size() < mistakes) {
          drawn.add(kind.get(turn));
        }
      }
    }
    return drawn;
  }

  /** The runs by the unchanged logic, and which lines ran in them. */
  private List<Run> unchanged(List<Mistake> all, Set<ProgramLine> ran) {
    List<ProgramLine> lines = all.stream().flatMap(it -> Stream.of(new ProgramLine(it.file(), it
        .line()), new ProgramLine(it.file(), it.statement()))).distinct().toList();
    Subject watched = subject;
    try {
      watched = subject.with(LogicProgram.compile(subject.program().program(), settings.language(), subject.binding()
          .recorded(), lines), subject.binding());
    } catch (ProgramCompiler.TooLarge e) {
      ran.addAll(lines);
    }
    List<Run> runs = new ArrayList<>();
    for (Scenario scenario : scenarios) {
      runs.add(run(scenario.name(), scenario, watched, lines, ran));
    }
    List<Candidate> candidates = Catalogue.of(subject.ride(), subject.book(), base);
    Draw draw = new Draw(candidates, 0, base.lasts(), subject.moments(base), seed, base.seed(), Math.max(2, faulty
        * 2));
    for (int number = 1; number <= faulty; number++) {
      Scenario scenario = draw.trial(number).in(base, base.lasts());
      runs.add(run(base.name() + " with " + String.join(", ", draw.trial(number).faults().stream().map(it -> it
          .candidate().kind() + " (" + it.candidate().subject() + ") at " + it.at() + " s").toList()), scenario,
              watched,
          lines, ran));
    }
    return runs;
  }

  private static Run run(String name, Scenario scenario, Subject watched, List<ProgramLine> lines,
      Set<ProgramLine> ran) {
    BitSet seen = new BitSet();
    RunResult result = watched.run(scenario, new BitSet(), (time, results) -> {
      for (int line = 0; line < results.count(); line++) {
        if (results.ran(line)) {
          seen.set(line);
        }
      }
    }, time -> {});
    seen.stream().forEach(line -> ran.add(lines.get(line)));
    return new Run(name, scenario, result);
  }

  private Optional<Subject> compiled(Mistake mistake) {
    Optional<CheckedProgram> program = LogicLanguage.compile(mistake.in(sources), settings.choices()).program();
    if (program.isEmpty()) {
      return Optional.empty();
    }
    SignalBinding binding = SignalBinding.bind(program.get(), subject.book(), settings.variables(),
        settings.recorded());
    try {
      return binding.isSound() ? Optional.of(subject.with(LogicProgram.compile(program.get(), settings.language(),
          binding.recorded()), binding)) : Optional.empty();
    } catch (ProgramCompiler.TooLarge e) {
      return Optional.empty();
    }
  }

  private MistakeResult result(Mistake mistake, List<Run> runs, Set<ProgramLine> ran) {
    int rules = subject.book().rules().size();
    Optional<Subject> changed = compiled(mistake);
    if (changed.isEmpty()) {
      return MistakeResult.none(rules);
    }
    int[] noticedBy = new int[rules];
    int differed = 0;
    BitSet lost = new BitSet();
    runs.forEach(run -> lost.or(run.unchanged().tried()));
    Set<Truth.Kind> hazards = EnumSet.noneOf(Truth.Kind.class);
    Set<Truth.Kind> untold = EnumSet.noneOf(Truth.Kind.class);
    String[] where = {"", "", "", ""};
    for (Run run : runs) {
      RunResult result = changed.get().run(run.scenario(), new BitSet());
      lost.andNot(result.tried());
      boolean differs = result.outputs() != run.unchanged().outputs();
      differed += differs ? 1 : 0;
      boolean noticed = false;
      for (int rule = 0; rule < rules; rule++) {
        if (result.isBroken(rule) && !run.unchanged().isBroken(rule)) {
          noticedBy[rule]++;
          noticed = true;
        }
      }
      boolean hazard = false;
      boolean silent = false;
      for (RunResult.Hazard it : result.hazards()) {
        if (run.unchanged().hazards().stream().noneMatch(other -> other.kind() == it.kind())) {
          hazard |= hazards.add(it.kind());
          silent |= !it.noticed() && untold.add(it.kind());
        }
      }
      note(where, 0, silent, run.name());
      note(where, 1, hazard, run.name());
      note(where, 2, noticed, run.name());
      note(where, 3, differs, run.name());
    }
    boolean lineRan = ran.contains(new ProgramLine(mistake.file(), mistake.line())) || ran.contains(new ProgramLine(
        mistake.file(), mistake.statement()));
    return new MistakeResult(true, lineRan, differed, noticedBy, lost, hazards, untold, Stream.of(where).filter(it ->
        !it.isEmpty()).findFirst().orElse(""));
  }

  private static void note(String[] where, int what, boolean so, String name) {
    where[what] = so && where[what].isEmpty() ? name : where[what];
  }
}
