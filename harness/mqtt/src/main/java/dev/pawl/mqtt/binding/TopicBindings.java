package dev.pawl.mqtt.binding;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import dev.pawl.trace.bindings.BindingsFile;
import dev.pawl.trace.bindings.Conversion;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/**
 * The places of all signals on a broker.
 *
 * @param list one binding for each bound signal
 */
public record TopicBindings(List<TopicBinding> list) {

  /** Name of the section of a bindings file. */
  public static final String SECTION = "topics";

  /**
   * Where signals are without bindings: those of a ride that is listened to, and those that a bench is played and
   * answers on.
   */
  public static final String RIDE_PREFIX = "ride";

  public static final String BENCH_PREFIX = "bench";

  public TopicBindings {
    list = List.copyOf(list);
  }

  /** The bindings, or what is wrong with them. */
  public record Resolved(TopicBindings bindings, List<Diagnostic> diagnostics) {
    public Resolved {
      diagnostics = List.copyOf(diagnostics);
    }

    public boolean hasErrors() {
      return diagnostics.stream().anyMatch(Diagnostic::isError);
    }
  }

  /** Reads the section {@code topics} of a bindings file. */
  public static Resolved resolve(BindingsFile file, RuleBook book) {
    return new TopicSection(file, book).resolve();
  }

  /** Every signal of the book as plain text on the topic {@code prefix/name}. */
  public static TopicBindings byName(RuleBook book, String prefix) {
    List<TopicBinding> bindings = new ArrayList<>();
    for (Signal signal : book.signals()) {
      bindings.add(new TopicBinding(signal.index(), prefix + "/" + signal.name(), new PayloadForm.Plain(),
          new Conversion.Plain(), Position.NOWHERE));
    }
    return new TopicBindings(bindings);
  }

  /** The bindings of signals of the given directions only. */
  public TopicBindings of(RuleBook book, Set<Signal.Direction> directions) {
    return new TopicBindings(list.stream().filter(b -> directions.contains(book.signals().get(b.signal()).direction()))
        .toList());
  }

  /** What is published to; several signals may share a topic. */
  public List<String> topics() {
    return list.stream().map(TopicBinding::topic).distinct().toList();
  }

  /** What to subscribe to. */
  public List<String> filters() {
    return list.stream().flatMap(binding -> binding.form().match(
        plain -> Stream.of(binding.topic()),
        json -> Stream.of(binding.topic()),
        metric -> Stream.of(metric.source().nodeFilter(), metric.source().deviceFilter()))).distinct().toList();
  }

  /** The binding of a signal; empty if it has none. */
  public Optional<TopicBinding> of(int signal) {
    return list.stream().filter(b -> b.signal() == signal).findFirst();
  }

  /** Names of signals that have no topic, so that they stay unknown. */
  public List<String> unbound(RuleBook book) {
    return book.signals().stream().filter(s -> of(s.index()).isEmpty()).map(Signal::name).toList();
  }
}
