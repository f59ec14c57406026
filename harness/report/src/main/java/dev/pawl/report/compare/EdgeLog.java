package dev.pawl.report.compare;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import java.util.ArrayList;
import java.util.List;

/** A sink that passes everything on and notes each change of the outputs. Its size follows the number of changes. */
public final class EdgeLog implements EventSink {

  private final EventSink next;
  private final List<List<Edge>> edges = new ArrayList<>();

  /**
   * A value that a signal took.
   *
   * @param time nanoseconds
   * @param value engine value
   */
  record Edge(long time, long value) {}

  /** A log of the outputs of a rule book. */
  public EdgeLog(RuleBook book, EventSink next) {
    this.next = next;
    for (Signal signal : book.signals()) {
      edges.add(signal.direction() == Signal.Direction.OUTPUT ? new ArrayList<>() : null);
    }
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    List<Edge> noted = edges.get(signal);
    if (noted != null && (noted.isEmpty() || noted.get(noted.size() - 1).value() != value)) {
      noted.add(new Edge(time, value));
    }
    next.event(time, signal, value, line);
  }

  @Override
  public void advanceTo(long time) {
    next.advanceTo(time);
  }

  /** The changes of a signal, the value it had first among them; empty for what is no output. */
  List<Edge> of(int signal) {
    return edges.get(signal) == null ? List.of() : edges.get(signal);
  }
}
