package dev.pawl.run.files;

import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.rules.units.UnitTable;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Source;
import dev.pawl.plant.text.Statement;
import dev.pawl.plant.text.StatementFile;
import dev.pawl.plant.text.Word;
import dev.pawl.report.model.Acceptance;
import dev.pawl.report.model.Review;
import dev.pawl.report.model.TimeBase;
import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;

/** Reads the statements of files of decisions; what is wrong with them is told where it stands. */
final class DecisionReader {

  private static final List<String> OF_ACCEPT = List.of("from", "to", "because", "by", "until");
  private static final List<String> OF_REVIEW = List.of("by", "on", "looked at", "run", "note");

  private final Diagnostics diagnostics;
  private final List<Acceptance> acceptances = new ArrayList<>();
  private final List<Review> reviews = new ArrayList<>();

  DecisionReader(Diagnostics diagnostics) {
    this.diagnostics = diagnostics;
  }

  List<Acceptance> acceptances() {
    return acceptances;
  }

  List<Review> reviews() {
    return reviews;
  }

  void read(Source source) {
    for (Statement statement : StatementFile.read(source, diagnostics)) {
      Word keyword = statement.keyword();
      if (keyword.is("accept")) {
        accept(statement);
      } else if (keyword.is("review")) {
        review(statement);
      } else {
        diagnostics.error(keyword.position(), keyword.shown() + " begins no decision",
            "write accept RULE in \"TRACE\", or review");
      }
    }
  }

  private void accept(Statement statement) {
    List<Word> words = statement.words();
    boolean every = words.size() > 3 && words.get(1).is("in") && words.get(2).is("every") && words.get(3).is("trace");
    if (words.size() < 3 || !words.get(1).is("in") || OF_ACCEPT.contains(words.get(0).text())) {
      diagnostics.error(statement.keyword().position(), "'accept' lacks its rule or its trace",
          "write accept RULE in \"TRACE\", or accept RULE in every trace");
      return;
    }
    if (!every && words.get(2).text().isBlank()) {
      diagnostics.error(words.get(2).position(), words.get(2).shown() + " names no trace",
          "write accept RULE in \"TRACE\", or accept RULE in every trace");
    }
    Clauses clauses = new Clauses(statement.keyword(), OF_ACCEPT, words.subList(every ? 4 : 3, words.size()));
    Optional<String> reason = clauses.text("because");
    Optional<String> by = clauses.text("by");
    Optional<LocalDate> until = clauses.date("until");
    Optional<Acceptance.Span> span = span(clauses);
    if (reason.isPresent() && by.isPresent() && until.isPresent()) {
      acceptances.add(new Acceptance(words.get(0).text(), every ? Optional.empty() : Optional.of(words.get(2).text()),
          span, reason.get(), by.get(), until.get(), statement.keyword().position().file(),
          statement.keyword().position().line()));
    }
  }

  private void review(Statement statement) {
    Clauses clauses = new Clauses(statement.keyword(), OF_REVIEW, statement.words());
    Optional<String> by = clauses.text("by");
    Optional<LocalDate> on = clauses.date("on");
    clauses.text("looked at");
    List<String> looked = clauses.words("looked at").stream().map(list -> list.get(0).text()).toList();
    String note = clauses.words("note").isEmpty() ? "" : clauses.text("note").orElse("");
    Optional<String> run = clauses.one("run", "write run \"RUN\", the 12 digits at the head of each sheet of the"
        + " report that was looked at", word -> word.quoted() && word.text().matches("[0-9a-f]{12}")
            ? Optional.of(word.text()) : Optional.empty());
    if (by.isPresent() && on.isPresent() && run.isPresent() && !looked.isEmpty()) {
      reviews.add(new Review(by.get(), on.get(), looked, note, run.get(), statement.keyword().position().file(),
          statement.keyword().position().line()));
    }
  }

  private Optional<Acceptance.Span> span(Clauses clauses) {
    if (clauses.words("from").isEmpty() && clauses.words("to").isEmpty()) {
      return Optional.empty();
    }
    Optional<Time> from = clauses.time("from");
    Optional<Time> to = clauses.time("to");
    if (from.isEmpty() || to.isEmpty()) {
      return Optional.empty();
    }
    Word place = clauses.words("to").get(0).get(0);
    if (from.get().kind() != to.get().kind()) {
      diagnostics.error(place.position(), "one time is counted from the start and the other is a date",
          "write both as the trace's times are written");
    } else if (from.get().ns() > to.get().ns()) {
      diagnostics.error(place.position(), "the span ends before it begins", "write the earlier time behind 'from'");
    }
    return Optional.of(new Acceptance.Span(from.get().kind(), from.get().ns(), to.get().ns(),
        "from " + from.get().words() + " to " + to.get().words()));
  }

  /** A time in a trace, as written. */
  private record Time(TimeBase.Kind kind, long ns, String words) {}

  /** The clauses of one decision. */
  private final class Clauses {

    private final Word statement;
    private final List<String> keys;
    private final Map<String, List<List<Word>>> found = new HashMap<>();

    Clauses(Word statement, List<String> keys, List<Word> words) {
      this.statement = statement;
      this.keys = keys;
      List<Word> current = null;
      for (int i = 0; i < words.size(); i++) {
        Word word = words.get(i);
        boolean looked = word.is("looked") && i + 1 < words.size() && words.get(i + 1).is("at");
        String key = looked ? "looked at" : word.text();
        if (!word.quoted() && keys.contains(key)) {
          i += looked ? 1 : 0;
          current = new ArrayList<>();
          List<List<Word>> before = found.computeIfAbsent(key, unused -> new ArrayList<>());
          if (!before.isEmpty() && !looked) {
            diagnostics.error(word.position(), "'" + key + "' is said twice of '" + statement.text() + "'", "keep one");
          }
          before.add(current);
          if (i + 1 == words.size() || isKey(words.get(i + 1), keys)) {
            diagnostics.error(word.position(), "something is missing behind '" + key + "'", written(key));
            current.add(new Word("", false, word.position()));
          }
        } else if (current == null) {
          unknown(word);
        } else {
          current.add(word);
        }
      }
    }

    private void unknown(Word word) {
      diagnostics.error(word.position(), word.shown() + " says nothing about '" + statement.text() + "'",
          NearName.hint(word.text(), keys).orElse("it can have: " + String.join(", ", keys)));
    }

    private static boolean isKey(Word word, List<String> keys) {
      return !word.quoted() && (keys.contains(word.text()) || word.is("looked"));
    }

    List<List<Word>> words(String key) {
      return found.getOrDefault(key, List.of());
    }

    private static String written(String key) {
      return switch (key) {
        case "until", "on" -> "write " + key + " 2027-03-31";
        case "from", "to" -> "write " + key + " 61.5 s, or " + key + " 2026-05-01T09:12:03Z, as the trace counts";
        default -> "write " + key + " \"TEXT\"";
      };
    }

    /** A clause of one word, which has to be there. */
    <T> Optional<T> one(String key, String written, Function<Word, Optional<T>> meaning) {
      if (words(key).isEmpty()) {
        diagnostics.error(statement.position(), "'" + statement.text() + "' lacks its '" + key + "'", written);
        return Optional.empty();
      }
      Optional<T> value = Optional.empty();
      for (List<Word> words : words(key)) {
        value = words.size() == 1 ? meaning.apply(words.get(0)) : Optional.empty();
        if (value.isEmpty() && (words.get(0).quoted() || !words.get(0).text().isEmpty())) {
          Word wrong = words.get(words.size() > 1 ? 1 : 0);
          diagnostics.error(wrong.position(), wrong.shown() + " is not what '" + key + "' needs", written);
        }
      }
      return value;
    }

    Optional<String> text(String key) {
      return one(key, written(key), word -> word.quoted() && !word.text().isBlank() ? Optional.of(word.text())
          : Optional.empty());
    }

    Optional<LocalDate> date(String key) {
      return one(key, written(key), word -> {
        try {
          return Optional.of(LocalDate.parse(word.text()));
        } catch (DateTimeException e) {
          return Optional.empty();
        }
      });
    }

    Optional<Time> time(String key) {
      List<Word> words = words(key).isEmpty() ? List.of() : words(key).get(0);
      if (words.size() > 1 && words.get(0).text().matches("\\d{1,9}(\\.\\d{1,9})?")) {
        Optional<ValueType.Quantity> unit = UnitTable.find(words.get(1).text())
            .filter(it -> it.dimension().equals(Dimension.TIME));
        if (unit.isPresent() && words.size() > 2) {
          unknown(words.get(2));
          return Optional.empty();
        } else if (unit.isPresent()) {
          BigDecimal nanoseconds = new BigDecimal(words.get(0).text())
              .multiply(BigDecimal.valueOf(unit.get().toSi(1))).movePointRight(9);
          return Optional.of(new Time(TimeBase.Kind.START, nanoseconds.longValue(),
              words.get(0).text() + " " + words.get(1).text()));
        }
      }
      return one(key, written(key), word -> {
        try {
          Instant instant = OffsetDateTime.parse(word.text()).toInstant();
          return Optional.of(new Time(TimeBase.Kind.EPOCH,
              Math.addExact(Math.multiplyExact(instant.getEpochSecond(), 1_000_000_000L), instant.getNano()),
              word.text()));
        } catch (DateTimeException | ArithmeticException e) {
          return Optional.empty();
        }
      });
    }
  }
}
