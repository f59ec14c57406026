package dev.pawl.trace.bindings;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.trace.sampling.StatedSampling;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * Reads the section {@code sampling} of a bindings file: how signals were looked at, and for how long they may be
 * silent.
 */
final class SamplingReader {

  private static final String ALL = "all";
  private static final List<String> WRITTEN_WHEN_CHANGED = List.of(",", "written", "when", "changed");

  private final RuleBook book;
  private final List<Diagnostic> diagnostics;
  private final Map<Integer, Long> every = new HashMap<>();
  private final Set<Integer> changesOnly = new HashSet<>();
  private final Set<Integer> onChange = new HashSet<>();
  private final Map<Integer, Long> silence = new HashMap<>();
  private final Set<String> said = new HashSet<>();

  SamplingReader(RuleBook book, List<Diagnostic> diagnostics) {
    this.book = book;
    this.diagnostics = diagnostics;
  }

  /** What is stated of a signal itself goes before what is stated of all. */
  StatedSampling read(List<Entry> entries) {
    entries.stream().filter(entry -> entry.tokens().get(0).is(ALL)).forEach(this::read);
    entries.stream().filter(entry -> !entry.tokens().get(0).is(ALL)).forEach(this::read);
    return new StatedSampling(every, changesOnly, onChange, silence);
  }

  private void read(Entry entry) {
    List<Token> tokens = entry.tokens();
    boolean changes = tokens.size() == 3 && tokens.get(1).is("on") && tokens.get(2).is("change");
    boolean silent = tokens.size() == 4 && tokens.get(1).is("silence");
    boolean sparse = tokens.size() == 8 && IntStream.range(0, 4)
        .allMatch(word -> tokens.get(4 + word).is(WRITTEN_WHEN_CHANGED.get(word)));
    boolean looks = (tokens.size() == 4 || sparse) && tokens.get(1).is("every");
    if (!changes && !silent && !looks) {
      error(entry.tokens().get(0), "an entry of 'sampling' says how a signal was looked at",
          "write: SIGNAL every 1 s, or SIGNAL every 1 s, written when changed; SIGNAL on change, or SIGNAL silence 5 s;"
              + " all in place of SIGNAL means every one");
      return;
    }
    OptionalLong time = changes ? OptionalLong.of(0) : duration(tokens.get(2), tokens.get(3));
    List<Integer> meant = meant(tokens.get(0));
    if (!said.add(tokens.get(0).text() + (silent ? " silence" : ""))) {
      error(tokens.get(0), "this is stated twice of '" + tokens.get(0).text() + "'", "keep one");
    } else if (time.isPresent()) {
      meant.forEach(signal -> {
        if (silent) {
          silence.put(signal, time.getAsLong());
        } else {
          looked(signal, changes ? OptionalLong.empty() : time, sparse);
        }
      });
    }
  }

  /** It was looked at with this period, or logged when it changed. */
  private void looked(int signal, OptionalLong period, boolean sparse) {
    every.remove(signal);
    changesOnly.remove(signal);
    onChange.remove(signal);
    period.ifPresentOrElse(time -> every.put(signal, time), () -> onChange.add(signal));
    if (sparse) {
      changesOnly.add(signal);
    }
  }

  private List<Integer> meant(Token name) {
    return name.is(ALL) ? book.signals().stream().map(Signal::index).toList()
        : BindingsResolver.find(name, book, diagnostics).map(Signal::index).stream().toList();
  }

  private OptionalLong duration(Token number, Token unit) {
    OptionalLong time = SpanReader.read(number, unit);
    if (time.isEmpty()) {
      error(number, "'" + number.text() + " " + unit.text() + "' is no time that can pass from one look to the next",
          "write a number and one of us, ms, s and min, such as 100 ms");
    }
    return time;
  }

  private void error(Token at, String message, String hint) {
    diagnostics.add(Diagnostic.error(at.position(), message, hint));
  }
}
