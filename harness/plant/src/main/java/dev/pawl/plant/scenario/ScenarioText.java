package dev.pawl.plant.scenario;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.plant.ride.Ride;
import dev.pawl.plant.scenario.Scenario.Timed;
import dev.pawl.plant.scenario.Scenario.Trigger;
import java.math.BigDecimal;
import java.math.RoundingMode;

/** Writes a scenario as a file that reads as the same scenario again. */
public final class ScenarioText {

  private static final int DIGITS = 9;

  private final Ride ride;
  private final RuleBook book;
  private final StringBuilder text = new StringBuilder();

  private ScenarioText(Ride ride, RuleBook book) {
    this.ride = ride;
    this.book = book;
  }

  /** The file of a scenario of a ride. */
  public static String of(Scenario scenario, Ride ride, RuleBook book) {
    ScenarioText written = new ScenarioText(ride, book);
    written.write(scenario);
    return written.text.toString();
  }

  /** One thing that is done or fails, as a scenario says it. */
  public static String of(Doing doing, RuleBook book) {
    return new ScenarioText(null, book).words(doing);
  }

  /** A number as scenarios write it: decimal, with no more digits than it needs. */
  public static String number(double value) {
    BigDecimal rounded = BigDecimal.valueOf(value).setScale(DIGITS, RoundingMode.HALF_EVEN).stripTrailingZeros();
    return rounded.scale() < 0 ? rounded.setScale(0).toPlainString() : rounded.toPlainString();
  }

  private void write(Scenario scenario) {
    line("scenario \"" + scenario.title() + "\"");
    line("lasts " + time(scenario.lasts()));
    scenario.starts().ifPresent(starts -> line("starts \"" + starts + "\""));
    line("seed " + scenario.seed());
    for (Timed timed : scenario.script()) {
      line("at " + time(timed.at()) + " " + words(timed.doing()));
    }
    for (Scenario.Watch watch : scenario.watches()) {
      line("when " + nth(watch.nth()) + words(watch.trigger()));
      for (Timed timed : watch.doings()) {
        line("  after " + time(timed.at()) + " " + words(timed.doing()));
      }
    }
  }

  private void line(String line) {
    text.append(line).append('\n');
  }

  private static String time(double seconds) {
    return number(seconds) + " s";
  }

  private static String nth(int nth) {
    return nth == 0 ? "each " : nth == 1 ? "" : nth + (nth % 10 == 2 && nth % 100 != 12 ? "nd " : nth % 10 == 3 && nth
        % 100 != 13 ? "rd " : nth % 10 == 1 && nth % 100 != 11 ? "st " : "th ");
  }

  private String words(Trigger trigger) {
    if (trigger instanceof Trigger.Edge edge) {
      return (edge.rises() ? "rise of " : "fall of ") + name(edge.signal());
    } else if (trigger instanceof Trigger.Passing passing) {
      return "train " + (passing.forward() ? "" : "back ") + "at " + number(passing.place()) + " m"
          + (passing.track() == 0 ? "" : " on " + ride.course().name(passing.track()));
    }
    Condition condition = ((Trigger.Lasting) trigger).condition();
    StringBuilder words = new StringBuilder();
    for (int i = 0; i < condition.signals().length; i++) {
      words.append(i == 0 ? "" : " and ").append(setting(condition.signals()[i], condition.values()[i]));
    }
    return words + (condition.lasts() == 0 ? "" : " for " + time(condition.lasts()));
  }

  private String words(Doing doing) {
    if (doing instanceof Doing.Hold hold) {
      return setting(hold.signal(), hold.value()) + (Double.isInfinite(hold.lasts()) ? "" : " for " + time(hold
          .lasts()));
    } else if (doing instanceof Doing.Leave leave) {
      return "leave " + name(leave.signal());
    } else if (doing instanceof Doing.Perform perform) {
      return "do " + perform.act().name();
    } else if (doing instanceof Doing.Swap swap) {
      return (swap.begins() ? "fault " : "mend ") + name(swap.signal()) + " swapped with " + name(swap.other());
    } else if (doing instanceof Doing.Cut cut) {
      return "cut power for " + time(cut.lasts()) + (cut.warm() ? " warm" : " cold");
    }
    Doing.Fail fail = (Doing.Fail) doing;
    String amount = !fail.begins() ? "" : fail.fault().measure().map(measure -> switch (measure) {
      case SHARE -> " " + number(fail.amount() * 100) + " %";
      case TIME -> " " + time(fail.amount());
      case COUNT -> " " + number(fail.amount());
    }).orElse("");
    return (fail.begins() ? "fault " : "mend ") + fail.device() + " " + fail.fault().word() + amount;
  }

  private String name(int signal) {
    return book.signals().get(signal).name();
  }

  private String setting(int index, double value) {
    Signal signal = book.signals().get(index);
    ValueType type = signal.type();
    String shown = type instanceof ValueType.Bool ? value != 0 ? "true" : "false"
        : type instanceof ValueType.Enumeration names ? names.names().get((int) value)
            : written((ValueType.Quantity) type, value);
    return signal.name() + " = " + shown;
  }

  /** In the signal's own unit. */
  private static String written(ValueType.Quantity type, double si) {
    return number((si - type.scale().offset()) / type.scale().factor());
  }
}
