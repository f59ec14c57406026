package dev.pawl.run.stress;

import dev.pawl.plant.scenario.Scenario;
import dev.pawl.plant.scenario.Scenario.Timed;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.TreeSet;

/**
 * One run to be made: the base scenario with faults put into it.
 *
 * @param faults in any order
 * @param seed of the noise of sensors
 */
public record Trial(List<Injection> faults, long seed) {

  public Trial {
    faults = List.copyOf(faults);
  }

  /** The kinds of its faults, each once. */
  public List<String> kinds() {
    TreeSet<String> kinds = new TreeSet<>();
    faults.forEach(fault -> kinds.add(fault.candidate().kind()));
    return List.copyOf(kinds);
  }

  /** How many of its faults are not what people do, but something that fails. */
  long failures() {
    return faults.stream().filter(it -> !it.candidate().people()).count();
  }

  /** What happens in it. Of two things at one time, those of the base scenario come first. */
  Scenario in(Scenario base, double lasts) {
    List<Timed> script = new ArrayList<>(base.script().stream().filter(it -> it.at() <= lasts).toList());
    faults.forEach(fault -> fault.timed().stream().filter(it -> it.at() <= lasts).forEach(script::add));
    script.sort(Comparator.comparingDouble(Timed::at));
    return new Scenario(base.name(), base.title(), lasts, base.starts(), seed, base.desk(), script, base.watches());
  }
}
