package dev.pawl.plant.text;

import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.rules.units.UnitTable;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** The clauses of one statement, in any order, each at most once; what is wrong with them is told where it stands. */
public final class Clauses {

  private static final String NUMBER = "-?\\d{1,12}(\\.\\d{1,12})?";

  private final Diagnostics diagnostics;
  private final Position position;
  private final String statement;
  private final Map<String, Key> keys = new HashMap<>();
  private final List<Word> words;
  private final Map<String, Double> numbers = new HashMap<>();
  private final Map<String, Amount> amounts = new HashMap<>();
  private final Map<String, Word> names = new HashMap<>();
  private final Set<String> said = new HashSet<>();
  private int next;

  private Clauses(Word statement, List<Word> words, List<Key> keys, Diagnostics diagnostics) {
    this.diagnostics = diagnostics;
    this.statement = statement.text();
    this.position = statement.position();
    this.words = words;
    keys.forEach(key -> this.keys.put(key.words(), key));
  }

  /**
   * Reads clauses.
   *
   * @param statement the word that messages about a missing clause point to
   * @param words the clauses
   */
  public static Clauses read(Word statement, List<Word> words, List<Key> keys, Diagnostics diagnostics) {
    Clauses clauses = new Clauses(statement, words, keys, diagnostics);
    while (clauses.next < words.size()) {
      clauses.readOne();
    }
    return clauses;
  }

  private void readOne() {
    Optional<Key> found = keyAt(next);
    if (found.isEmpty()) {
      unknown(words.get(next));
      return;
    }
    Key key = found.get();
    Word first = words.get(next);
    next += key.words().split(" ").length;
    if (!said.add(key.words())) {
      diagnostics.error(first.position(), "'" + key.words() + "' is said twice of '" + statement + "'", "keep one");
    }
    switch (key.shape()) {
      case MARK -> { }
      case NAME -> readName(key, first);
      case NUMBER, QUANTITY, AMOUNT -> readNumber(key, first);
    }
  }

  /** The longest key whose words stand there. */
  private Optional<Key> keyAt(int at) {
    for (int count = Math.min(3, words.size() - at); count > 0; count--) {
      StringBuilder text = new StringBuilder();
      for (int i = at; i < at + count; i++) {
        text.append(i > at ? " " : "").append(words.get(i).quoted() ? "\"" : words.get(i).text());
      }
      Key key = keys.get(text.toString());
      if (key != null) {
        return Optional.of(key);
      }
    }
    return Optional.empty();
  }

  private void unknown(Word word) {
    Optional<String> near = NearName.of(word.text(), keys.keySet());
    if (near.isEmpty()) {
      near = keys.keySet().stream().filter(key -> key.startsWith(word.text() + " ")).sorted().findFirst();
    }
    near.ifPresent(said::add);
    diagnostics.error(word.position(), word.shown() + " says nothing about '" + statement + "'", near
        .map(key -> "did you mean " + key + "?").orElse("it can have: " + String.join(", ", keys.keySet().stream()
            .sorted().toList())));
    next++;
    while (next < words.size() && keyAt(next).isEmpty()) {
      next++;
    }
  }

  private void readName(Key key, Word first) {
    Optional<Word> word = take(key, first);
    if (word.isPresent() && !word.get().isName()) {
      diagnostics.error(word.get().position(), word.get().shown() + " is no name", "write " + key.written());
    } else {
      word.ifPresent(name -> names.put(key.words(), name));
    }
  }

  /** The next word, unless the statement ends or the next clause begins there. */
  private Optional<Word> take(Key key, Word first) {
    if (next == words.size() || keyAt(next).isPresent() && !words.get(next).text().matches(NUMBER)) {
      diagnostics.error(next == 0 ? first.position() : Statement.behind(words.subList(0, next)),
          "something is missing behind '" + key.words() + "'", "write " + key.written());
      return Optional.empty();
    }
    return Optional.of(words.get(next++));
  }

  private void readNumber(Key key, Word first) {
    Optional<Word> word = take(key, first);
    if (word.isEmpty()) {
      return;
    }
    Word number = word.get();
    if (number.quoted() || !number.text().matches(NUMBER)) {
      diagnostics.error(number.position(), number.shown() + " is no number", "write " + key.written());
      takeUnit();
      return;
    }
    Optional<Word> unit = key.shape() == Key.Shape.NUMBER ? Optional.empty() : takeUnit();
    if (key.shape() == Key.Shape.QUANTITY && unit.isEmpty()) {
      diagnostics.error(Statement.behind(List.of(number)), "the unit is missing", "write " + key.written());
      return;
    }
    Optional<ValueType.Quantity> scale = unit.map(it -> UnitTable.find(it.text())).orElse(Optional.of(
        ValueType.Quantity.PLAIN));
    if (scale.isEmpty()) {
      diagnostics.error(unit.get().position(), unit.get().shown() + " is no unit",
          UnitTable.hint(unit.get().text()).orElse("write " + key.written()));
    } else {
      keep(key, number, scale.get());
    }
  }

  /** A word that begins no clause is a unit, or meant as one. */
  private Optional<Word> takeUnit() {
    return next < words.size() && keyAt(next).isEmpty() ? Optional.of(words.get(next++)) : Optional.empty();
  }

  private void keep(Key key, Word number, ValueType.Quantity unit) {
    double si = unit.toSi(Double.parseDouble(number.text()));
    if (key.shape() == Key.Shape.QUANTITY && !unit.dimension().equals(key.dimension())) {
      diagnostics.error(number.position(), "'" + key.words() + " " + number.text() + " " + unit.unit()
          + "' is of another kind of quantity", "write " + key.written());
    } else if (si < key.least() || si > key.most()) {
      diagnostics.error(number.position(), "'" + key.words() + "' has to be from " + plain(key.least()) + " to "
          + plain(key.most()) + (key.dimension().siUnit().isEmpty() ? "" : " " + key.dimension().siUnit()),
          "write " + key.written());
    } else {
      numbers.put(key.words(), si);
      amounts.put(key.words(), new Amount(unit.dimension().equals(Dimension.NONE) ? si : si - unit.toSi(0),
          unit.dimension(), number.position()));
    }
  }

  private static String plain(double value) {
    return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
  }

  /** Whether a clause is there, well written or not. */
  public boolean has(String key) {
    return said.contains(key);
  }

  /** The number of a clause that has to be there; NaN where it is not, which is told, or is wrong. */
  public double number(String key) {
    if (!said.contains(key)) {
      missing(key);
    }
    return numbers.getOrDefault(key, Double.NaN);
  }

  private void missing(String key) {
    diagnostics.error(position, "'" + statement + "' lacks its '" + key + "'", "add " + keys.get(key).written());
  }

  /** The number of a clause, or another where it is not there. */
  public double number(String key, double other) {
    return said.contains(key) ? numbers.getOrDefault(key, Double.NaN) : other;
  }

  public Optional<Amount> amount(String key) {
    return Optional.ofNullable(amounts.get(key));
  }

  public Optional<Word> name(String key) {
    return Optional.ofNullable(names.get(key));
  }

  /** The name of a clause that has to be there; that it is not is told. */
  public Optional<Word> required(String key) {
    if (!said.contains(key)) {
      missing(key);
    }
    return name(key);
  }

  /** Where the statement begins. */
  public Position position() {
    return position;
  }
}
