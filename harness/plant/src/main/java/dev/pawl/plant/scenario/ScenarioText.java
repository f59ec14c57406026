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
    return doing.accept(new ScenarioText(null, book).new Words());
  }

  /** A number as scenarios write it: decimal, with no more digits than it needs. */
  public static String number(double value) {
    BigDecimal rounded = BigDecimal.valueOf(value).setScale(DIGITS, RoundingMode.HALF_EVEN).stripTrailingZeros();
    return rounded.scale() < 0 ? rounded.setScale(0).toPlainString() : rounded.toPlainString();
  }

  private void write(Scenario scenario) {
    Words words = new Words();
    line("scenario \"" + scenario.title() + "\"");
    line("lasts " + time(scenario.lasts()));
    scenario.starts().ifPresent(starts -> line("starts \"" + starts + "\""));
    line("seed " + scenario.seed());
    for (Timed timed : scenario.script()) {
      line("at " + time(timed.at()) + " " + timed.doing().accept(words));
    }
    for (Scenario.Watch watch : scenario.watches()) {
      line("when " + nth(watch.nth()) + words(watch.trigger()));
      for (Timed timed : watch.doings()) {
        line("  after " + time(timed.at()) + " " + timed.doing().accept(words));
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
    return trigger.match(edge -> (edge.rises() ? "rise of " : "fall of ") + name(edge.signal()),
        passing -> "train " + (passing.forward() ? "" : "back ") + "at " + number(passing.place()) + " m"
            + (passing.track() == 0 ? "" : " on " + ride.course().name(passing.track())),
        lasting -> words(lasting.condition()));
  }

  private String words(Condition condition) {
    StringBuilder words = new StringBuilder();
    for (int i = 0; i < condition.signals().length; i++) {
      words.append(i == 0 ? "" : " and ").append(setting(condition.signals()[i], condition.values()[i]));
    }
    return words + (condition.lasts() == 0 ? "" : " for " + time(condition.lasts()));
  }

  /** One thing that is done or fails, in words. */
  private final class Words implements Doing.Visitor<String> {

    @Override
    public String visit(Doing.Hold it) {
      return setting(it.signal(), it.value()) + (Double.isInfinite(it.lasts()) ? "" : " for " + time(it.lasts()));
    }

    @Override public String visit(Doing.Leave it) { return "leave " + name(it.signal()); }
    @Override public String visit(Doing.Perform it) { return "do " + it.act().name(); }

    @Override
    public String visit(Doing.Fail it) {
      String amount = !it.begins() ? "" : it.fault().measure().map(measure -> switch (measure) {
        case SHARE -> " " + number(it.amount() * 100) + " %";
        case TIME -> " " + time(it.amount());
        case COUNT -> " " + number(it.amount());
      }).orElse("");
      return (it.begins() ? "fault " : "mend ") + it.device() + " " + it.fault().word() + amount;
    }

    @Override
    public String visit(Doing.Swap it) {
      return (it.begins() ? "fault " : "mend ") + name(it.signal()) + " swapped with " + name(it.other());
    }

    @Override
    public String visit(Doing.Cut it) {
      return "cut power for " + time(it.lasts()) + (it.warm() ? " warm" : " cold");
    }
  }

  private String name(int signal) {
    return book.signals().get(signal).name();
  }

  private String setting(int index, double value) {
    Signal signal = book.signals().get(index);
    return signal.name() + " = " + signal.type().<String>match(bool -> value != 0 ? "true" : "false",
        enumeration -> enumeration.names().get((int) value), quantity -> written(quantity, value));
  }

  /** In the signal's own unit. */
  private static String written(ValueType.Quantity type, double si) {
    return number((si - type.scale().offset()) / type.scale().factor());
  }
}
