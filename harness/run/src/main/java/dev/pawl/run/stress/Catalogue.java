package dev.pawl.run.stress;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.plant.ride.Device;
import dev.pawl.plant.ride.Flag;
import dev.pawl.plant.ride.Ride;
import dev.pawl.plant.ride.Sensor;
import dev.pawl.plant.scenario.Act;
import dev.pawl.plant.scenario.Failures;
import dev.pawl.plant.scenario.Fault;
import dev.pawl.plant.scenario.Scenario;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** All faults that can be put into runs of a ride, out of its description and the rules. */
public final class Catalogue {

  private static final double TO_THE_END = Double.POSITIVE_INFINITY;
  private static final List<Double> NO_AMOUNT = List.of(0.0);
  /** A flag that sticks, seconds: to the end, as a train passes, and for an instant. */
  private static final List<Double> STUCK = List.of(TO_THE_END, 20.0, 2.0);
  private static final List<Double> LASTING = List.of(TO_THE_END, 60.0, 10.0);
  /** How long people keep something otherwise than it should be, seconds. */
  private static final List<Double> HANDS = List.of(2.0, 10.0, 60.0);
  /** By how much a hand is late, seconds: infinite where it does not come, 0 where only the time is wrong. */
  private static final List<Double> LATE_HANDS = List.of(1.0, TO_THE_END, 3.0, 0.4, 0.0);
  /** For how long messages fail, seconds. */
  private static final List<Double> MESSAGES = List.of(10.0, 1.0, 60.0);
  private static final List<Double> CUTS = List.of(5.0, 1.0, 30.0);

  private final Ride ride;
  private final RuleBook book;
  private final List<Candidate> all = new ArrayList<>();

  private Catalogue(Ride ride, RuleBook book) {
    this.ride = ride;
    this.book = book;
  }

  /**
   * The faults of a ride, those of one kind together.
   *
   * @param scenario whose desk says what people leave alone
   */
  public static List<Candidate> of(Ride ride, RuleBook book, Scenario scenario) {
    Catalogue catalogue = new Catalogue(ride, book);
    catalogue.addFlags();
    catalogue.addSensors();
    catalogue.addEquipment();
    catalogue.addOutputs();
    catalogue.addMessages();
    catalogue.addHands(scenario);
    catalogue.addActs(scenario);
    for (boolean warm : new boolean[] {true, false}) {
      catalogue.add(warm ? "power cut, warm start" : "power cut, cold start", "controller",
          new Candidate.Form.Unpowered(warm), NO_AMOUNT, CUTS);
    }
    return List.copyOf(catalogue.all);
  }

  private void add(String kind, String subject, Candidate.Form form, List<Double> amounts, List<Double> spans) {
    all.add(new Candidate(kind, subject, false, form, amounts, spans));
  }

  private void addDesk(String kind, String subject, Candidate.Form form, List<Double> amounts, List<Double> spans) {
    all.add(new Candidate("desk: " + kind, subject, true, form, amounts, spans));
  }

  private void addHeld(String kind, Signal signal, double value, List<Double> spans) {
    add(kind, signal.name(), new Candidate.Form.Held(signal.index(), value), NO_AMOUNT, spans);
  }

  private void addHand(String kind, Signal signal, double value) {
    addDesk(kind, signal.name(), new Candidate.Form.Held(signal.index(), value), NO_AMOUNT, HANDS);
  }

  private Optional<Signal> signal(String name) {
    return book.signals().stream().filter(it -> it.name().equals(name)).findFirst();
  }

  private void addFlags() {
    List<Signal> flags = ride.flags().stream().map(Flag::signal).map(it -> signal(it.text()).orElseThrow()).distinct()
        .toList();
    flags.forEach(flag -> addHeld("flag stuck true", flag, 1, STUCK));
    flags.forEach(flag -> addHeld("flag stuck false", flag, 0, STUCK));
    Map<String, List<Fault>> failures = Failures.of(ride);
    for (Fault fault : List.of(Fault.MISSED, Fault.CHATTERING, Fault.LATE)) {
      flags.stream().filter(flag -> failures.get(flag.name()).contains(fault)).forEach(flag -> add("flag "
          + fault.word(), flag.name(), new Candidate.Form.Failing(flag.name(), fault), amounts(fault), LASTING));
    }
    addSwaps("flags swapped", flags);
  }

  /** Each with the next one and the one after: wires that end beside each other. */
  private void addSwaps(String kind, List<Signal> signals) {
    for (int i = 0; i < signals.size(); i++) {
      for (int j = i + 1; j < Math.min(signals.size(), i + 3); j++) {
        add(kind, signals.get(i).name() + " and " + signals.get(j).name(), new Candidate.Form.Swapped(signals.get(i)
            .index(), signals.get(j).index()), NO_AMOUNT, LASTING);
      }
    }
  }

  private static List<Double> amounts(Fault fault) {
    return switch (fault) {
      case MISSED -> List.of(1.0, 2.0);
      case CHATTERING -> List.of(0.3, 0.1, 2.0);
      case LATE -> List.of(0.5, 0.1, 2.0);
      case WEAK -> List.of(0.5, 0.8, 0.2, 0.0);
      case SLOW -> List.of(3.0, 1.0, 8.0);
      default -> NO_AMOUNT;
    };
  }

  private void addSensors() {
    for (Sensor sensor : ride.sensors()) {
      Signal signal = signal(sensor.signal().text()).orElseThrow();
      if (sensor.what().isSwitch()) {
        addHeld("switch stuck true", signal, 1, STUCK);
        addHeld("switch stuck false", signal, 0, STUCK);
      } else {
        addHeld("reading stuck at 0", signal, 0, STUCK);
      }
    }
  }

  private void addEquipment() {
    Map<String, List<Fault>> failures = Failures.of(ride);
    for (Device device : ride.devices()) {
      for (Fault fault : failures.get(device.name().text())) {
        add(device.kind() + " " + fault.word(), device.name().text(), new Candidate.Form.Failing(device.name().text(),
            fault), amounts(fault), LASTING);
      }
    }
    ride.air().ifPresent(air -> failures.get(air.name().text()).forEach(fault -> add("air " + fault.word(), air.name()
        .text(), new Candidate.Form.Failing(air.name().text(), fault), NO_AMOUNT, LASTING)));
  }

  /** Outputs that command equipment and are of one type. */
  private void addOutputs() {
    List<Signal> switches = ride.devices().stream().filter(it -> !(it instanceof Device.SwitchDrive)
        && !(it instanceof Device.MagneticBrake)).flatMap(it -> it.commands().stream()).map(it -> signal(it.text())
            .orElseThrow()).filter(it -> it.type().isBool()).distinct().toList();
    addSwaps("outputs swapped", switches);
  }

  /** Of links, each with all that it carries, and of what reports on the ride or commands it. */
  private void addMessages() {
    Failures.of(ride).forEach((name, ways) -> {
      if (ways.contains(Fault.SILENT)) {
        add("messages lost", name, new Candidate.Form.Failing(name, Fault.SILENT), NO_AMOUNT, MESSAGES);
      }
      if (ways.contains(Fault.SILENT) && !ways.contains(Fault.MISSED)) {
        add("messages late", name, new Candidate.Form.Failing(name, Fault.LATE), amounts(Fault.LATE), MESSAGES);
      }
    });
  }

  /** Acts at another time than theirs, and one signal of them late. */
  private void addActs(Scenario scenario) {
    scenario.desk().acts().values().forEach(act -> act.steps().stream().map(Act.Step::signal).distinct().forEach(late ->
        addDesk("one hand late", act.name() + ", " + book.signals().get(late).name(), new Candidate.Form.Clumsy(act,
            late), LATE_HANDS, List.of(TO_THE_END))));
  }

  /** What people at the desk can do at the wrong moment: whatever no sensor reports. */
  private void addHands(Scenario scenario) {
    Set<String> reported = new LinkedHashSet<>();
    ride.flags().forEach(flag -> reported.add(flag.signal().text()));
    ride.sensors().forEach(sensor -> reported.add(sensor.signal().text()));
    for (Signal signal : book.signals()) {
      if (signal.direction() != Signal.Direction.INPUT || reported.contains(signal.name())) {
        continue;
      }
      boolean rests = scenario.desk().rests().getOrDefault(signal.index(), 0.0) != 0;
      List<String> names = signal.type().match(bool -> List.of("let go", "pressed"), enumeration -> enumeration.names()
          .stream().map("set to "::concat).toList(), quantity -> List.of());
      for (int value = 0; value < names.size(); value++) {
        if (!signal.type().isBool() || value != (rests ? 1 : 0)) {
          addHand(names.get(value), signal, value);
        }
      }
    }
  }
}
