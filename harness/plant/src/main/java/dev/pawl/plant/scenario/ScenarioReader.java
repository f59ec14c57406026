package dev.pawl.plant.scenario;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import dev.pawl.grammar.source.Source;
import dev.pawl.plant.ride.Ride;
import dev.pawl.plant.scenario.Scenario.Timed;
import dev.pawl.plant.scenario.Scenario.Trigger;
import dev.pawl.plant.text.Signals;
import dev.pawl.plant.text.Statement;
import dev.pawl.plant.text.StatementFile;
import dev.pawl.plant.text.Word;
import java.io.IOException;
import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;

/** Reads the statements of a scenario file. */
final class ScenarioReader {

  private static final List<String> KEYWORDS = List.of("scenario", "lasts", "starts", "seed", "use", "at", "every",
      "when");
  private static final String DOINGS = "SIGNAL = VALUE, press SIGNAL, leave SIGNAL, do ACT, fault EQUIPMENT ..., mend "
      + "EQUIPMENT ... or cut power for TIME ...";
  private static final double PRESS = 0.3;
  private static final int MOST_REPEATS = 100_000;
  private static final int MOST_USES = 100;

  private final Ride ride;
  private final ScenarioLanguage.Loader loader;
  private final Diagnostics diagnostics;
  private final Signals signals;
  private final DeskReader desks;
  private final Desk desk;
  private final List<Source> sources = new ArrayList<>();
  private final List<Timed> script = new ArrayList<>();
  private final List<Scenario.Watch> watches = new ArrayList<>();
  private Optional<String> title = Optional.empty();
  private OptionalDouble lasts = OptionalDouble.empty();
  private Optional<Instant> starts = Optional.empty();
  private OptionalLong seed = OptionalLong.empty();

  ScenarioReader(Ride ride, RuleBook book, ScenarioLanguage.Loader loader, Diagnostics diagnostics) {
    this.ride = ride;
    this.loader = loader;
    this.diagnostics = diagnostics;
    this.signals = new Signals(book, diagnostics);
    this.desks = new DeskReader(signals, ride.course().length(0), diagnostics);
    this.desk = desks.read(ride.habits());
  }

  List<Source> sources() {
    return sources;
  }

  Scenario read(String name, Source source) {
    readFile(source);
    if (lasts.isEmpty() && !diagnostics.hasErrors()) {
      diagnostics.error(new Position(source.name(), 1, 1, 1), "this scenario has no end",
          "add lasts 600 s");
    }
    script.sort(Comparator.comparingDouble(Timed::at));
    return new Scenario(name, title.orElse(name), lasts.orElse(0), starts, seed.orElse(1), desk, script, watches);
  }

  private void readFile(Source source) {
    sources.add(source);
    for (Statement statement : StatementFile.read(source, diagnostics)) {
      if (!statement.keyword().is("when") && !statement.lines().isEmpty()) {
        diagnostics.error(statement.lines().get(0).get(0).position(), "nothing stands indented under '"
            + statement.keyword().text() + "'", "begin this line at its very start");
      }
      readStatement(statement, source);
    }
  }

  private void readStatement(Statement statement, Source source) {
    Word keyword = statement.keyword();
    List<Word> head = statement.head();
    switch (keyword.quoted() ? "" : keyword.text()) {
      case "scenario" -> readTitle(head);
      case "lasts" -> once(keyword, lasts.isPresent(), () -> lasts = wholeTime(head));
      case "starts" -> once(keyword, starts.isPresent(), () -> readStart(head));
      case "seed" -> once(keyword, seed.isPresent(), () -> readSeed(head));
      case "use" -> readUse(head, source);
      case "at" -> {
        OptionalDouble at = desks.time(head, 1);
        if (at.isPresent()) {
          doing(head, 3).ifPresent(doing -> script.add(new Timed(at.getAsDouble(), doing)));
        }
      }
      case "every" -> readEvery(head);
      case "when" -> readWhen(statement);
      default -> diagnostics.error(keyword.position(), keyword.shown() + " begins no statement of a scenario",
          NearName.hint(keyword.text(), KEYWORDS).orElse("a line begins with one of: " + String.join(", ", KEYWORDS)));
    }
  }

  private void once(Word keyword, boolean there, Runnable read) {
    if (there) {
      diagnostics.error(keyword.position(), "'" + keyword.text() + "' is said twice", "keep one");
    } else {
      read.run();
    }
  }

  private void readTitle(List<Word> head) {
    once(head.get(0), title.isPresent(), () -> {
      if (head.size() != 2 || !head.get(1).quoted()) {
        diagnostics.error(head.get(0).position(), "a scenario has one title, in double quotes",
            "write scenario \"An ordinary day\"");
      } else {
        title = Optional.of(head.get(1).text());
      }
    });
  }

  private OptionalDouble wholeTime(List<Word> head) {
    OptionalDouble time = desks.time(head, 1);
    if (time.isPresent() && desks.end(head, 3) && time.getAsDouble() <= 0) {
      diagnostics.error(head.get(1).position(), "a scenario lasts some time", "write lasts 600 s");
    }
    return time;
  }

  private void readStart(List<Word> head) {
    try {
      starts = Optional.of(Instant.parse(head.size() == 2 ? head.get(1).text() : ""));
    } catch (DateTimeParseException e) {
      diagnostics.error(head.get(0).position(), "this is no time of the calendar",
          "write starts \"2026-05-16T09:00:00Z\"");
    }
  }

  private void readSeed(List<Word> head) {
    if (head.size() == 2 && head.get(1).text().matches("\\d{1,18}")) {
      seed = OptionalLong.of(Long.parseLong(head.get(1).text()));
    } else {
      diagnostics.error(head.get(0).position(), "a seed is a whole number", "write seed 1");
    }
  }

  private void readUse(List<Word> head, Source by) {
    if (head.size() != 2 || !head.get(1).quoted()) {
      diagnostics.error(head.get(0).position(), "use names one file, in double quotes",
          "write use \"start-up.part\"");
      return;
    }
    try {
      Source used = loader.load(head.get(1).text());
      if (sources.size() > MOST_USES || sources.stream().anyMatch(it -> it.name().equals(used.name()))) {
        diagnostics.error(head.get(1).position(), head.get(1).shown() + " is used already", "use each file once");
      } else {
        readFile(used);
      }
    } catch (IOException e) {
      diagnostics.error(head.get(1).position(), head.get(1).shown() + " cannot be read",
          "its path counts from the folder of " + by.name());
    }
  }

  private void readEvery(List<Word> head) {
    boolean form = head.size() > 9 && head.get(3).is("from") && head.get(6).is("to");
    if (!form) {
      diagnostics.error(head.get(0).position(), "what is done again and again has its first and last time",
          "write every 75 s from 60 s to 3510 s do dispatch");
      return;
    }
    OptionalDouble every = desks.time(head, 1);
    OptionalDouble from = desks.time(head, 4);
    OptionalDouble to = desks.time(head, 7);
    Optional<Doing> doing = doing(head, 9);
    if (every.isEmpty() || from.isEmpty() || to.isEmpty() || doing.isEmpty()) {
      return;
    }
    double repeats = (to.getAsDouble() - from.getAsDouble()) / every.getAsDouble();
    if (!(repeats >= 0 && repeats <= MOST_REPEATS)) {
      diagnostics.error(head.get(1).position(), "this is done never, or more than " + MOST_REPEATS + " times",
          "the later time comes second");
      return;
    }
    for (int i = 0; i <= Math.floor(repeats + 1e-9); i++) {
      script.add(new Timed(from.getAsDouble() + i * every.getAsDouble(), doing.get()));
    }
  }

  private void readWhen(Statement statement) {
    List<Word> head = statement.head();
    int at = 1;
    int nth = 1;
    if (head.size() > 1 && head.get(1).is("each")) {
      nth = 0;
      at = 2;
    } else if (head.size() > 1 && head.get(1).text().matches("\\d{1,6}(st|nd|rd|th)")) {
      nth = Integer.parseInt(head.get(1).text().replaceAll("\\D", ""));
      at = 2;
    }
    Optional<Trigger> trigger = trigger(head, at);
    List<Timed> doings = new ArrayList<>();
    for (List<Word> line : statement.lines()) {
      boolean later = line.get(0).is("after");
      OptionalDouble after = later ? desks.time(line, 1) : OptionalDouble.of(0);
      if (after.isPresent()) {
        doing(line, later ? 3 : 0).ifPresent(doing -> doings.add(new Timed(after.getAsDouble(), doing)));
      }
    }
    if (statement.lines().isEmpty()) {
      desks.missing(head, "what is done then, on indented lines under it");
    }
    int occurrence = nth;
    trigger.ifPresent(it -> watches.add(new Scenario.Watch(it, occurrence, doings)));
  }

  private Optional<Trigger> trigger(List<Word> head, int at) {
    if (at >= head.size()) {
      desks.missing(head, "rise of SIGNAL, fall of SIGNAL, train at 82 m, or SIGNAL = VALUE for 2 s");
      return Optional.empty();
    }
    Word first = head.get(at);
    if ((first.is("rise") || first.is("fall")) && at + 2 < head.size() && head.get(at + 1).is("of")) {
      return signals.find(head.get(at + 2)).filter(it -> signals.isSwitch(head.get(at + 2), it)
          && desks.end(head, at + 3)).map(it -> new Trigger.Edge(it.index(), first.is("rise")));
    }
    if (first.is("train")) {
      return passing(head, at);
    }
    Optional<Condition> condition = desks.condition(head, at);
    return condition.filter(it -> desks.end(head, desks.conditionEnd())).map(Trigger.Lasting::new);
  }

  /** {@code train at 82 m [on SIDING]} or {@code train back at 82 m}. */
  private Optional<Trigger> passing(List<Word> head, int at) {
    boolean back = at + 1 < head.size() && head.get(at + 1).is("back");
    int from = at + (back ? 2 : 1);
    if (from + 2 >= head.size() || !head.get(from).is("at") || !head.get(from + 2).is("m") || !head.get(from + 1)
        .text().matches("\\d{1,9}(\\.\\d{1,9})?")) {
      diagnostics.error(head.get(at).position(), "a train comes to a place", "write train at 82.25 m, or train back at "
          + "82 m");
      return Optional.empty();
    }
    int track = 0;
    int end = from + 3;
    if (end + 1 < head.size() && head.get(end).is("on")) {
      track = ride.siding(head.get(end + 1).text());
      if (track == 0) {
        diagnostics.error(head.get(end + 1).position(), "there is no siding " + head.get(end + 1).shown(),
            "name one of the ride's");
        return Optional.empty();
      }
      end += 2;
    }
    double place = Double.parseDouble(head.get(from + 1).text());
    if (place > ride.course().length(track)) {
      diagnostics.error(head.get(from + 1).position(), "the track is " + ride.course().length(track) + " m long",
          "places are metres along the track");
      return Optional.empty();
    }
    return desks.end(head, end) ? Optional.of(new Trigger.Passing(track, place, !back)) : Optional.empty();
  }

  private Optional<Doing> doing(List<Word> words, int at) {
    if (at >= words.size()) {
      desks.missing(words, DOINGS);
      return Optional.empty();
    }
    Word first = words.get(at);
    if (at + 1 < words.size() && words.get(at + 1).is("=")) {
      return hold(words, at);
    }
    if (at + 1 >= words.size()) {
      desks.missing(words, first.text() + " what");
      return Optional.empty();
    }
    Word second = words.get(at + 1);
    switch (first.text()) {
      case "press":
        return signals.find(second).filter(it -> signals.isSwitch(second, it)).flatMap(it -> lasting(words, at + 2,
            it.index(), 1, PRESS));
      case "leave":
        return signals.find(second).filter(it -> desks.end(words, at + 2)).map(it -> new Doing.Leave(it.index()));
      case "do":
        return act(second).filter(it -> desks.end(words, at + 2));
      case "fault", "mend":
        return fail(words, at, first.is("fault"));
      case "cut":
        return cut(words, at);
      default:
        diagnostics.error(first.position(), first.shown() + " is nothing that can be done",
            NearName.hint(first.text(), List.of("press", "leave", "do", "fault", "mend", "cut")).orElse(
                "write " + DOINGS));
        return Optional.empty();
    }
  }

  private Optional<Doing> hold(List<Word> words, int at) {
    Optional<Signals.Setting> setting = signals.setting(words, at);
    if (setting.isEmpty() || signals.find(words.get(at), Signal.Direction.INPUT, "a scenario moves inputs").isEmpty()) {
      return Optional.empty();
    }
    return lasting(words, at + setting.get().words(), setting.get().signal(), setting.get().value(),
        Double.POSITIVE_INFINITY);
  }

  private Optional<Doing> lasting(List<Word> words, int at, int signal, double value, double usual) {
    if (at >= words.size()) {
      return Optional.of(new Doing.Hold(signal, value, usual));
    }
    if (!words.get(at).is("for")) {
      desks.end(words, at);
      return Optional.empty();
    }
    OptionalDouble time = desks.time(words, at + 1);
    return time.isPresent() && desks.end(words, at + 3) ? Optional.of(new Doing.Hold(signal, value, time
        .getAsDouble())) : Optional.empty();
  }

  private Optional<Doing> act(Word name) {
    Act act = desk.acts().get(name.text());
    if (act == null) {
      diagnostics.error(name.position(), "the ride knows no act " + name.shown(), NearName.hint(name.text(), desk.acts()
          .keySet()).orElse("describe it in the ride's file: act " + name.text()));
    }
    return Optional.ofNullable(act).map(Doing.Perform::new);
  }

  private Optional<Doing> fail(List<Word> words, int at, boolean begins) {
    Word name = words.get(at + 1);
    if (at + 2 < words.size() && words.get(at + 2).is("swapped")) {
      return swap(words, at + 1, begins);
    }
    Map<String, List<Fault>> failures = Failures.of(ride);
    List<Fault> possible = failures.get(name.text());
    if (possible == null) {
      diagnostics.error(name.position(), "nothing of the ride is called " + name.shown(), NearName.hint(name
          .text(), failures.keySet()).orElse("name one of the ride's"));
      return Optional.empty();
    }
    String ways = String.join(", ", possible.stream().map(Fault::word).toList());
    if (at + 2 >= words.size()) {
      desks.missing(words, "how it fails: " + ways);
      return Optional.empty();
    }
    Word kind = words.get(at + 2);
    Optional<Fault> fault = possible.stream().filter(it -> it.word().equals(kind.text())).findFirst();
    if (fault.isEmpty()) {
      diagnostics.error(kind.position(), name.shown() + " does not fail that way", possible.isEmpty()
          ? "it cannot fail" : "it can be: " + ways);
      return Optional.empty();
    }
    return amount(words, at + 3, fault.get(), begins).stream().boxed().findFirst()
        .map(amount -> new Doing.Fail(name.text(), fault.get(), amount, begins));
  }

  private OptionalDouble amount(List<Word> words, int at, Fault fault, boolean begins) {
    if (!begins || fault.measure().isEmpty()) {
      return desks.end(words, at) ? OptionalDouble.of(0) : OptionalDouble.empty();
    }
    int width = fault.measure().get() == Fault.Measure.COUNT ? 1 : 2;
    boolean number = at < words.size() && words.get(at).text().matches("\\d{1,6}(\\.\\d{1,6})?");
    if (number && at + width <= words.size() && !desks.end(words, at + width)) {
      return OptionalDouble.empty();
    }
    double value = number ? Double.parseDouble(words.get(at).text()) : 0;
    if (number && width == 1 && value >= 1 && value == Math.rint(value)) {
      return OptionalDouble.of(value);
    } else if (number && width == 2 && at + 1 < words.size()) {
      if (fault.measure().get() == Fault.Measure.TIME) {
        return desks.time(words, at);
      } else if (words.get(at + 1).is("%")) {
        return OptionalDouble.of(value / 100);
      }
    }
    desks.missing(words.subList(0, Math.min(at, words.size())), fault.word() + " " + fault.example());
    return OptionalDouble.empty();
  }

  /** {@code SIGNAL swapped with OTHER}. */
  private Optional<Doing> swap(List<Word> words, int at, boolean begins) {
    if (at + 3 >= words.size() || !words.get(at + 2).is("with")) {
      desks.missing(words.subList(0, at + 2), "swapped with SIGNAL");
      return Optional.empty();
    }
    Word other = words.get(at + 3);
    Optional<Signal> first = signals.find(words.get(at));
    Optional<Signal> second = signals.find(other);
    if (first.isEmpty() || second.isEmpty() || !desks.end(words, at + 4)) {
      return Optional.empty();
    }
    boolean fits = first.get().direction() == second.get().direction() && first.get().type().equals(second.get().type())
        && first.get().index() != second.get().index();
    if (!fits) {
      diagnostics.error(other.position(), "the wires of " + words.get(at).shown() + " and " + other.shown()
          + " cannot be swapped", "name two inputs or two outputs of one type");
      return Optional.empty();
    }
    return Optional.of(new Doing.Swap(first.get().index(), second.get().index(), begins));
  }

  /** {@code cut power for 5 s warm}. */
  private Optional<Doing> cut(List<Word> words, int at) {
    boolean form = at + 5 < words.size() && words.get(at + 1).is("power") && words.get(at + 2).is("for")
        && (words.get(at + 5).is("warm") || words.get(at + 5).is("cold"));
    if (!form) {
      diagnostics.error(words.get(at).position(), "a power cut has its time, and the start after it is warm or cold",
          "write cut power for 5 s warm");
      return Optional.empty();
    }
    OptionalDouble lasts = desks.time(words, at + 3);
    if (lasts.isPresent() && lasts.getAsDouble() <= 0) {
      diagnostics.error(words.get(at + 3).position(), "a power cut lasts some time", "write cut power for 5 s warm");
      return Optional.empty();
    }
    return lasts.isPresent() && desks.end(words, at + 6) ? Optional.of(new Doing.Cut(lasts.getAsDouble(), words.get(at
        + 5).is("warm"))) : Optional.empty();
  }
}
