package dev.pawl.grammar.rules.advice;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.Zone;
import dev.pawl.grammar.source.Diagnostic;
import java.util.ArrayList;
import java.util.List;

/** Warnings about a rule book that is right, but probably not what was meant. */
public final class BookAdvice {

  private final RuleBook book;
  private final List<Diagnostic> warnings = new ArrayList<>();

  private BookAdvice(RuleBook book) {
    this.book = book;
  }

  /** All warnings, rules first, then signals, then zones. */
  public static List<Diagnostic> of(RuleBook book) {
    BookAdvice advice = new BookAdvice(book);
    book.rules().forEach(rule -> advice.warnings.addAll(RuleAdvice.of(rule)));
    advice.warnings.addAll(new Contradictions(book.rules()).find());
    if (!book.rules().isEmpty()) {
      advice.unusedSignals();
    }
    book.zones().forEach(advice::zone);
    return advice.warnings;
  }

  private void unusedSignals() {
    Unwatched unwatched = Unwatched.of(book);
    for (Signal signal : book.signals()) {
      if (unwatched.signals().contains(signal)) {
        warnings.add(Diagnostic.warning(signal.position(), "no rule and no zone looks at `" + signal.name() + "`",
            "write a rule about it, or take the declaration away"));
      } else if (unwatched.outputs().contains(signal)) {
        warnings.add(Diagnostic.warning(signal.position(), "no rule requires anything of the output `" + signal.name()
            + "`", "it occurs in triggers and scopes only"));
      }
    }
  }

  private void zone(Zone zone) {
    end(zone, zone.entry(), "enter");
    end(zone, zone.exit(), "leave");
    if (zone.entry() instanceof Zone.Edge in && zone.exit() instanceof Zone.Edge out && in.equals(out)) {
      warnings.add(Diagnostic.warning(zone.position(), "trains enter and leave zone `" + zone.name()
          + "` by the same event", "its count can never change"));
    }
  }

  private void end(Zone zone, Zone.Boundary boundary, String word) {
    if (boundary instanceof Zone.Edge edge && StaticTruth.isNeverTrue(edge.event())) {
      warnings.add(Diagnostic.warning(zone.position(), "no train can ever " + word + " zone `" + zone.name() + "`",
          "the event at its end can never happen"));
    }
    if (boundary instanceof Zone.Pair pair && StaticTruth.isNeverTrue(new BoolExpr.And(pair.outer(), pair.inner()))) {
      warnings.add(Diagnostic.warning(zone.position(), "the two flags at which trains " + word + " zone `" + zone.name()
          + "` can never be covered together", "a train that passes must cover both for a moment"));
    }
  }
}
