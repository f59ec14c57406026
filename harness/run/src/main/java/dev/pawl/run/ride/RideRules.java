package dev.pawl.run.ride;

import dev.pawl.run.ride.Layout.Place;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** The rule file that a ride begins with: its signals and zones, the first rules that follow from them, examples. */
final class RideRules {

  private final Layout layout;
  private final StringBuilder text = new StringBuilder();

  private RideRules(Layout layout) {
    this.layout = layout;
  }

  static String of(Layout layout) {
    RideRules rules = new RideRules(layout);
    rules.declarations();
    rules.sectionsAhead();
    rules.firstRules();
    rules.examples();
    return rules.text.toString();
  }

  private void line(String line) {
    text.append(line).append('\n');
  }

  private void declarations() {
    line("-- " + layout.ride() + ": its signals, its zones, and the rules that follow from them."
        + " Begun by pawl, yours from now on.");
    line("");
    line("ride \"" + layout.ride().replace("\"", "'") + "\"");
    line("");
    if (!layout.resolution().isEmpty()) {
      line("resolution " + layout.resolution());
      line("");
    }
    layout.signals().forEach((name, declared) -> line((declared.output() ? "output " : "input ") + name + " : "
        + declared.type()));
    line("");
    for (int i = 0; i < layout.places().size(); i++) {
      Place place = layout.places().get(i);
      line("zone " + place.name() + " enter rises(" + place.flag() + ") leave falls(" + layout.end(i) + ") holds "
          + place.holds() + place.starts().map(trains -> " starts with " + trains).orElse(""));
    }
    line("");
  }

  private void sectionsAhead() {
    line("-- A train is between there and the end of the next zone in which it can be held.");
    for (int place : layout.releasing()) {
      line("define " + ahead(place) + " = " + layout.ahead(place).stream().map(zone -> "occupied(" + zone + ")")
          .collect(Collectors.joining(" or ")));
    }
    line("");
  }

  private String ahead(int place) {
    return aheadOf(layout.places().get(place).name());
  }

  static String aheadOf(String zone) {
    return zone + "_ahead_occupied";
  }

  private void firstRules() {
    line("-- First rules, drawn from the layout. Each basis is yours to state; 'tried by' says what asks for what a"
        + " rule forbids.");
    line("for each zone z");
    line("rule RIDE-01-{z} \"A train enters {z} only when there is room\"");
    line("basis practice severity critical");
    line("when enters(z) must not miscounts(z)");
    line("");
    if (!layout.releasing().isEmpty()) {
      line("for each (zone z, signal open, signal ahead_occupied) in (" + layout.releasing().stream()
          .map(place -> "(" + layout.places().get(place).name() + ", " + layout.places().get(place).released().get()
              + ", " + ahead(place) + ")").collect(Collectors.joining(", ")) + ")");
      line("rule RIDE-02-{z} \"No train is released from {z} into an occupied section\"");
      line("basis practice severity critical");
      line("when rises(open) must not ahead_occupied");
      line("");
    }
    layout.stop().ifPresent(stop -> {
      List<String> commands = commands();
      if (!commands.isEmpty()) {
        line("for each signal command in (" + String.join(", ", commands) + ")");
        line("rule RIDE-03-{command} \"Emergency stop takes {command} back until a reset\"");
        line("basis practice severity critical");
        line("when falls(" + stop.circuit() + ") must not command within " + stop.limit()
            + ", and stay so until rises(" + stop.reset() + ")");
        line("stay tried by rises(" + stop.circuit() + ")");
        line("");
      }
    });
  }

  private List<String> commands() {
    List<String> commands = new ArrayList<>();
    for (Place place : layout.places()) {
      place.released().ifPresent(commands::add);
      place.driven().ifPresent(commands::add);
    }
    return commands.stream().distinct().toList();
  }

  private void examples() {
    Place first = layout.places().get(0);
    String entry = first.flag();
    String exit = layout.end(0);
    if (entry.equals(exit) || first.holds() > 1) {
      return;
    }
    line("example \"a second train follows before the first has left\" for RIDE-01-" + first.name() + " gives broken");
    line("at 0 s " + entry + " = false, " + exit + " = false");
    pass(1, exit);
    pass(3, entry);
    pass(5, entry);
    line("");
    line("example \"the first has left\" for RIDE-01-" + first.name() + " gives held");
    line("at 0 s " + entry + " = false, " + exit + " = false");
    pass(1, exit);
    pass(3, entry);
    pass(5, exit);
    pass(7, entry);
  }

  private void pass(int second, String flag) {
    line("at " + second + " s " + flag + " = true");
    line("at " + (second + 1) + " s " + flag + " = false");
  }
}
