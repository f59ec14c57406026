package dev.pawl.trace.feedback;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.Zone;
import dev.pawl.trace.sampling.StatedSampling;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.IntPredicate;
import java.util.function.IntToLongFunction;
import java.util.stream.IntStream;

/**
 * Which signals of a rule book follow which of the outputs that a controller under test gives. Where nothing is stated
 * of it, an input that is a number or a zone's flag follows every output that moves something, and one that a rule
 * demands within a time of a trigger the outputs that the trigger reads. Another input follows nothing: it may be what
 * a person does.
 */
public final class Feedback {

  private final RuleBook book;
  private final IntPredicate given;
  private final StatedFeedback stated;
  private final StatedSampling sampling;
  private final long[] periods;
  private final IntToLongFunction usuallyLate;
  private final Set<Integer> moving = new TreeSet<>();
  private final Set<Integer> flags;
  private final Map<Integer, Set<Integer>> answers = new HashMap<>();

  /**
   * The feedback of one controller.
   *
   * @param given which signals it gives
   * @param stated what is stated of it
   * @param sampling how outputs were looked at
   * @param usuallyLate nanoseconds by which an output, by its signal's index, may come sooner or later than recorded,
   *     where nothing is stated
   */
  public Feedback(RuleBook book, IntPredicate given, StatedFeedback stated, StatedSampling sampling,
      IntToLongFunction usuallyLate) {
    this(book, given, stated, sampling, usuallyLate, new long[book.signals().size()]);
  }

  private Feedback(RuleBook book, IntPredicate given, StatedFeedback stated, StatedSampling sampling,
      IntToLongFunction usuallyLate, long[] measured) {
    this.book = book;
    this.given = given;
    this.stated = stated;
    this.sampling = sampling;
    this.periods = sampling.periods(measured.length, measured);
    this.usuallyLate = usuallyLate;
    this.flags = RuleParts.signals(book.zones().stream().map(Zone::conditions).flatMap(List::stream).toList(), book);
    book.rules().forEach(this::addAnswers);
    for (Signal signal : book.signals()) {
      if (given.test(signal.index()) && signal.direction() == Signal.Direction.OUTPUT && !stated.idle()
          .contains(signal.index())) {
        moving.add(signal.index());
      }
    }
  }

  /**
   * The same where rows have shown how outputs were looked at: nanoseconds by signal index, 0 for one logged when it
   * changed.
   */
  public Feedback measured(long[] found) {
    return new Feedback(book, given, stated, sampling, usuallyLate, found);
  }

  private void addAnswers(Rule rule) {
    List<BoolExpr> awaited = rule.duty().match(when -> when.demand() instanceof Demand.Within within
        ? List.of(within.required()) : List.of(), always -> List.of());
    List<BoolExpr> triggers = rule.duty().match(when -> List.of(when.trigger()), always -> List.of());
    for (int answer : signals(awaited)) {
      answers.computeIfAbsent(answer, unused -> new TreeSet<>()).addAll(signals(triggers));
    }
  }

  public RuleBook book() {
    return book;
  }

  /** The outputs that move something, and so are compared with those recorded. */
  public Set<Integer> moving() {
    return moving;
  }

  /** The outputs that a signal follows. */
  public Set<Integer> followedBy(int signal) {
    if (given.test(signal)) {
      return Set.of();
    }
    Set<Integer> among = new TreeSet<>(moving);
    among.retainAll(stated.follows().getOrDefault(signal, usual(book.signals().get(signal))));
    return among;
  }

  private Set<Integer> usual(Signal signal) {
    if (signal.direction() != Signal.Direction.INPUT) {
      return Set.of();
    }
    return signal.type().isNumber() || flags.contains(signal.index()) ? moving
        : answers.getOrDefault(signal.index(), Set.of());
  }

  /** The signals that follow an output. */
  public List<Integer> followers(int output) {
    return IntStream.range(0, book.signals().size()).filter(signal -> followedBy(signal).contains(output)).boxed()
        .toList();
  }

  /**
   * Nanoseconds by which an output may come sooner or later than recorded; where it was sampled, its period belongs to
   * that.
   */
  public long late(int output) {
    return stated.late().getOrDefault(output, usuallyLate.applyAsLong(output) + periods[output]);
  }

  /** How far an output may be from the recorded number, where that is stated. */
  OptionalDouble off(int output) {
    Double off = stated.off().get(output);
    return off == null ? OptionalDouble.empty() : OptionalDouble.of(off);
  }

  /** Signals of a rule, and of what would try it, that follow outputs. */
  public Set<Integer> feedbackIn(Rule rule) {
    Set<Integer> signals = RuleParts.signals(rule, book);
    signals.removeIf(signal -> followedBy(signal).isEmpty());
    return signals;
  }

  /**
   * The outputs without recorded values because of which a rule rests on the recording alone, so that the controller
   * could not have failed it; none for a rule that it could have failed.
   *
   * @param recorded whether the trace has values of an output
   */
  public Set<Integer> restsOn(Rule rule, IntPredicate recorded) {
    List<BoolExpr> required = rule.duty().requirements();
    if (signals(required).stream().anyMatch(given::test)) {
      return Set.of();
    }
    Set<Integer> unrecorded = new TreeSet<>(moving);
    unrecorded.removeIf(recorded::test);
    if (signals(rule.duty().occasions()).stream().anyMatch(given::test)) {
      return isOfTheTrigger(rule) ? Set.of() : followed(signals(required), unrecorded);
    }
    Set<Integer> signals = signals(rule.duty().conditions());
    boolean nothingFollowed = signals.stream().allMatch(signal -> followedBy(signal).isEmpty());
    return !nothingFollowed ? followed(signals, unrecorded) : unrecorded.size() == moving.size() ? unrecorded
        : Set.of();
  }

  /** What it demands is read at its trigger, at a moment that is the controller's choice. */
  private static boolean isOfTheTrigger(Rule rule) {
    return rule.duty().match(when -> when.demand() instanceof Demand.AtOnce && when.demand().stay().isEmpty(), always ->
        false);
  }

  private Set<Integer> followed(Collection<Integer> signals, Set<Integer> outputs) {
    Set<Integer> found = new TreeSet<>();
    signals.forEach(signal -> found.addAll(followedBy(signal)));
    found.retainAll(outputs);
    return found;
  }

  private Set<Integer> signals(List<BoolExpr> conditions) {
    return RuleParts.signals(conditions, book);
  }
}
