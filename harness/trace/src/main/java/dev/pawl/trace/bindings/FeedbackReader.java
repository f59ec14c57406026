package dev.pawl.trace.bindings;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.rules.units.UnitTable;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.trace.feedback.StatedFeedback;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.TreeSet;

/**
 * Reads the section {@code feedback} of a bindings file: which signals follow which outputs, and when an output counts
 * as the recorded one.
 */
final class FeedbackReader {

  private static final String ALL = "all";
  private static final String NOTHING = "nothing";

  /** So long events wait for an output that may still come as recorded. */
  private static final long LATEST = 600_000_000_000L;

  private final RuleBook book;
  private final List<Diagnostic> diagnostics;
  private final Map<Integer, Set<Integer>> follows = new HashMap<>();
  private final Set<Integer> idle = new HashSet<>();
  private final Map<Integer, Long> late = new HashMap<>();
  private final Map<Integer, Double> off = new HashMap<>();
  private final Set<String> said = new HashSet<>();

  FeedbackReader(RuleBook book, List<Diagnostic> diagnostics) {
    this.book = book;
    this.diagnostics = diagnostics;
  }

  /** What is stated of an output itself goes before what is stated of all. */
  StatedFeedback read(List<Entry> entries) {
    entries.stream().filter(entry -> !says(entry, "follows")).filter(entry -> entry.tokens().get(0).is(ALL))
        .forEach(this::readOutput);
    entries.stream().filter(entry -> !says(entry, "follows")).filter(entry -> !entry.tokens().get(0).is(ALL))
        .forEach(this::readOutput);
    entries.stream().filter(entry -> says(entry, "follows")).forEach(this::readFollower);
    return new StatedFeedback(follows, idle, late, off);
  }

  private static boolean says(Entry entry, String word) {
    return entry.tokens().size() > 1 && entry.tokens().get(1).is(word);
  }

  private void readOutput(Entry entry) {
    List<Token> tokens = entry.tokens();
    boolean moves = says(entry, "moves") && tokens.size() == 3 && tokens.get(2).is(NOTHING);
    boolean comes = says(entry, "late") && tokens.size() == 4;
    boolean differs = says(entry, "off") && tokens.size() == 4 && !tokens.get(0).is(ALL);
    if (!moves && !comes && !differs) {
      error(tokens.get(0), "an entry of 'feedback' says what follows an output",
          "write: SIGNAL follows OUTPUT, OUTPUT, SIGNAL follows all, SIGNAL follows nothing, OUTPUT moves nothing, "
              + "OUTPUT late 50 ms,"
              + " all late 50 ms, or OUTPUT off 0.1 m/s");
      return;
    }
    if (isSaidTwice(tokens.get(0), tokens.get(1))) {
      return;
    }
    List<Signal> outputs = outputs(tokens.get(0));
    if (moves) {
      outputs.forEach(output -> idle.add(output.index()));
    } else if (comes) {
      span(tokens.get(2), tokens.get(3)).ifPresent(time -> outputs.forEach(output -> late.put(output.index(), time)));
    } else {
      outputs.forEach(output -> amount(output, tokens.get(2), tokens.get(3)));
    }
  }

  private void readFollower(Entry entry) {
    List<Token> tokens = entry.tokens();
    Optional<Signal> signal = BindingsResolver.find(tokens.get(0), book, diagnostics);
    if (signal.isEmpty() || isSaidTwice(tokens.get(0), tokens.get(1))) {
      return;
    }
    Set<Integer> followed = new TreeSet<>();
    boolean sound = tokens.size() > 2 && tokens.size() % 2 == 1;
    for (int at = 2; at < tokens.size() && sound; at += 2) {
      Token output = tokens.get(at);
      sound = at + 1 == tokens.size() || tokens.get(at + 1).is(",");
      boolean nothing = output.is(NOTHING);
      sound &= tokens.size() == 3 || !nothing && !output.is(ALL);
      if (sound && !nothing) {
        outputs(output).forEach(each -> follow(each, output, followed));
      }
    }
    if (!sound) {
      error(tokens.get(1), "after 'follows' come outputs, with commas between", "or 'all', or 'nothing', alone");
      return;
    }
    follows.put(signal.get().index(), followed);
  }

  private void follow(Signal output, Token named, Set<Integer> followed) {
    if (!idle.contains(output.index())) {
      followed.add(output.index());
    } else if (!named.is(ALL)) {
      error(named, "'" + output.name() + "' moves nothing, as is stated here, so nothing follows it", "keep one");
    }
  }

  private boolean isSaidTwice(Token name, Token what) {
    boolean twice = !said.add(name.text() + " " + what.text());
    if (twice) {
      error(name, "this is stated twice of '" + name.text() + "'", "keep one");
    }
    return twice;
  }

  private List<Signal> outputs(Token name) {
    if (name.is(ALL)) {
      return book.signals().stream().filter(signal -> signal.direction() == Signal.Direction.OUTPUT).toList();
    }
    Optional<Signal> found = BindingsResolver.find(name, book, diagnostics);
    if (found.isPresent() && found.get().direction() != Signal.Direction.OUTPUT) {
      error(name, "'" + name.text() + "' is no output of the controller",
          "name a signal that the rules declare as an output");
      return List.of();
    }
    return new ArrayList<>(found.stream().toList());
  }

  private OptionalLong span(Token number, Token unit) {
    OptionalLong time = SpanReader.read(number, unit);
    if (time.isEmpty() || time.getAsLong() > LATEST) {
      error(number, "'" + number.text() + " " + unit.text() + "' is no time by which an output can come late",
          "write a number and one of us, ms, s and min, up to 10 min, such as 50 ms");
      return OptionalLong.empty();
    }
    return time;
  }

  private void amount(Signal output, Token number, Token unit) {
    Optional<ValueType.Quantity> stated = UnitTable.find(unit.text());
    boolean sound = number.text().matches("\\d{1,9}(\\.\\d{1,9})?")
        && output.type() instanceof ValueType.Quantity declared && stated.isPresent() && stated.get().dimension()
        .equals(declared.dimension());
    if (!sound) {
      error(number, "'" + number.text() + " " + unit.text() + "' is no amount by which '" + output.name()
          + "' can be off", "write a number and a unit of its kind, such as 0.1 m/s");
    } else {
      // A difference: offsets of a scale, as that of degC, fall out.
      off.put(output.index(), stated.get().toSi(Double.parseDouble(number.text())) - stated.get().toSi(0));
    }
  }

  private void error(Token at, String message, String hint) {
    diagnostics.add(Diagnostic.error(at.position(), message, hint));
  }
}
