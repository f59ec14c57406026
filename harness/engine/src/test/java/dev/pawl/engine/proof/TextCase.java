package dev.pawl.engine.proof;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.MarginSpread;
import dev.pawl.engine.Sampling;
import dev.pawl.engine.reference.Judgement;
import dev.pawl.engine.reference.ReferenceEvaluator;
import dev.pawl.engine.reference.Trace;
import dev.pawl.engine.reference.TraceEvent;
import dev.pawl.grammar.rules.Compilation;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.source.Source;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * A rule and a trace written as text, over the switches {@code a b c d} and the number {@code x}: small cases whose
 * outcome a reader can work out from {@code grammar/MEANING.md}.
 */
public final class TextCase {
  private static final String SIGNALS = "input a, b, c, d : bool\ninput x : number\n";

  private TextCase() {}

  /**
   * What the engine says about the first rule, after making sure that the reference evaluator says the same.
   *
   * @param events as {@code time signal value}, in nanoseconds, with {@code ?} for unknown, parted by semicolons
   * @param end nanoseconds
   */
  public static Judgement.OfRule judge(String rules, String events, long end) {
    return judge(book(rules), events, end);
  }

  /** What the engine alone says, where a trace is too long to be tabulated. */
  public static Judgement.OfRule judgeByEngine(String rules, String events, long end) {
    RuleBook book = book(rules);
    return EngineRun.judge(book, trace(book, events, end)).rules().get(0);
  }

  /** The same of a book that is not written as text. */
  static Judgement.OfRule judge(RuleBook book, String events, long end) {
    return judge(book, trace(book, events, end));
  }

  private static Judgement.OfRule judge(RuleBook book, Trace trace) {
    Judgement judged = EngineRun.judge(book, trace);

    assertThat(Differences.describe(ReferenceEvaluator.judge(book, trace), judged)).isEmpty();
    return judged.rules().get(0);
  }

  /** A rule of that text with what every rule needs around it. */
  public static Judgement.OfRule judgeRule(String rule, String events, long end) {
    return judge("rule R \"\" basis practice " + rule, events, end);
  }

  /** The same of a trace whose signals were looked at as stated. */
  public static Judgement.OfRule judgeRule(String rule, String events, long end, Sampling sampling) {
    RuleBook book = book("rule R \"\" basis practice " + rule);
    return judge(book, new Trace(trace(book, events, end).events(), OptionalLong.of(end), sampling));
  }

  /** How near the single obligations of a rule of that text came. */
  public static Optional<MarginSpread> spread(String rule, String events, long end) {
    RuleBook book = book("rule R \"\" basis practice " + rule);
    return EngineRun.of(book, trace(book, events, end), EngineRun.SHARED, EngineRun::offline).outcome().rules().get(0)
        .spread();
  }

  static RuleBook book(String rules) {
    Compilation compilation = RuleLanguage.compile(List.of(new Source("case.rules", SIGNALS + rules)),
        SourceLoader.none());
    return compilation.book().orElseThrow(() -> new AssertionError(compilation.rendered()));
  }

  static Trace trace(RuleBook book, String text, long end) {
    List<TraceEvent> events = new ArrayList<>();
    for (String line : text.split("; ")) {
      String[] part = line.split(" ");
      Signal signal = book.signals().stream().filter(candidate -> candidate.name().equals(part[1])).findFirst()
          .orElseThrow();
      boolean number = signal.type() instanceof ValueType.Quantity;
      long value = part[2].equals("?") ? EventSink.UNKNOWN
          : number ? Double.doubleToRawLongBits(Double.parseDouble(part[2])) : Long.parseLong(part[2]);
      events.add(new TraceEvent(Long.parseLong(part[0]), signal.index(), value));
    }
    return new Trace(events, OptionalLong.of(end));
  }
}
