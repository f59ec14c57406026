package dev.pawl.run.source;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.report.model.Reading;
import dev.pawl.report.words.ValueText;
import dev.pawl.run.EventSource;
import dev.pawl.run.RunOfAnother;
import dev.pawl.run.SourceJudge;
import dev.pawl.run.SourceOfAnother;
import dev.pawl.trace.bindings.StatedBeginning;
import dev.pawl.trace.intake.Progress;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/**
 * A recorded source of which it is stated what signals were before their first rows. Where a first row is stated to be
 * a change, the source is looked at once before, up to the first rows of all those signals.
 */
public final class BegunSource implements SourceOfAnother {

  private final EventSource source;
  private final StatedBeginning stated;
  private final RuleBook book;
  private Optional<Map<Integer, Long>> turned = Optional.empty();

  private BegunSource(EventSource source, StatedBeginning stated, RuleBook book) {
    this.source = source;
    this.stated = stated;
    this.book = book;
  }

  /** The source, begun with what is stated; the source itself where nothing is. */
  public static EventSource of(EventSource source, StatedBeginning stated, RuleBook book) {
    return stated.isNone() ? source : new BegunSource(source, stated, book);
  }

  @Override
  public EventSource source() {
    return source;
  }

  @Override
  public EventSource forAnotherLook() {
    BegunSource again = new BegunSource(source.forAnotherLook(), stated, book);
    again.turned = turned;
    return again;
  }

  @Override
  public Run begin(boolean[] needed) throws IOException {
    if (turned.isEmpty()) {
      turned = Optional.of(turned());
    }
    return new Begun(source.begin(needed));
  }

  /** What a result says of values that are stated; nothing if there are none. */
  public static Optional<Reading.Counter> taken(String when, Map<Integer, Long> values, RuleBook book) {
    List<String> names = new TreeMap<>(values).entrySet().stream().map(each ->
        book.signals().get(each.getKey()).name() + " " + ValueText.of(book.signals().get(each.getKey()).type(),
        each.getValue())).toList();
    return names.isEmpty() ? Optional.empty() : Optional.of(new Reading.Counter((names.size() == 1 ? "signal"
        : "signals") + " taken to have been " + when + ", as the bindings state: " + SourceJudge.names(names),
        names.size()));
  }

  /** The other values than those of the first rows. */
  private Map<Integer, Long> turned() throws IOException {
    FirstRows first = new FirstRows(stated.others());
    if (!stated.others().isEmpty()) {
      boolean[] asked = new boolean[book.signals().size()];
      stated.others().forEach(signal -> asked[signal] = true);
      try (Run run = source.forAnotherLook().begin(asked)) {
        run.runTo(first, (bytes, lines) -> !first.left.isEmpty());
      }
    }
    return first.turned;
  }

  /** What the first rows of some bools are; one that is not known tells of no change. */
  private static final class FirstRows implements EventSink {

    private final Set<Integer> left;
    private final Map<Integer, Long> turned = new HashMap<>();

    FirstRows(Set<Integer> signals) {
      left = new HashSet<>(signals);
    }

    @Override
    public void event(long time, int signal, long value, long line) {
      if (left.remove(signal) && value != UNKNOWN) {
        turned.put(signal, 1 - value);
      }
    }

    @Override
    public void advanceTo(long time) {
      // Events bear their own times.
    }
  }

  /** One run of it. */
  private final class Begun extends RunOfAnother {

    Begun(Run run) {
      super(run);
    }

    @Override
    public Summary runTo(EventSink sink, Progress progress) throws IOException {
      Map<Integer, Long> values = new TreeMap<>(stated.values());
      values.putAll(turned.orElseThrow());
      Beginning beginning = new Beginning(values, sink);
      Summary summary = run.runTo(beginning, progress);
      if (!summary.isRejected() && summary.extent().end().isPresent()) {
        beginning.begin();
      }
      List<Integer> silent = summary.silent().stream().filter(signal -> !values.containsKey(signal)).toList();
      return new Summary(summary.extent(), silent, assumed(summary.reading()), summary.control());
    }

    private Reading assumed(Reading met) {
      List<Reading.Counter> counters = new ArrayList<>(met.counters());
      taken("so before the first row", stated.values(), book).ifPresent(counters::add);
      taken("the other way before the first row", turned.orElseThrow(), book).ifPresent(counters::add);
      return new Reading(counters, met.problems(), met.problemCount(), met.failure());
    }
  }
}
