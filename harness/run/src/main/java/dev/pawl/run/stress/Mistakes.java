package dev.pawl.run.stress;

import dev.pawl.grammar.source.Source;
import dev.pawl.run.stress.ProgramWords.Word;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * All single mistakes that can be planted in a file of Structured Text by the rules below. Some are no program; whoever
 * compiles them finds out.
 */
final class Mistakes {

  private static final String[] ENDS = {"THEN", "DO", ";", ",", "=>", "TO", "BY", "OF"};
  private static final String[] BEGINS = {":=", "IF", "ELSIF", "WHILE", "UNTIL", ",", ";", "THEN", "ELSE", "DO"};
  private static final Map<String, List<String>> OTHER_BLOCKS = Map.of("TON", List.of("TOF", "TP"), "TOF",
      List.of("TON", "TP"), "TP", List.of("TON", "TOF"), "R_TRIG", List.of("F_TRIG"), "F_TRIG", List.of("R_TRIG"));
  private static final Set<String> NO_NAMES = Set.of("AND", "OR", "XOR", "NOT", "MOD", "IF", "THEN", "ELSIF", "ELSE",
      "END_IF", "CASE", "OF", "END_CASE", "FOR", "TO", "BY", "DO", "END_FOR", "WHILE", "END_WHILE", "REPEAT", "UNTIL",
      "END_REPEAT", "EXIT", "CONTINUE", "RETURN", "TRUE", "FALSE");

  private final Source source;
  private final ProgramWords words;
  private final Map<String, Mistake> found = new LinkedHashMap<>();
  /** By name: the others of its type in the unit that is being read. */
  private Map<String, List<String>> alike = new HashMap<>();

  private Mistakes(Source source) {
    this.source = source;
    this.words = new ProgramWords(source.text());
  }

  /** All of a file, each text once. */
  static List<Mistake> of(Source source) {
    Mistakes mistakes = new Mistakes(source);
    mistakes.find();
    return List.copyOf(mistakes.found.values());
  }

  private void find() {
    boolean variables = false;
    Map<String, List<String>> byType = new LinkedHashMap<>();
    for (int i = 0; i < words.size(); i++) {
      Word word = words.at(i);
      if (word.is("PROGRAM", "FUNCTION", "FUNCTION_BLOCK")) {
        byType = new LinkedHashMap<>();
        alike = new HashMap<>();
      }
      if (word.key().matches("VAR(_INPUT|_OUTPUT|_IN_OUT|_TEMP|_GLOBAL)?")) {
        variables = true;
      } else if (word.is("END_VAR")) {
        variables = false;
      }
      if (variables && word.is(":")) {
        declared(i, byType);
      }
      constants(i);
      if (variables && OTHER_BLOCKS.containsKey(word.key())) {
        OTHER_BLOCKS.get(word.key()).forEach(other -> plant("timer or edge of another kind", word, word, other));
      }
      if (!variables) {
        conditions(i);
        terms(i);
        names(i);
        statements(i);
      }
    }
  }

  private void plant(String kind, Word from, Word to, String after) {
    plant(kind, from, from.from(), to.to(), after);
  }

  private void plant(String kind, Word place, int from, int to, String after) {
    String text = source.text();
    String changed = text.substring(0, from) + after + text.substring(to);
    if (!changed.equals(text)) {
      found.putIfAbsent(changed, new Mistake(kind, source.name(), place.line(), words.at(place.statement()).line(),
          oneLine(text.substring(from, to)), oneLine(after), changed));
    }
  }

  private static String oneLine(String text) {
    return text.replaceAll("(?s)\\(\\*.*?\\*\\)", "").strip().replaceAll("\\s+", " ");
  }

  /** Notes the names before a colon by the type behind it. */
  private void declared(int colon, Map<String, List<String>> byType) {
    Word type = words.at(Math.min(colon + 1, words.size() - 1));
    List<String> names = byType.computeIfAbsent(type.key(), unused -> new ArrayList<>());
    int before = names.size();
    for (int i = colon - 1; i >= 0 && (words.at(i).isName() || words.is(i, ",")) && !words.at(i).key().startsWith("VAR")
        && !words.is(i, "CONSTANT", "RETAIN"); i--) {
      if (words.at(i).isName()) {
        names.add(before, words.at(i).text());
      }
    }
    names.forEach(name -> alike.put(name.toUpperCase(Locale.ROOT), names));
  }

  private void constants(int index) {
    Word word = words.at(index);
    if (word.is("TRUE", "FALSE")) {
      plant("other constant", word, word, word.is("TRUE") ? "FALSE" : "TRUE");
    } else if (word.text().matches("(?i)(T|TIME|LTIME|LT)#.*")) {
      plant("other time", word, word, word.text().replaceAll("\\d+(\\.\\d+)?", "0"));
      plant("other time", word, word, scaled(word.text()));
    } else if (word.text().matches("\\d+") && !words.is(index - 1, "[", "..") && !words.is(index + 1, "..", ":")) {
      plant("other constant", word, word, String.valueOf(Long.parseLong(word.text()) + 1));
      plant("other constant", word, word, "0");
    } else if (word.text().matches("\\d+\\.\\d+")) {
      double value = Double.parseDouble(word.text());
      plant("other constant", word, word, String.valueOf(value == 0 ? 1.0 : value * 2));
      plant("other constant", word, word, String.valueOf(value / 10));
    }
  }

  /** Ten times as long, figure by figure. */
  private static String scaled(String time) {
    StringBuilder text = new StringBuilder();
    Matcher figures = Pattern.compile("\\d+(\\.\\d+)?").matcher(time);
    while (figures.find()) {
      String ten = new BigDecimal(figures.group()).multiply(BigDecimal.TEN).toPlainString();
      figures.appendReplacement(text, ten);
    }
    figures.appendTail(text);
    return text.toString();
  }

  private void conditions(int index) {
    Word word = words.at(index);
    if (word.is("IF", "ELSIF", "WHILE")) {
      negate("negated condition", index + 1, words.next(index + 1, "THEN", "DO") - 1);
    } else if (word.is(":=")) {
      negate("negated value", index + 1, words.next(index + 1, ENDS) - 1);
    }
  }

  private void negate(String kind, int from, int to) {
    if (to >= from && to < words.size()) {
      Word first = words.at(from);
      String inner = source.text().substring(first.from(), words.at(to).to());
      plant(kind, first, words.at(to), first.is("NOT") && to <= from + 1 ? inner.substring(3).strip() : "NOT (" + inner
          + ")");
    }
  }

  private void terms(int index) {
    Word word = words.at(index);
    if (word.is("AND", "OR")) {
      String[] weaker = word.is("AND") ? new String[] {"AND", "OR", "XOR"} : new String[] {"OR"};
      int end = words.next(index + 1, with(ENDS, weaker)) - 1;
      int begin = words.last(index - 1, with(BEGINS, weaker)) + 1;
      if (end > index && begin < index) {
        plant("dropped term", words.at(index + 1), words.at(index).from(), words.at(end).to(), "");
        plant("dropped term", words.at(begin), words.at(begin).from(), words.at(index + 1).from(), "");
      }
      plant("other operator", word, word, word.is("AND") ? "OR" : "AND");
    } else if (word.is("NOT")) {
      plant("dropped NOT", word, word.from(), word.to(), "");
    } else if (word.is("<", "<=", ">", ">=") && index > 0) {
      plant("other comparison", word, word, word.is("<", "<=") ? ">" : "<");
    } else if (word.is("=", "<>")) {
      plant("other comparison", word, word, word.is("=") ? "<>" : "=");
    }
  }

  private static String[] with(String[] some, String[] more) {
    List<String> all = new ArrayList<>(List.of(some));
    all.addAll(List.of(more));
    return all.toArray(String[]::new);
  }

  /** A name that is read, and no part of another: the next two of its type stand for it. */
  private void names(int index) {
    Word word = words.at(index);
    List<String> others = alike.get(word.key());
    boolean read = others != null && word.isName() && !NO_NAMES.contains(word.key()) && !words.is(index - 1, ".", "#")
        && !words.is(index + 1, ":=", "=>", "(", ":");
    if (read) {
      int own = others.stream().map(name -> name.toUpperCase(Locale.ROOT)).toList().indexOf(word.key());
      for (int step = 1; step <= Math.min(2, others.size() - 1); step++) {
        plant("swapped variable", word, word, others.get((own + step) % others.size()));
      }
    }
  }

  /** Statements of a single line of thought: a value that is given, or a call. */
  private void statements(int index) {
    Word word = words.at(index);
    int end = end(index);
    if (end < 0) {
      return;
    }
    boolean latch = words.is(end - 1, "TRUE", "FALSE") && words.is(end - 2, ":=");
    String kind = !latch ? words.next(index, ":=", "(") < end && words.is(words.next(index, ":=", "("), "(")
        ? "deleted call" : "deleted assignment" : words.is(end - 1, "TRUE") ? "latch never set" : "latch never cleared";
    plant(kind, word, words.at(end), ";");
    int next = end + 1;
    int nextEnd = next < words.size() ? end(next) : -1;
    if (nextEnd >= 0) {
      String first = source.text().substring(word.from(), words.at(end).to());
      String second = source.text().substring(words.at(next).from(), words.at(nextEnd).to());
      plant("other order", word, words.at(nextEnd), second + " " + first);
    }
  }

  /** The semicolon of a simple statement that begins here; -1 where none does. */
  private int end(int index) {
    Word word = words.at(index);
    boolean begins = word.statement() == index && word.isName() && !NO_NAMES.contains(word.key())
        && !word.key().startsWith("END_");
    int end = begins ? words.next(index, ";") : -1;
    return begins && words.is(end, ";") && words.next(index, ":=", "(", ";") < end ? end : -1;
  }
}
