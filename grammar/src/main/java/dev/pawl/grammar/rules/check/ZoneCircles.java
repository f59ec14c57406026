package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.model.Zone;
import dev.pawl.grammar.source.Diagnostics;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/** Finds zones whose occupancy depends on itself, which nobody could compute. */
final class ZoneCircles {

  private final Diagnostics problems;
  private final List<Zone> zones;
  private final List<Set<Integer>> uses = new ArrayList<>();
  private final boolean[] done;

  ZoneCircles(Diagnostics problems, List<Zone> zones) {
    this.problems = problems;
    this.zones = zones;
    this.done = new boolean[zones.size()];
  }

  void check() {
    for (Zone zone : zones) {
      Set<Integer> used = new TreeSet<>();
      zone.conditions().forEach(e -> used.addAll(e.zones()));
      uses.add(used);
    }
    for (Zone zone : zones) {
      follow(zone.index(), new ArrayList<>());
    }
  }

  private void follow(int zone, List<Integer> way) {
    int earlier = way.indexOf(zone);
    if (earlier >= 0) {
      String circle = way.subList(earlier, way.size()).stream().map(i -> zones.get(i).name())
          .collect(Collectors.joining(" -> "));
      problems.error(zones.get(zone).position(), "the occupancy of `" + zones.get(zone).name() + "` depends on itself: "
          + circle + " -> " + zones.get(zone).name(), "count trains by the zone's own flags");
      return;
    }
    if (done[zone] || way.size() > zones.size()) {
      return;
    }
    way.add(zone);
    uses.get(zone).forEach(next -> follow(next, way));
    way.remove(way.size() - 1);
    done[zone] = true;
  }
}
