package dev.pawl.mqtt.page;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.grammar.rules.model.Zone;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Set;

/**
 * Zones in the order in which a train goes through them: after each the one that begins at a flag at which it ends;
 * where there is none, the next that is declared.
 */
final class TrackOrder {

  /**
   * A zone in its place.
   *
   * @param entry indices of the signals at its beginning
   * @param exit those at its end, where the zone behind it does not begin at them
   */
  record Stretch(Zone zone, Set<Integer> entry, Set<Integer> exit) {}

  private TrackOrder() {}

  static List<Stretch> of(RuleBook book) {
    List<Zone> left = new ArrayList<>(book.zones());
    List<Zone> order = new ArrayList<>();
    while (!left.isEmpty()) {
      Zone next = order.isEmpty() ? left.get(0) : left.stream()
          .filter(zone -> meet(order.get(order.size() - 1), zone, book)).findFirst().orElse(left.get(0));
      order.add(next);
      left.remove(next);
    }
    List<Stretch> stretches = new ArrayList<>();
    for (int i = 0; i < order.size(); i++) {
      Zone behind = order.get((i + 1) % order.size());
      stretches.add(new Stretch(order.get(i), flags(order.get(i).entry(), book),
          meet(order.get(i), behind, book) ? Set.of() : flags(order.get(i).exit(), book)));
    }
    return stretches;
  }

  private static boolean meet(Zone zone, Zone behind, RuleBook book) {
    return !Collections.disjoint(flags(zone.exit(), book), flags(behind.entry(), book));
  }

  private static Set<Integer> flags(Zone.Boundary boundary, RuleBook book) {
    return RuleParts.signals(boundary.flags(), book);
  }
}
