package dev.pawl.engine.proof;

import dev.pawl.engine.reference.Trace;
import dev.pawl.engine.reference.TraceEvent;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Proof;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Zone;
import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.BiPredicate;

/**
 * Makes a failing pair of rule book and trace small: drops rules and events, replaces expressions by their operands or
 * by constants, and shortens durations, as long as it still fails.
 */
final class Shrinker {
  private static final int MOST_STEPS = 3000;

  private final BiPredicate<RuleBook, Trace> fails;
  private RuleBook book;
  private Trace trace;

  private Shrinker(RuleBook book, Trace trace, BiPredicate<RuleBook, Trace> fails) {
    this.book = book;
    this.trace = trace;
    this.fails = fails;
  }

  /** The smallest failing pair found, written out. */
  static Case shrink(RuleBook book, Trace trace, BiPredicate<RuleBook, Trace> fails) {
    Shrinker shrinker = new Shrinker(book, trace, fails);
    int steps = 0;
    while (steps < MOST_STEPS && shrinker.step()) {
      steps++;
    }
    return new Case(shrinker.book, shrinker.trace);
  }

  private boolean step() {
    return fewerRules() || shorterTrace() || simplerRule() || simplerZone();
  }

  record Case(RuleBook book, Trace trace) {
    @Override
    public String toString() {
      return RuleText.of(book, trace);
    }
  }

  private boolean accept(RuleBook candidateBook, Trace candidateTrace) {
    boolean failing = fails.test(candidateBook, candidateTrace);
    if (failing) {
      book = candidateBook;
      trace = candidateTrace;
    }
    return failing;
  }

  private boolean fewerRules() {
    for (Rule rule : book.rules()) {
      if (book.rules().size() > 1
          && accept(withRules(List.of(TestSignals.rule(0, rule.duty(), rule.proof(), rule.resolution()))), trace)) {
        return true;
      }
    }
    if (book.zones().isEmpty()) {
      return false;
    }
    List<Zone> fewer = book.zones().subList(0, book.zones().size() - 1);
    boolean used = book.toString().contains("zone=" + fewer.size());
    return !used && accept(new RuleBook("", 0, book.signals(), fewer, book.rules()), trace);
  }

  private RuleBook withRules(List<Rule> rules) {
    return new RuleBook("", 0, book.signals(), book.zones(), rules);
  }

  private boolean shorterTrace() {
    for (int drop = trace.events().size() - 1; drop >= 0; drop--) {
      List<TraceEvent> fewer = new ArrayList<>(trace.events());
      fewer.remove(drop);
      if (!fewer.isEmpty() && accept(book, new Trace(fewer, trace.statedEnd(), trace.sampling()))) {
        return true;
      }
    }
    if (trace.statedEnd().isPresent() && accept(book, new Trace(trace.events(), OptionalLong.empty(),
        trace.sampling()))) {
      return true;
    }
    for (int from = 1; from < trace.events().size(); from++) {
      boolean gap = trace.events().get(from).time() > trace.events().get(from - 1).time();
      if (gap && accept(book, closedUp(from))) {
        return true;
      }
    }
    return trace.start() != 0 && accept(book, moved(-trace.start()));
  }

  /** The trace with the events from an index on 1 ns earlier. */
  private Trace closedUp(int from) {
    List<TraceEvent> events = new ArrayList<>(trace.events());
    for (int i = from; i < events.size(); i++) {
      events.set(i, new TraceEvent(events.get(i).time() - 1, events.get(i).signal(), events.get(i).value()));
    }
    return new Trace(events, trace.statedEnd().isPresent() ? OptionalLong.of(trace.end() - 1) : OptionalLong.empty(),
        trace.sampling());
  }

  private Trace moved(long by) {
    List<TraceEvent> events = trace.events().stream().map(e -> new TraceEvent(e.time() + by, e.signal(), e.value()))
        .toList();
    return new Trace(events, trace.statedEnd().isPresent() ? OptionalLong.of(trace.end() + by) : OptionalLong.empty(),
        trace.sampling());
  }

  private boolean simplerRule() {
    Rule rule = book.rules().get(0);
    if (book.rules().size() != 1) {
      return false;
    }
    if (rule.resolution() > 0
        && accept(withRules(List.of(TestSignals.rule(0, rule.duty(), rule.proof(), rule.resolution() - 1))), trace)) {
      return true;
    }
    for (Object duty : variants(rule.duty())) {
      if (canStand((Rule.Duty) duty, rule.proof())
          && accept(withRules(List.of(TestSignals.rule(0, (Rule.Duty) duty, rule.proof(), rule.resolution()))),
          trace)) {
        return true;
      }
    }
    for (Proof proof : simpler(rule.proof())) {
      if (accept(withRules(List.of(TestSignals.rule(0, rule.duty(), proof, rule.resolution()))), trace)) {
        return true;
      }
    }
    return false;
  }

  /** What has to stay so can be tried only where something has to. */
  private static boolean canStand(Rule.Duty duty, Proof proof) {
    return duty.match(when -> when.demand().stay().isPresent(), always -> false)
        || proof.trials().stream().noneMatch(trial -> trial.match(byTrigger -> false, Proof.ByEvent::ofStay));
  }

  private static List<Proof> simpler(Proof proof) {
    List<Proof> simpler = new ArrayList<>();
    for (int index = 0; index < proof.trials().size(); index++) {
      List<Proof.Trial> fewer = new ArrayList<>(proof.trials());
      Proof.Trial trial = fewer.remove(index);
      simpler.add(new Proof(fewer, ""));
      for (Object variant : variants(trial)) {
        List<Proof.Trial> other = new ArrayList<>(proof.trials());
        other.set(index, (Proof.Trial) variant);
        simpler.add(new Proof(other, ""));
      }
    }
    return simpler;
  }

  private boolean simplerZone() {
    for (int index = 0; index < book.zones().size(); index++) {
      Zone zone = book.zones().get(index);
      for (boolean entry : List.of(true, false)) {
        for (Object end : variants(entry ? zone.entry() : zone.exit())) {
          List<Zone> zones = new ArrayList<>(book.zones());
          Zone.Boundary boundary = (Zone.Boundary) end;
          zones.set(index, new Zone(index, zone.name(), entry ? boundary : zone.entry(), entry ? zone.exit() : boundary,
              zone.length(), zone.holds(), zone.startsWith(), zone.position()));
          if (accept(new RuleBook("", 0, book.signals(), zones, book.rules()), trace)) {
            return true;
          }
        }
      }
    }
    return false;
  }

  /** Everything that can stand in the place of a node and is smaller by one step. */
  private static List<Object> variants(Object node) {
    List<Object> variants = new ArrayList<>(replacements(node));
    if (node instanceof Optional<?> optional) {
      if (optional.isPresent()) {
        variants.add(Optional.empty());
        variants(optional.get()).forEach(inner -> variants.add(Optional.of(inner)));
      }
    } else if (node instanceof Long duration) {
      for (long shorter : new long[] {0, duration / 2, duration - 1}) {
        if (shorter >= 0 && shorter < duration) {
          variants.add(shorter);
        }
      }
    } else if (node instanceof Double number && number != 0 && number != 1) {
      variants.add(0.0);
    } else if (node instanceof Record) {
      RecordComponent[] components = node.getClass().getRecordComponents();
      for (int i = 0; i < components.length; i++) {
        for (Object inner : variants(component(node, components[i]))) {
          variants.add(rebuilt(node, components, i, inner));
        }
      }
    }
    return variants;
  }

  private static List<Object> replacements(Object node) {
    List<Object> smaller = new ArrayList<>();
    boolean expression = node instanceof BoolExpr || node instanceof NumExpr;
    if (!expression || node instanceof BoolExpr.Constant || node instanceof NumExpr.Constant) {
      return smaller;
    }
    smaller.addAll(node instanceof BoolExpr ? List.of(new BoolExpr.Constant(false), new BoolExpr.Constant(true))
        : List.of(new NumExpr.Constant(0), new NumExpr.Constant(1)));
    for (RecordComponent component : node.getClass().getRecordComponents()) {
      Object inner = component(node, component);
      if (inner instanceof BoolExpr && node instanceof BoolExpr || inner instanceof NumExpr
          && node instanceof NumExpr) {
        smaller.add(inner);
      }
    }
    return smaller;
  }

  private static Object component(Object node, RecordComponent component) {
    try {
      component.getAccessor().setAccessible(true);
      return component.getAccessor().invoke(node);
    } catch (ReflectiveOperationException e) {
      throw new AssertionError(e);
    }
  }

  private static Object rebuilt(Object node, RecordComponent[] components, int changed, Object value) {
    Class<?>[] types = new Class<?>[components.length];
    Object[] arguments = new Object[components.length];
    for (int i = 0; i < components.length; i++) {
      types[i] = components[i].getType();
      arguments[i] = i == changed ? value : component(node, components[i]);
    }
    try {
      return node.getClass().getDeclaredConstructor(types).newInstance(arguments);
    } catch (ReflectiveOperationException e) {
      throw new AssertionError(e);
    }
  }
}
