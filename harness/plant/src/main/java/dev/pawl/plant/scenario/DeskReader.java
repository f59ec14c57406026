package dev.pawl.plant.scenario;

import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.rules.units.UnitTable;
import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.plant.text.Signals;
import dev.pawl.plant.text.Statement;
import dev.pawl.plant.text.Word;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/** Reads what a ride's file says of the desk: values at rest, habits and acts, and what protects people. */
final class DeskReader {

  private static final String NUMBER = "-?\\d{1,9}(\\.\\d{1,9})?";

  private final Signals signals;
  private final Diagnostics diagnostics;
  private final Map<Integer, Double> rests = new LinkedHashMap<>();
  private final List<Desk.Habit> habits = new ArrayList<>();
  private final Map<String, Act> acts = new LinkedHashMap<>();
  private final List<Desk.Stop> stops = new ArrayList<>();
  private final List<Desk.Boarding> boardings = new ArrayList<>();
  private final double round;

  /**
   * A reader that has read nothing.
   *
   * @param round metres of the circuit
   */
  DeskReader(Signals signals, double round, Diagnostics diagnostics) {
    this.signals = signals;
    this.round = round;
    this.diagnostics = diagnostics;
  }

  Desk read(List<Statement> statements) {
    for (Statement statement : statements) {
      switch (statement.keyword().text()) {
        case "desk" -> readRest(statement);
        case "habit" -> readHabit(statement);
        case "stop" -> readStop(statement);
        case "boarding" -> readBoarding(statement);
        default -> readAct(statement);
      }
    }
    return new Desk(rests, habits, acts, stops, boardings);
  }

  private void readRest(Statement statement) {
    List<Word> words = statement.words();
    if (words.isEmpty()) {
      missing(statement.head(), "SIGNAL = VALUE");
      return;
    }
    signals.setting(words, 0).ifPresent(it -> {
      if (isInput(words.get(0)) && end(words, it.words()) && rests.put(it.signal(), it.value()) != null) {
        diagnostics.error(words.get(0).position(), "'" + words.get(0).text() + "' is said twice", "keep one");
      }
    });
  }

  private boolean isInput(Word name) {
    return signals.find(name, Signal.Direction.INPUT, "people at the desk move inputs").isPresent();
  }

  private void readHabit(Statement statement) {
    List<Word> words = statement.words();
    if (words.isEmpty()) {
      missing(statement.head(), "SIGNAL = VALUE while SIGNAL = VALUE for 1 s");
      return;
    }
    signals.setting(words, 0).filter(it -> isInput(words.get(0))).ifPresent(it -> {
      int at = it.words();
      if (at >= words.size() || !words.get(at).is("while")) {
        missing(words.subList(0, at), "while SIGNAL = VALUE");
      } else {
        condition(words, at + 1).ifPresent(condition -> habits.add(new Desk.Habit(it.signal(), it.value(),
            condition)));
      }
    });
  }

  /** {@code stop while CONDITION until CONDITION within 4 s}. */
  private void readStop(Statement statement) {
    List<Word> words = statement.head();
    Optional<Condition> demanded = conditionBehind(words, 1, "while", "while SIGNAL = VALUE until SIGNAL = VALUE");
    Optional<Condition> released = demanded.flatMap(it -> conditionBehind(words, conditionEnd, "until",
        "until SIGNAL = VALUE within 4 s"));
    int at = conditionEnd;
    if (released.isPresent() && (at >= words.size() || !words.get(at).is("within"))) {
      missing(words.subList(0, at), "within 4 s");
    } else if (released.isPresent()) {
      time(words, at + 1).ifPresent(within -> {
        if (end(words, at + 3)) {
          stops.add(new Desk.Stop(demanded.get(), released.get(), within));
        }
      });
    }
  }

  private Optional<Condition> conditionBehind(List<Word> words, int at, String keyword, String form) {
    if (at >= words.size() || !words.get(at).is(keyword)) {
      missing(words.subList(0, Math.min(at, words.size())), form);
      return Optional.empty();
    }
    return condition(words, at + 1);
  }

  /** {@code boarding from 0 m to 28 m shut while CONDITION}. */
  private void readBoarding(Statement statement) {
    List<Word> words = statement.head();
    String form = "boarding from 0 m to 28 m shut while SIGNAL = VALUE";
    if (words.size() < 8 || !words.get(1).is("from") || !words.get(4).is("to") || !words.get(7).is("shut")) {
      diagnostics.error(statement.keyword().position(), "people get on and off along a stretch", "write " + form);
      return;
    }
    OptionalDouble from = quantity(words, 2, Dimension.LENGTH, "place", "12 m");
    OptionalDouble to = quantity(words, 5, Dimension.LENGTH, "place", "12 m");
    Optional<Condition> shut = conditionBehind(words, 8, "while", form);
    if (from.isEmpty() || to.isEmpty() || shut.isEmpty() || !end(words, conditionEnd)) {
      return;
    }
    double length = to.getAsDouble() - from.getAsDouble();
    if (from.getAsDouble() < 0 || from.getAsDouble() > round || length <= 0 || length > round) {
      diagnostics.error(words.get(2).position(), "this is no stretch of the circuit",
          "a stretch runs forward along the track, and past the end of the lap counts on");
      return;
    }
    boardings.add(new Desk.Boarding(from.getAsDouble(), to.getAsDouble(), shut.get()));
  }

  /** Signals with their values, joined by {@code and}, and for how long. */
  Optional<Condition> condition(List<Word> words, int from) {
    List<Signals.Setting> settings = new ArrayList<>();
    int at = from;
    while (true) {
      if (at >= words.size()) {
        missing(words, "SIGNAL = VALUE");
        return Optional.empty();
      }
      Optional<Signals.Setting> setting = signals.setting(words, at);
      if (setting.isEmpty()) {
        return Optional.empty();
      }
      settings.add(setting.get());
      at += setting.get().words();
      if (at >= words.size() || !words.get(at).is("and")) {
        break;
      }
      at++;
    }
    double lasts = 0;
    if (at < words.size() && words.get(at).is("for")) {
      OptionalDouble time = time(words, at + 1);
      if (time.isEmpty()) {
        return Optional.empty();
      }
      lasts = time.getAsDouble();
      at += 3;
    }
    Condition condition = new Condition(settings.stream().mapToInt(Signals.Setting::signal).toArray(),
        settings.stream().mapToDouble(Signals.Setting::value).toArray(), lasts);
    conditionEnd = at;
    return Optional.of(condition);
  }

  private int conditionEnd;

  /** Where the condition read last ends. */
  int conditionEnd() {
    return conditionEnd;
  }

  private void readAct(Statement statement) {
    List<Word> head = statement.head();
    if (head.size() != 2 || !head.get(1).isName()) {
      diagnostics.error(statement.keyword().position(), "an act has a name, and its steps stand indented under it",
          "write act dispatch, and under it from 0 s to 500 ms SIGNAL = VALUE");
      return;
    }
    List<Act.Step> steps = new ArrayList<>();
    for (List<Word> line : statement.lines()) {
      step(line).ifPresent(steps::add);
    }
    if (statement.lines().isEmpty()) {
      missing(head, "from 0 s to 500 ms SIGNAL = VALUE, indented");
    }
    if (acts.put(head.get(1).text(), new Act(head.get(1).text(), steps)) != null) {
      diagnostics.error(head.get(1).position(), "there are two acts '" + head.get(1).text() + "'", "rename one");
    }
  }

  private Optional<Act.Step> step(List<Word> line) {
    if (line.size() < 9 || !line.get(0).is("from") || !line.get(3).is("to")) {
      diagnostics.error(line.get(0).position(), "a step of an act holds a signal for a while",
          "write from 0 s to 500 ms SIGNAL = VALUE");
      return Optional.empty();
    }
    OptionalDouble from = time(line, 1);
    OptionalDouble to = time(line, 4);
    Optional<Signals.Setting> setting = signals.setting(line, 6);
    if (from.isEmpty() || to.isEmpty() || setting.isEmpty() || !isInput(line.get(6)) || !end(line, 6 + setting.get()
        .words())) {
      return Optional.empty();
    }
    if (from.getAsDouble() >= to.getAsDouble()) {
      diagnostics.error(line.get(0).position(), "this step ends before it begins", "the later time comes second");
      return Optional.empty();
    }
    return Optional.of(new Act.Step(from.getAsDouble(), to.getAsDouble(), setting.get().signal(), setting.get()
        .value()));
  }

  /** Two words as a time in seconds. */
  OptionalDouble time(List<Word> words, int at) {
    return quantity(words, at, Dimension.TIME, "time", "300 ms");
  }

  private OptionalDouble quantity(List<Word> words, int at, Dimension dimension, String what, String example) {
    Optional<ValueType.Quantity> unit = at + 1 < words.size() ? UnitTable.find(words.get(at + 1).text())
        .filter(it -> it.dimension().equals(dimension)) : Optional.empty();
    if (unit.isEmpty() || !words.get(at).text().matches(NUMBER)) {
      if (at >= words.size()) {
        missing(words, "a " + what + ", such as " + example);
      } else {
        diagnostics.error(words.get(at).position(), words.get(at).shown() + " begins no " + what,
            "write a number and a unit of " + (what.equals("time") ? what : "length") + ", such as " + example);
      }
      return OptionalDouble.empty();
    }
    return OptionalDouble.of(unit.get().toSi(Double.parseDouble(words.get(at).text())));
  }

  /** Whether nothing comes behind. */
  boolean end(List<Word> words, int at) {
    if (at < words.size()) {
      diagnostics.error(words.get(at).position(), words.get(at).shown() + " is too much here", "take it away");
    }
    return at >= words.size();
  }

  void missing(List<Word> words, String what) {
    diagnostics.error(Statement.behind(words), "something is missing here", "write " + what);
  }
}
