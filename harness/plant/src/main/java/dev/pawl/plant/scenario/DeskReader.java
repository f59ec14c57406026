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

/** Reads what a ride's file says of the desk: values at rest, habits and acts. */
final class DeskReader {

  private static final String NUMBER = "-?\\d{1,9}(\\.\\d{1,9})?";

  private final Signals signals;
  private final Diagnostics diagnostics;
  private final Map<Integer, Double> rests = new LinkedHashMap<>();
  private final List<Desk.Habit> habits = new ArrayList<>();
  private final Map<String, Act> acts = new LinkedHashMap<>();

  DeskReader(Signals signals, Diagnostics diagnostics) {
    this.signals = signals;
    this.diagnostics = diagnostics;
  }

  Desk read(List<Statement> statements) {
    for (Statement statement : statements) {
      switch (statement.keyword().text()) {
        case "desk" -> readRest(statement);
        case "habit" -> readHabit(statement);
        default -> readAct(statement);
      }
    }
    return new Desk(rests, habits, acts);
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
    Optional<ValueType.Quantity> unit = at + 1 < words.size() ? UnitTable.find(words.get(at + 1).text())
        .filter(it -> it.dimension().equals(Dimension.TIME)) : Optional.empty();
    if (unit.isEmpty() || !words.get(at).text().matches(NUMBER)) {
      if (at >= words.size()) {
        missing(words, "a time, such as 300 ms");
      } else {
        diagnostics.error(words.get(at).position(), words.get(at).shown() + " begins no time",
            "write a number and a unit of time, such as 300 ms");
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
