package dev.pawl.plant.loop;

import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.plant.ride.Device;
import dev.pawl.plant.ride.Flag;
import dev.pawl.plant.ride.Ride;
import dev.pawl.plant.ride.Sensor;
import dev.pawl.plant.text.Amount;
import dev.pawl.plant.text.Signals;
import dev.pawl.plant.text.Word;
import java.util.List;
import java.util.Optional;

/**
 * The check of a ride against the rules: the signals it names are declared, run the right way and are of the right
 * kind.
 */
public final class RideCheck {

  private static final Dimension ANGULAR_SPEED = new Dimension(0, 0, -1, 0, 0, 1);
  private static final Dimension CURRENT = new Dimension(0, 0, 0, 1, 0, 0);
  private static final Dimension PRESSURE = new Dimension(-1, 1, -2, 0, 0, 0);

  private final Diagnostics diagnostics = new Diagnostics();
  private final Signals signals;

  private RideCheck(RuleBook book) {
    signals = new Signals(book, diagnostics);
  }

  /** All that does not fit, in the order of the ride's file. */
  public static List<Diagnostic> check(Ride ride, RuleBook book, String file) {
    RideCheck check = new RideCheck(book);
    ride.devices().forEach(check::check);
    for (Flag flag : ride.flags()) {
      check.reports(flag.signal());
    }
    ride.sensors().forEach(check::check);
    ride.links().forEach(link -> link.signals().forEach(check.signals::find));
    return check.diagnostics.inOrder(List.of(file));
  }

  /** Equipment is commanded by switches, but for the speed that a lift is told. */
  private void check(Device device) {
    Optional<Word> reference = device instanceof Device.ChainLift lift ? lift.reference() : Optional.empty();
    device.commands().stream().filter(word -> !reference.equals(Optional.of(word))).forEach(this::commands);
    reference.ifPresent(word -> output(word).ifPresent(it -> measures(word, it, Dimension.SPEED, "a speed")));
  }

  private Optional<Signal> output(Word word) {
    return signals.find(word, Signal.Direction.OUTPUT, "it commands the ride");
  }

  private void commands(Word word) {
    output(word).ifPresent(signal -> signals.isSwitch(word, signal));
  }

  private void reports(Word word) {
    input(word).ifPresent(signal -> signals.isSwitch(word, signal));
  }

  private Optional<Signal> input(Word word) {
    return signals.find(word, Signal.Direction.INPUT, "it reports on the ride");
  }

  private boolean measures(Word word, Signal signal, Dimension dimension, String what) {
    boolean fits = signal.type() instanceof ValueType.Quantity quantity && quantity.dimension().equals(dimension);
    if (!fits) {
      diagnostics.error(word.position(), "'" + word.text() + "' is no " + what.substring(what.indexOf(' ') + 1)
          + ", but here it has to be one", "declare it as " + what + " in the rules, or name another");
    }
    return fits;
  }

  private void check(Sensor sensor) {
    if (sensor.what().isSwitch()) {
      reports(sensor.signal());
      return;
    }
    Dimension dimension = switch (sensor.what()) {
      case SPEED -> Dimension.SPEED;
      case MOTOR -> ANGULAR_SPEED;
      case CURRENT -> CURRENT;
      default -> PRESSURE;
    };
    String what = switch (sensor.what()) {
      case SPEED -> "a speed";
      case MOTOR -> "a speed of turning (rpm)";
      case CURRENT -> "a current";
      default -> "a pressure";
    };
    Optional<Signal> signal = input(sensor.signal());
    if (signal.isPresent() && measures(sensor.signal(), signal.get(), dimension, what)) {
      sensor.accuracy().stated().forEach(it -> amount(it, dimension));
    }
  }

  private void amount(Amount amount, Dimension dimension) {
    if (!amount.dimension().equals(dimension)) {
      diagnostics.error(amount.position(), "this is of another kind of quantity than its signal",
          "write it in a unit of the signal's kind");
    }
  }
}
